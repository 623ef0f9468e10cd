package balance_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor/air"
	"hotroom/advisor/balance"
	"hotroom/advisor/heat"
	"hotroom/advisor/regulator"
)

func drawCase() *rapid.Generator[balance.Case] {
	return rapid.Custom(func(t *rapid.T) balance.Case {
		number := func(low, high float64, label string) float64 { return rapid.Float64Range(low, high).Draw(t, label) }
		c := balance.Case{
			RoomC: number(-20, 60, "room"), PressurePa: air.Pressure(number(0, 3000, "altitude")), AirspeedMS: number(0, 3, "speed"),
			CaseHeatW: number(0, 400, "case heat"),
			Loss:      regulator.Line{At25W: number(1, 40, "loss")},
			Path: heat.Path{
				SinkAreaM2: number(0, 0.15, "area"), SinkHeightM: number(0.01, 0.06, "height"), PadKPerW: 0.25, Factor: 0.9,
				BoardAreaM2: number(0.005, 0.02, "board"),
			},
			SocketRiseK: number(0, 25, "socket"), Coefficients: balance.Coefficients{number(0, 8, "b"), number(0.3, 1.8, "θ1"), number(0.1, 2, "θ2")},
		}
		c.Loss.PerKW = c.Loss.At25W * number(0, 0.005, "per K")
		if rapid.Bool().Draw(t, "closed") {
			c.CaseRisePerW = air.CaseRisePerW(number(20, 150, "flow"), c.RoomC, c.PressurePa)
		}
		return c
	})
}

// hot gives the balance in °C, +Inf when there is none.
func hot(c balance.Case) float64 {
	s, ok := c.Solve()
	if !ok {
		return math.Inf(1)
	}
	return s.HotC
}

// Both sides agree at the balance, and nothing below it balances.
func TestSolveFindsTheLowestBalance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCase().Draw(t, "case")
		s, ok := c.Solve()
		top := s.HotC
		if !ok {
			top = balance.RunawayC
		} else if math.Abs(s.RightSideC-s.HotC) > 1e-5 {
			t.Fatalf("sides differ: %g and %g °C", s.RightSideC, s.HotC)
		}
		for at := c.RoomC; at < top-1e-3; at += 0.5 {
			if c.At(at).RightSideC < at {
				t.Fatalf("a balance was passed below %g °C; the answer is %g (%v)", at, s.HotC, ok)
			}
		}
	})
}

// A hotter room, thinner air, more heat, less air flow and less sink never make
// the hot spot cooler.
func TestWorseNeverCools(t *testing.T) {
	worse := []struct {
		name string
		do   func(c *balance.Case, by float64)
	}{
		{"hotter room", func(c *balance.Case, by float64) { c.RoomC += 10 * by }},
		{"thinner air", func(c *balance.Case, by float64) { c.PressurePa *= 1 - 0.2*by; c.CaseRisePerW /= 1 - 0.2*by }},
		{"more loss", func(c *balance.Case, by float64) { c.Loss.At25W *= 1 + by; c.Loss.PerKW *= 1 + by }},
		{"less flow", func(c *balance.Case, by float64) { c.CaseRisePerW *= 1 + by }},
		{"slower air", func(c *balance.Case, by float64) { c.AirspeedMS *= 1 - by }},
		{"smaller sink", func(c *balance.Case, by float64) { c.Path.SinkAreaM2 *= 1 - by }},
	}
	rapid.Check(t, func(t *rapid.T) {
		c := drawCase().Draw(t, "case")
		which := rapid.IntRange(0, len(worse)-1).Draw(t, "which")
		after := c
		worse[which].do(&after, rapid.Float64Range(0, 1).Draw(t, "by"))
		if hot(after) < hot(c)-1e-5 {
			t.Fatalf("%s cools from %g to %g °C", worse[which].name, hot(c), hot(after))
		}
	})
}

// SolveBelow gives what Solve gives up to its temperature, and nothing above.
func TestSolveBelow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := drawCase().Draw(t, "case")
		top := rapid.Float64Range(-30, balance.RunawayC).Draw(t, "top")
		s, ok := c.SolveBelow(top, rapid.Float64Range(-30, 300).Draw(t, "guess"))
		switch want := hot(c); {
		case math.Abs(want-top) < 1e-4:
		case ok != (want < top):
			t.Fatalf("settles below %g °C: %v; the balance is at %g °C", top, ok, want)
		case ok && math.Abs(s.HotC-want) > 1e-5:
			t.Fatalf("got %g °C, want %g °C", s.HotC, want)
		}
	})
}

func TestCannotSettle(t *testing.T) {
	c := sample()
	c.Loss = regulator.Line{At25W: 60, PerKW: 0.4}
	c.Path.SinkAreaM2 = 0
	if s, ok := c.Solve(); ok {
		t.Errorf("settles at %g °C, but its heat grows faster than it is shed", s.HotC)
	}
}

// A learned offset can put the balance below the room: the room is the answer,
// nothing cools below it.
func TestNeverBelowTheRoom(t *testing.T) {
	c := sample()
	c.CaseRisePerW, c.Loss, c.SocketRiseK, c.Coefficients[0] = 0, regulator.Line{At25W: 0.1}, 0, -20
	if got := hot(c); got != c.RoomC {
		t.Errorf("got %g °C, want the room's %g °C", got, c.RoomC)
	}
}

func TestLoopGainIsTheSlope(t *testing.T) {
	c := sample()
	s, _ := c.Solve()
	const h = 0.5
	slope := (c.At(s.HotC+h).RightSideC - c.At(s.HotC-h).RightSideC) / (2 * h)
	if math.Abs(s.LoopGain-slope) > 1e-3 || s.LoopGain <= -1 || s.LoopGain >= 1 {
		t.Errorf("loop gain %g, slope %g", s.LoopGain, slope)
	}
}

func BenchmarkSolve(b *testing.B) {
	c := sample()
	for b.Loop() {
		if _, ok := c.Solve(); !ok {
			b.Fatal("the sample should settle")
		}
	}
}
