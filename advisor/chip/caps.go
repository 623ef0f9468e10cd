package chip

import (
	"sort"

	"hotroom/advisor/root"
	"hotroom/knowledge"
)

// What bounds the clock.
const (
	ByChip        = "chip"        // the target itself
	ByPower       = "power"       // the power cap
	ByCurrent     = "current"     // the current cap
	ByTemperature = "temperature" // the board's throttle temperature
)

// Caps are the limits of a power setup; nil means no cap.
type Caps struct {
	PowerW   *float64 // package power, W
	CurrentA *float64 // core current, A
}

// RatedCaps gives the chip maker's rated sustained power and maximum current.
func RatedCaps(k *knowledge.Chip) Caps {
	return Caps{PowerW: &k.RatedPowerW, CurrentA: &k.CurrentMaxA}
}

// ShippedCaps gives the board's limits as it leaves the factory; what the
// board does not state falls back to the chip's rating.
func ShippedCaps(b *knowledge.Board, k *knowledge.Chip) Caps {
	caps := RatedCaps(k)
	if b.Limit.PowerW != nil {
		caps.PowerW = b.Limit.PowerW
	}
	if b.Limit.CurrentA != nil {
		caps.CurrentA = b.Limit.CurrentA
	}
	return caps
}

// slack is the share by which a cap may be passed: a demand that equals it meets
// it to the last bits only.
const slack = 1e-12

// Broken says which cap a demand breaks, the one broken by more where it breaks
// both, or "" when it respects them.
func (c Caps) Broken(d Demand) string {
	if c.used(d) <= 1+slack {
		return ""
	}
	return c.tighter(d)
}

// used gives the share of a cap that a demand takes, the larger of both.
func (c Caps) used(d Demand) float64 { return max(use(d.PackageW, c.PowerW), use(d.CoreA, c.CurrentA)) }

// tighter says which cap that is.
func (c Caps) tighter(d Demand) string {
	if use(d.PackageW, c.PowerW) >= use(d.CoreA, c.CurrentA) {
		return ByPower
	}
	return ByCurrent
}

// use gives the share of a cap that is used; 0 without a cap.
func use(drawn float64, cap *float64) float64 {
	if cap == nil {
		return 0
	}
	return drawn / *cap
}

// Held is the clock that the caps allow.
type Held struct {
	Demand
	LimitedBy string // ByChip, ByPower or ByCurrent
	// FirstPoint says that even the first operating point breaks a cap: the
	// demand is the first point's, and the chip must run lower than its table
	// goes.
	FirstPoint bool
}

// holdSteps are the steps from the first point to the target in which an
// allowed clock is looked for.
const holdSteps = 256

// Hold finds the highest clock, at most the target in GHz, whose power and
// current respect the caps under a load that uses a share of the dynamic
// power. The current need not rise everywhere between two points, so the clock
// is sought downwards in small steps, then between two of them.
func (c *Curve) Hold(targetGHz, activity float64, caps Caps) Held {
	at := c.At(targetGHz, activity)
	if caps.Broken(at) == "" {
		return Held{Demand: at, LimitedBy: ByChip}
	}
	step := func(i int) float64 { return c.first + float64(i)*(targetGHz-c.first)/holdSteps }
	for i := holdSteps; i > 0; {
		// Where a cap is passed by a factor, no lower clock respects it before its
		// power is less by that factor: power falls with the clock, voltage does
		// not rise, and the current is their quotient.
		most := at.PackageW / caps.used(at) * (1 + slack)
		i = sort.Search(i, func(lower int) bool { return c.power(step(lower), activity) > most }) - 1
		if i < 0 {
			break
		}
		if at = c.At(step(i), activity); caps.Broken(at) == "" {
			return c.between(at.GHz, step(i+1), activity, caps)
		}
	}
	at = c.At(c.first, activity)
	return Held{Demand: at, LimitedBy: caps.tighter(at), FirstPoint: true}
}

// between finds where a cap is met between an allowed and a forbidden clock in
// GHz.
func (c *Curve) between(allowed, forbidden, activity float64, caps Caps) Held {
	spare := func(ghz float64) float64 { return 1 + slack - caps.used(c.At(ghz, activity)) }
	ghz := root.Near(spare, allowed, forbidden, allowed, spare(allowed), forbidden, spare(forbidden), slack, clockToleranceGHz)
	at := c.At(ghz, activity)
	// The root may lie the last bits above the cap: step below it.
	for step := clockToleranceGHz; !(caps.used(at) <= 1+slack); step *= 2 {
		at = c.At(max(at.GHz-step, allowed), activity)
	}
	return Held{Demand: at, LimitedBy: caps.tighter(at)}
}

// clockToleranceGHz is how closely a clock that meets a cap is found: to the
// last bits.
const clockToleranceGHz = 1e-15
