package advisor

import (
	"math"

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
	t := trail{at: s.roomC, hotC: usual(s.roomC), perUnit: 1}
	if held.settles {
		t.hotC = held.state.HotC
	}
	kept := func(roomC float64) float64 {
		e := s.estimate(held.demand, roomC, t.guess(roomC))
		t.add(roomC, &e)
		return e.kept()
	}
	// A kelvin more in the room takes about one from the margin.
	near := min(max(s.roomC+held.kept(), coldestSearchC), hottestSearchC)
	return root.Near(kept, coldestSearchC, hottestSearchC, s.roomC, held.kept(), near, kept(near), keptToleranceK, ceilingToleranceK)
}

// powerCeiling finds the package power in W at which the kept margin is used
// up, along the chip's own operating points whatever the caps. Where the last
// point still has margin its power is given and atLeast is true; NaN where
// even the first point has none. Near is any estimate of the scene that settles.
func (s *scene) powerCeiling(near *estimate) (packageW float64, atLeast bool) {
	t := trail{at: near.demand.GHz, hotC: near.state.HotC}
	kept := func(ghz float64) float64 {
		e := s.estimate(s.curve.At(ghz, s.load.Activity), s.roomC, t.guess(ghz))
		t.add(ghz, &e)
		return e.kept()
	}
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
