package chip

import "hotroom/knowledge"

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

// Broken says which cap a demand breaks, the one broken by more where it breaks
// both, or "" when it respects them.
func (c Caps) Broken(d Demand) string {
	// A demand that equals a cap meets it to the last bits only.
	const slack = 1e-12
	power, current := use(d.PackageW, c.PowerW), use(d.CoreA, c.CurrentA)
	switch {
	case max(power, current) <= 1+slack:
		return ""
	case power >= current:
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

// Hold finds the highest clock, at most the target in GHz, whose power and
// current respect the caps under a load that uses a share of the dynamic
// power.
func (c *Curve) Hold(targetGHz, activity float64, caps Caps) Held {
	at := c.At(targetGHz, activity)
	broken := caps.Broken(at)
	if broken == "" {
		return Held{Demand: at, LimitedBy: ByChip}
	}
	// The current need not rise everywhere between two points, so the highest
	// clock is sought downwards in small steps and then by halving.
	const steps = 256
	step := (targetGHz - c.first) / steps
	high := targetGHz
	for i := steps - 1; i >= 0; i-- {
		low := c.first + float64(i)*step
		if by := caps.Broken(c.At(low, activity)); by != "" {
			high, broken = low, by
			continue
		}
		return c.between(low, high, activity, caps, broken)
	}
	return Held{Demand: c.At(c.first, activity), LimitedBy: broken, FirstPoint: true}
}

// between halves the distance from an allowed clock to a forbidden one, in
// GHz, until they meet.
func (c *Curve) between(low, high, activity float64, caps Caps, broken string) Held {
	for range 60 {
		mid := (low + high) / 2
		if by := caps.Broken(c.At(mid, activity)); by != "" {
			high, broken = mid, by
		} else {
			low = mid
		}
	}
	return Held{Demand: c.At(low, activity), LimitedBy: broken}
}
