package advisor

import (
	"math"

	"hotroom/advisor/balance"
	"hotroom/advisor/chip"
	"hotroom/advisor/evidence"
	"hotroom/advisor/limit"
	"hotroom/advisor/regulator"
)

// oneSided95 is the 95 % quantile of the standard normal distribution: the
// ends of a 90 % interval, or a one-sided 95 % bound.
const oneSided95 = 1.6448536269514722

// estimate is the hot spot of a board at one demand, with its uncertainty and
// its limits.
type estimate struct {
	demand       chip.Demand
	atRoomC      float64
	loss         regulator.Loss
	settles      bool
	state        balance.State
	uncertaintyK float64
	limits       []limit.Limit
}

// estimate works out the hot spot at a demand in a room in °C. Near is an
// estimate at a similar demand or room, from which the balance is found
// sooner; nil where there is none.
func (s *scene) estimate(d chip.Demand, roomC float64, near *estimate) estimate {
	around := s.surroundings
	around.roomC = roomC
	c, loss := around.balance(s.parts, drawn{packageW: d.PackageW, coreA: d.CoreA, volts: d.Volts})
	e := estimate{demand: d, loss: loss, atRoomC: roomC}
	if near != nil && near.settles {
		e.state, e.settles = c.SolveNear(near.state.HotC + roomC - near.atRoomC)
	} else {
		e.state, e.settles = c.Solve()
	}
	if !e.settles {
		e.limits = limit.All(s.parts.board, s.parts.stage, math.NaN())
		return e
	}
	e.uncertaintyK = s.parts.belief.Uncertainty(row(e.state), e.state.LoopGain)
	e.limits = limit.All(s.parts.board, s.parts.stage, loss.Semiconductor.At(e.state.HotC))
	return e
}

// hot gives the expected hot spot in °C; +Inf when the board cannot settle.
func (e *estimate) hot() float64 {
	if !e.settles {
		return math.Inf(1)
	}
	return e.state.HotC
}

// limitC gives the lowest limit in °C.
func (e *estimate) limitC() float64 { return e.limits[0].ValueC }

// highC gives the upper end of the 90 % interval in °C.
func (e *estimate) highC() float64 { return e.hot() + oneSided95*e.uncertaintyK }

// lowC gives the lower end of the 90 % interval in °C.
func (e *estimate) lowC() float64 { return e.hot() - oneSided95*e.uncertaintyK }

// kept gives the margin in K that is kept with 95 % confidence; -Inf when the
// board cannot settle.
func (e *estimate) kept() float64 { return e.limitC() - e.highC() }

// exceeds gives the probability that the hot spot is above the limit.
func (e *estimate) exceeds() float64 {
	if !e.settles {
		return 1
	}
	return math.Erfc((e.limitC()-e.state.HotC)/(e.uncertaintyK*math.Sqrt2)) / 2
}

// removedPercent gives the share of the parts-only uncertainty that runs
// removed at this estimate, percent.
func (e *estimate) removedPercent(b *evidence.Belief) float64 {
	x := row(e.state)
	before := evidence.PartsOnly()
	return 100 * (1 - b.Uncertainty(x, 0)/before.Uncertainty(x, 0))
}
