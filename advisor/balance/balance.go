// Package balance finds the temperature at which the regulator's heat and the
// heat that leaves are equal.
package balance

import (
	"hotroom/advisor/heat"
	"hotroom/advisor/regulator"
	"hotroom/advisor/root"
)

const (
	// RunawayC is the temperature in °C above which no balance is sought: long
	// before it, solder and laminate are gone.
	RunawayC = 250.0

	toleranceK = 1e-6 // of the balance
	scanK      = 2.0  // step in which a balance below a runaway is looked for
	slopeStepK = 0.01 // half step of the numerical slope
)

// Coefficients are b (K), θ1 and θ2: what a board adds to, and how it scales,
// the rise worked out from its parts.
type Coefficients [3]float64

// Case is everything that fixes a balance but the temperature.
type Case struct {
	RoomC      float64 // °C
	PressurePa float64
	AirspeedMS float64 // at the heatsink
	// CaseRisePerW warms the local air, K per W of heat in the case; 0 on an
	// open bench.
	CaseRisePerW float64
	CaseHeatW    float64 // heat in the case besides the regulator's own, W
	Loss         regulator.Line
	Path         heat.Path
	SocketRiseK  float64 // ψ·P, heat of the socket through the board copper
	Coefficients Coefficients
}

// State is what holds at one surface temperature.
type State struct {
	HotC        float64 // hot spot, °C
	LocalC      float64 // air at the regulator, °C
	CaseRiseK   float64 // local air over the room, K
	LossW       float64 // regulator heat, W
	Conductance float64 // to the air, W/K
	ConvectedK  float64 // x1 = loss/conductance, K
	SocketK     float64 // x2 = ψ·P, K
	RightSideC  float64 // what the hot spot would be, given the heat at HotC, °C
	LoopGain    float64 // slope of the right side over the hot spot, total derivative; filled by Solve
}

// At works out the right side of the balance at a hot spot in °C:
// T = local + b + θ1·loss/G + θ2·ψ·P.
func (c *Case) At(hotC float64) State {
	s := State{HotC: hotC, LossW: c.Loss.At(hotC), SocketK: c.SocketRiseK}
	s.CaseRiseK = c.CaseRisePerW * (c.CaseHeatW + s.LossW)
	s.LocalC = c.RoomC + s.CaseRiseK
	s.Conductance = c.Path.Conductance(hotC, s.LocalC, c.PressurePa, c.AirspeedMS)
	s.ConvectedK = s.LossW / s.Conductance
	k := &c.Coefficients
	s.RightSideC = s.LocalC + k[0] + k[1]*s.ConvectedK + k[2]*s.SocketK
	return s
}

// excess is the right side less the left, K.
func (c *Case) excess(hotC float64) float64 {
	s := c.At(hotC)
	return s.RightSideC - hotC
}

// Solve finds the lowest balance between the room and RunawayC, to 1e-6 K.
// False: there is none, the board cannot settle.
func (c *Case) Solve() (State, bool) {
	low, high, ok := c.bracket()
	if !ok {
		return State{}, false
	}
	hot := low.at
	if low.excess > 0 {
		hot = root.Find(c.excess, low.at, low.excess, high.at, high.excess, toleranceK)
	}
	s := c.At(hot)
	s.LoopGain = (c.At(hot+slopeStepK).RightSideC - c.At(hot-slopeStepK).RightSideC) / (2 * slopeStepK)
	return s, s.LoopGain < 1
}

// end is one end of a bracket.
type end struct{ at, excess float64 }

// bracket finds two temperatures with a balance between them. The usual case
// is decided by the two ends; where the far end runs away, a balance may still
// lie below it, so that is looked for in small steps. Where the right side is
// below the room already, the room is the balance.
func (c *Case) bracket() (low, high end, ok bool) {
	low = end{c.RoomC, c.excess(c.RoomC)}
	if low.excess <= 0 {
		return low, low, true
	}
	far := end{RunawayC, c.excess(RunawayC)}
	if far.excess < 0 {
		return low, far, true
	}
	for at := c.RoomC + scanK; at < RunawayC; at += scanK {
		next := end{at, c.excess(at)}
		if next.excess <= 0 {
			return low, next, true
		}
		low = next
	}
	return low, far, false
}
