package advisor

import (
	"math"

	"hotroom/advisor/ageing"
	"hotroom/advisor/heat"
	"hotroom/advisor/regulator"
)

// answer is a question worked out: the numbers, before any rule has judged
// them. A number that has no value is NaN.
type answer struct {
	*scene
	sustained
	roomCeilingC   float64 // °C
	powerCeilingW  float64 // W
	powerAtLeast   bool
	minutesTo95    float64
	minutesToLimit float64
	capacitorC     float64 // °C
	capacitorLifeH float64 // h
	record         record
}

// work turns a scene into numbers.
func work(sc *scene) *answer {
	a := new(answer)
	a.begin(sc, sc.sustain())
	a.warm()
	a.findCeilings()
	return a
}

// begin works out what needs no heat.
func (a *answer) begin(sc *scene, held sustained) {
	nan := math.NaN()
	*a = answer{
		scene: sc, sustained: held,
		roomCeilingC: nan, powerCeilingW: nan, minutesTo95: nan, minutesToLimit: nan, capacitorC: nan, capacitorLifeH: nan,
	}
	a.record = a.recall()
}

// warm works out what follows from the heat, except for the ceilings, which take
// the most.
func (a *answer) warm() {
	if !a.settles {
		return
	}
	a.warmUp()
	if c := a.parts.board.Capacitor; c != nil {
		a.capacitorC = ageing.Temperature(a.state.LocalC, a.state.HotC, c.LocalShare)
		a.capacitorLifeH = ageing.Life(c.Kind, c.RatedH, c.RatedC, a.capacitorC)
	}
	a.record.removedPercent = a.removedPercent(&a.parts.belief)
}

// findCeilings works out how far the room and the package power can go.
func (a *answer) findCeilings() {
	a.roomCeilingC = a.roomCeiling(&a.held)
	if a.settles {
		a.powerCeilingW, a.powerAtLeast = a.powerCeiling(&a.sustained.estimate)
	}
}

// warmUp works out how fast the board warms from cold.
func (a *answer) warmUp() {
	const secondsPerMinute = 60
	tau := heat.TimeConstant(a.parts.path.Capacity(), a.state.Conductance, a.state.LoopGain)
	a.minutesTo95 = heat.TimeToShare(tau, 0.95) / secondsPerMinute
	if limit := a.limitC; limit < a.state.HotC {
		share := (limit - a.state.LocalC) / (a.state.HotC - a.state.LocalC)
		a.minutesToLimit = heat.TimeToShare(tau, share) / secondsPerMinute
	}
}

// efficiency gives the regulator's efficiency at the answer; NaN when the
// board cannot settle.
func (a *answer) efficiency() float64 {
	if !a.settles {
		return math.NaN()
	}
	return regulator.Efficiency(a.demand.Volts*a.demand.CoreA, a.state.LossW)
}

// ifSettled gives a value, or NaN when the board cannot settle.
func (a *answer) ifSettled(v float64) float64 {
	if !a.settles {
		return math.NaN()
	}
	return v
}
