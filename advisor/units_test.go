package advisor_test

import (
	"fmt"
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor/sentence"
)

// typed is a value in two units, as people type it. All are exact.
type typed struct{ plain, other string }

// decimal is a number of so many tenths, hundredths … as a text.
func decimal(units int64, digits int) *big.Rat {
	per := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(digits)), nil)
	return new(big.Rat).SetFrac(big.NewInt(units), per)
}

func fraction(text string) *big.Rat {
	r, _ := new(big.Rat).SetString(text)
	return r
}

// exact writes a number of at most nine decimals, without needless zeros.
func exact(r *big.Rat) string {
	text := r.FloatString(9)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

// room gives a temperature in °C, and in °F or K.
func typedRoom(rng *rand.Rand) typed {
	c := decimal(rng.Int64N(6500)-1500, 2)
	f := new(big.Rat).Add(new(big.Rat).Mul(c, fraction("9/5")), fraction("32"))
	k := new(big.Rat).Add(c, fraction("273.15"))
	return typed{exact(c), pick(rng, exact(c)+" °C", exact(f)+"F", exact(f)+" °f", exact(f)+" fahrenheit", exact(k)+"K", exact(k)+" kelvin")}
}

func typedPower(rng *rand.Rand) typed {
	w := decimal(300+rng.Int64N(4000), 1)
	kilo := exact(new(big.Rat).Quo(w, fraction("1000")))
	return typed{exact(w), pick(rng, exact(w)+" watts", kilo+"kW", kilo+" kilowatt")}
}

func typedCurrent(rng *rand.Rand) typed {
	a := exact(decimal(300+rng.Int64N(4000), 1))
	return typed{a, pick(rng, a+"A", a+" amps", a+" Ampere")}
}

func typedClock(rng *rand.Rand, ghz float64) typed {
	g := decimal(int64(ghz*1000), 3)
	mega := exact(new(big.Rat).Mul(g, fraction("1000")))
	return typed{exact(g), pick(rng, exact(g)+"GHz", mega+"MHz", mega+" megahertz")}
}

// typedAltitude gives whole steps of 125 ft, which are 38.1 m.
func typedAltitude(rng *rand.Rand) typed {
	steps := big.NewRat(rng.Int64N(70), 1)
	m := new(big.Rat).Mul(steps, fraction("38.1"))
	feet := exact(new(big.Rat).Mul(steps, fraction("125")))
	kilo := exact(new(big.Rat).Quo(m, fraction("1000")))
	return typed{exact(m), pick(rng, exact(m)+" metres", kilo+"km", feet+"ft", feet+" feet")}
}

func pick(rng *rand.Rand, forms ...string) string { return forms[rng.IntN(len(forms))] }

// A question in other units is the same question and has the same answer.
func TestMetamorphicUnits(t *testing.T) {
	all := tellWorlds(t)
	cases := 0
	rapid.Check(t, func(rt *rapid.T) {
		w := all[rapid.IntRange(0, worlds-1).Draw(rt, "world")]
		rng := rand.New(rand.NewPCG(rapid.Uint64().Draw(rt, "seed"), 0))
		names := sentence.NewNames(w.snapshot.Base())
		q := w.question(rng)
		chip, _ := w.snapshot.Base().Chip(q.Chip)
		plain := sentence.Spoken{Board: q.Board, Chip: q.Chip, Enclosure: q.Enclosure, Cooler: q.Cooler, Load: q.Load, Setup: q.Setup}
		other := plain
		vary := func(field func(*sentence.Spoken) *string, v typed) { *field(&plain), *field(&other) = v.plain, v.other }
		vary(func(s *sentence.Spoken) *string { return &s.Room }, typedRoom(rng))
		vary(func(s *sentence.Spoken) *string { return &s.Graphics }, typedPower(rng))
		vary(func(s *sentence.Spoken) *string { return &s.Altitude }, typedAltitude(rng))
		if chip != nil {
			vary(func(s *sentence.Spoken) *string { return &s.GHz }, typedClock(rng, chip.AllCoreGHz))
		}
		if q.Setup == "custom" {
			vary(func(s *sentence.Spoken) *string { return &s.Power }, typedPower(rng))
			vary(func(s *sentence.Spoken) *string { return &s.Current }, typedCurrent(rng))
		}
		one, two := names.Resolve(plain, q), names.Resolve(other, q)
		if fmt.Sprint(one.Ask) != fmt.Sprint(two.Ask) {
			rt.Fatalf("%+v asks %v, %+v asks %v", plain, one.Ask, other, two.Ask)
		}
		same, got := answered(rt, w.snapshot, one.Question), answered(rt, w.snapshot, two.Question)
		if got != same {
			rt.Fatalf("%+v\n%+v\n%s", plain, other, difference(same, got))
		}
		cases++
	})
	t.Logf("%d answers, each with its ranking, compared", cases)
}
