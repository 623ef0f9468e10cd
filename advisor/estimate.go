package advisor

import (
	"math"

	"hotroom/advisor/balance"
	"hotroom/advisor/chip"
	"hotroom/advisor/evidence"
	"hotroom/advisor/regulator"
)

// oneSided95 is the 95 % quantile of the standard normal distribution: the
// ends of a 90 % interval, or a one-sided 95 % bound.
const oneSided95 = 1.6448536269514722

// estimate is the hot spot of a board at one demand, with its uncertainty and
// its limits.
type estimate struct {
	demand       chip.Demand
	loss         regulator.Loss
	settles      bool
	state        balance.State
	uncertaintyK float64
	stageW       float64 // heat of one phase's switching stage; NaN when the board cannot settle
	limitC       float64 // the lowest limit
	limitKind    string
}

// estimate works out the hot spot at a demand in a room in °C. The nearer the
// guess in °C is to it, the sooner it is found.
func (s *scene) estimate(d chip.Demand, roomC, guessC float64) estimate {
	c, e := s.prepare(d, roomC)
	e.settle(s.parts, &c, balance.RunawayC, guessC)
	return e
}

// prepare puts together what an estimate needs.
func (s *scene) prepare(d chip.Demand, roomC float64) (balance.Case, estimate) {
	around := s.surroundings
	around.roomC = roomC
	c, loss := around.balance(s.parts, drawn{packageW: d.PackageW, coreA: d.CoreA, volts: d.Volts})
	return c, estimate{demand: d, loss: loss, stageW: math.NaN()}
}

// settle balances the heat, up to a temperature in °C.
func (e *estimate) settle(p *parts, c *balance.Case, topC, guessC float64) {
	if s, ok := c.SolveBelow(topC, guessC); ok {
		e.assess(p, s)
		return
	}
	e.limitC, e.limitKind = p.limits.Lowest(e.stageW)
}

// assess works out how sure a temperature is and what limits it.
func (e *estimate) assess(p *parts, s balance.State) {
	e.state, e.settles = s, true
	e.uncertaintyK = p.belief.Uncertainty(row(s), s.LoopGain)
	e.stageW = e.loss.Semiconductor.At(s.HotC)
	e.limitC, e.limitKind = p.limits.Lowest(e.stageW)
}

// usual guesses a hot spot in °C where nothing similar was worked out.
func usual(roomC float64) float64 { return roomC + balance.UsualRiseK }

// trail guesses a temperature from those found before it along one quantity: the
// room or the clock.
type trail struct {
	at      float64 // the quantity at the last one
	hotC    float64 // there
	perUnit float64 // how fast it changes, K per unit of the quantity
}

func (t *trail) guess(at float64) float64 { return t.hotC + t.perUnit*(at-t.at) }

// add goes on to another temperature in °C.
func (t *trail) add(at, hotC float64) {
	if at != t.at {
		*t = trail{at, hotC, (hotC - t.hotC) / (at - t.at)}
	}
}

// hot gives the expected hot spot in °C; +Inf when the board cannot settle.
func (e *estimate) hot() float64 {
	if !e.settles {
		return math.Inf(1)
	}
	return e.state.HotC
}

// highC gives the upper end of the 90 % interval in °C.
func (e *estimate) highC() float64 { return e.hot() + oneSided95*e.uncertaintyK }

// lowC gives the lower end of the 90 % interval in °C.
func (e *estimate) lowC() float64 { return e.hot() - oneSided95*e.uncertaintyK }

// kept gives the margin in K that is kept with 95 % confidence; -Inf when the
// board cannot settle.
func (e *estimate) kept() float64 { return e.limitC - e.highC() }

// exceeds gives the probability that the hot spot is above the limit.
func (e *estimate) exceeds() float64 {
	if !e.settles {
		return 1
	}
	return math.Erfc((e.limitC-e.state.HotC)/(e.uncertaintyK*math.Sqrt2)) / 2
}

// removedPercent gives the share of the parts-only uncertainty that runs
// removed at this estimate, percent.
func (e *estimate) removedPercent(b *evidence.Belief) float64 {
	x := row(e.state)
	before := evidence.PartsOnly()
	return 100 * (1 - b.Uncertainty(x, 0)/before.Uncertainty(x, 0))
}
