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

// ceilingToleranceK is how closely a ceiling on the room is found.
const ceilingToleranceK = 1e-6

// roomCeiling finds the room in °C at which the kept margin of a demand is used
// up, everything else the same; NaN outside -50 to 100 °C. The clock that the
// caps allow is the right one at the ceiling, since the margin is used up
// before the expected hot spot reaches any throttle temperature.
func (s *scene) roomCeiling(held estimate) float64 {
	near := held
	kept := func(roomC float64) float64 {
		near = s.estimate(held.demand, roomC, &near)
		return near.kept()
	}
	cold, hot := kept(coldestSearchC), kept(hottestSearchC)
	if cold < 0 || hot > 0 {
		return math.NaN()
	}
	return root.Find(kept, coldestSearchC, cold, hottestSearchC, hot, ceilingToleranceK)
}

// powerCeiling finds the package power in W at which the kept margin is used
// up, along the chip's own operating points whatever the caps. Where the last
// point still has margin its power is given and atLeast is true; NaN where
// even the first point has none. Near is any estimate of the scene.
func (s *scene) powerCeiling(near estimate) (packageW float64, atLeast bool) {
	kept := func(ghz float64) float64 {
		near = s.estimate(s.curve.At(ghz, s.load.Activity), s.roomC, &near)
		return near.kept()
	}
	first, last := s.curve.First(), s.curve.Last()
	keptFirst, keptLast := kept(first), kept(last)
	switch {
	case keptFirst < 0:
		return math.NaN(), false
	case keptLast >= 0:
		return s.curve.At(last, s.load.Activity).PackageW, true
	}
	ghz := root.Find(kept, first, keptFirst, last, keptLast, clockToleranceGHz)
	return s.curve.At(ghz, s.load.Activity).PackageW, false
}
