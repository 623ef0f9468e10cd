package advisor

import (
	"hotroom/advisor/chip"
	"hotroom/advisor/root"
	"hotroom/knowledge"
)

// How closely a lowered clock and a ceiling are found.
const (
	clockToleranceGHz  = 1e-9
	throttleToleranceK = 1e-5 // of the hot spot, before the last step
)

// sustained is the clock that is held and the estimate at it.
type sustained struct {
	estimate
	limitedBy  string
	firstPoint bool     // even the first operating point breaks a cap or the throttle temperature
	held       estimate // at the clock that the caps allow
}

// untouched gives the clock that the caps allow, whatever it does to the board.
func (s *scene) untouched() sustained {
	e := s.estimate(s.allowed.Demand, s.roomC, s.guessC)
	return sustained{estimate: e, limitedBy: s.allowed.LimitedBy, firstPoint: s.allowed.FirstPoint, held: e}
}

// throttled reports whether the board's maker states a throttle temperature
// that the hot spot at the clock that the caps allow would pass.
func (s *sustained) throttled(b *knowledge.Board) bool {
	return b.Limit.HotSpotC != nil && s.held.hot() > *b.Limit.HotSpotC
}

// sustain finds the clock that caps and temperature allow. Where the board's
// maker states a throttle temperature and the clock that the caps allow would
// be hotter, or could not settle, the clock is lowered until the expected hot
// spot meets it, but not below the chip's first operating point.
func (s *scene) sustain() sustained {
	out := s.untouched()
	if out.throttled(s.parts.board) {
		out.limitedBy = chip.ByTemperature
		out.estimate, out.firstPoint = s.lower(&out.held, *s.parts.board.Limit.HotSpotC)
	}
	return out
}

// lower finds the highest clock below that of an estimate whose expected hot
// spot is at most throttleC. True: even the first point is hotter.
func (s *scene) lower(held *estimate, throttleC float64) (estimate, bool) {
	at := func(ghz float64) estimate { return s.estimate(s.curve.At(ghz, s.load.Activity), s.roomC, throttleC) }
	spare := func(ghz float64) float64 {
		c, _ := s.prepare(s.curve.At(ghz, s.load.Activity), s.roomC)
		state := c.At(throttleC)
		return -state.Excess()
	}
	lowest, highest := s.curve.First(), held.demand.GHz
	spareLowest := spare(lowest)
	if spareLowest <= throttleToleranceK {
		if first := at(lowest); first.hot() > throttleC {
			return first, true
		}
	}
	ghz := root.Near(spare, lowest, highest, highest, spare(highest), lowest, spareLowest, throttleToleranceK, clockToleranceGHz)
	e := at(ghz)
	// The root may lie a hair above the throttle temperature: step below it.
	for step := clockToleranceGHz; e.hot() > throttleC; step *= 2 {
		ghz = max(ghz-step, lowest)
		e = at(ghz)
	}
	return e, false
}

// lossPercent gives the clock lost to heat in percent of the unthrottled one.
func (s *sustained) lossPercent() float64 {
	return 100 * (1 - s.demand.GHz/s.held.demand.GHz)
}
