package advisor

import (
	"math"

	"hotroom/advisor/balance"
	"hotroom/advisor/chip"
	"hotroom/advisor/root"
)

// The rooms that a ceiling is searched in, °C.
const (
	coldestSearchC = -50
	hottestSearchC = 100
)

// How closely a ceiling is found.
const (
	ceilingToleranceK = 1e-6 // of the room
	keptToleranceK    = 1e-5 // of the margin, before the last step
)

// roomCeiling finds the room in °C at which the kept margin of a demand is used
// up, everything else the same; NaN outside -50 to 100 °C. The clock that the
// caps allow is the right one at the ceiling, since the margin is used up
// before the expected hot spot reaches any throttle temperature. Held is the
// estimate in the scene's own room.
func (s *scene) roomCeiling(held *estimate) float64 {
	b := s.brink(s.roomC, held)
	kept := func(roomC float64) float64 { return b.kept(roomC, held.demand, roomC) }
	// A kelvin more in the room takes about one from the margin.
	near := min(max(s.roomC+held.kept(), coldestSearchC), hottestSearchC)
	keptNear := kept(near)
	if near == coldestSearchC && keptNear < 0 || near == hottestSearchC && keptNear > 0 {
		return math.NaN()
	}
	return root.Near(kept, coldestSearchC, hottestSearchC, s.roomC, held.kept(), near, keptNear, keptToleranceK, ceilingToleranceK)
}

// powerCeiling finds the package power in W at which the kept margin is used
// up, along the chip's own operating points whatever the caps. Where the last
// point still has margin its power is given and atLeast is true; NaN where
// even the first point has none. Near is any estimate of the scene that settles.
func (s *scene) powerCeiling(near *estimate) (packageW float64, atLeast bool) {
	b := s.brink(near.demand.GHz, near)
	kept := func(ghz float64) float64 { return b.kept(ghz, s.curve.At(ghz, s.load.Activity), s.roomC) }
	first, last, here, keptHere := s.curve.First(), s.curve.Last(), near.demand.GHz, near.kept()
	end := first // the end on the other side of zero
	if keptHere >= 0 {
		end = last
	}
	keptEnd := kept(end)
	switch {
	case end == first && keptEnd < 0:
		return math.NaN(), false
	case end == last && keptEnd >= 0:
		return s.curve.At(last, s.load.Activity).PackageW, true
	}
	ghz := root.Near(kept, first, last, end, keptEnd, here, keptHere, keptToleranceK, clockToleranceGHz)
	return s.curve.At(ghz, s.load.Activity).PackageW, false
}

// brink is where a scene's kept margin is used up: the temperature that the hot
// spot has there, along one quantity.
type brink struct {
	*scene
	trail
}

// brink guesses that temperature from an estimate at a value of the quantity.
func (s *scene) brink(at float64, e *estimate) brink {
	if !e.settles {
		return brink{s, trail{at: at, hotC: usual(s.roomC)}}
	}
	return brink{s, trail{at: at, hotC: e.state.HotC + e.kept()}}
}

// kept gives the kept margin in K at a demand in a room in °C, which belong to a
// value of the quantity: to the last digits near the brink, and of the right
// sign everywhere. It asks how far from balance the board is at the temperature
// that would just be allowed, which takes less than the balance itself.
func (b *brink) kept(at float64, d chip.Demand, roomC float64) float64 {
	const (
		tries  = 4
		closeK = 1.0 // from where a straight line leads to the last digits
	)
	c, e := b.prepare(d, roomC)
	hotC := b.guess(at)
	for range tries {
		s := c.Around(hotC)
		if !(s.LoopGain < 1) || hotC < roomC || hotC > balance.RunawayC {
			break
		}
		e.assess(b.parts, s)
		off := e.kept() // from the temperature that would just be allowed
		kept := off - s.Excess()/(1-s.LoopGain)
		hotC += off
		if math.Abs(off) <= max(closeK, math.Abs(kept)/2) {
			b.add(at, hotC)
			return kept
		}
	}
	e = b.estimate(d, roomC, hotC)
	return e.kept()
}
