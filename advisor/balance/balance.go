// Package balance finds the temperature at which the regulator's heat and the
// heat that leaves are equal.
package balance

import (
	"math"

	"hotroom/advisor/heat"
	"hotroom/advisor/regulator"
	"hotroom/advisor/root"
)

const (
	// RunawayC is the temperature in °C above which no balance is sought: long
	// before it, solder and laminate are gone.
	RunawayC = 250.0

	// UsualRiseK is how far in K over the room a balance is looked for first,
	// where there is no better guess: any will do, a near one is sooner.
	UsualRiseK = 45.0

	toleranceK = 1e-6 // of the balance
	mostTries  = 40   // along the secant
	scanK      = 2.0  // step in which a balance below a runaway is looked for
	slopeStepK = 0.01 // step of the numerical slope
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

// Solve finds the lowest balance between the room and RunawayC, to 1e-6 K.
// False: there is none, the board cannot settle.
func (c *Case) Solve() (State, bool) { return c.SolveNear(c.RoomC + UsualRiseK) }

// SolveNear is Solve with a guess in °C, such as the balance of a similar case:
// the better the guess, the sooner it is done; the result is the same.
func (c *Case) SolveNear(guessC float64) (State, bool) {
	s, ok := c.search(guessC)
	if !ok {
		return State{}, false
	}
	s.LoopGain = (c.At(s.HotC+slopeStepK).RightSideC - s.RightSideC) / slopeStepK
	return s, s.LoopGain < 1
}

// search follows the secant through the last two tries, which hardly bends,
// between the lowest temperature known to be too low and the highest known to
// be too high; where it leaves them, it halves.
func (c *Case) search(guessC float64) (State, bool) {
	low, high := c.RoomC, RunawayC
	at := c.At(min(max(guessC, low), high))
	next := at.RightSideC // the first step takes the right side at its word
	for range mostTries {
		if at.excess() > 0 {
			low = at.HotC
		} else {
			high = at.HotC
		}
		switch {
		case next >= RunawayC && high == RunawayC:
			if end := c.At(RunawayC); end.excess() > 0 {
				return c.scan()
			}
		case next <= c.RoomC && low == c.RoomC:
			if room := c.At(c.RoomC); room.excess() <= 0 {
				return room, true
			}
		}
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		last := at
		at = c.At(next)
		step := at.excess() * (at.HotC - last.HotC) / (at.excess() - last.excess())
		if math.Abs(step) <= toleranceK { // what is left
			return at, true
		}
		next = at.HotC - step
	}
	return c.scan()
}

// scan looks for the lowest balance in small steps from the room: for the rare
// case that the right side runs away, where one may still lie below.
func (c *Case) scan() (State, bool) {
	low := c.At(c.RoomC)
	for low.HotC < RunawayC {
		high := c.At(min(low.HotC+scanK, RunawayC))
		if high.excess() <= 0 {
			excess := func(hotC float64) float64 { s := c.At(hotC); return s.excess() }
			return c.At(root.Find(excess, low.HotC, low.excess(), high.HotC, high.excess(), toleranceK)), true
		}
		low = high
	}
	return State{}, false
}

// excess is the right side less the left, K.
func (s *State) excess() float64 { return s.RightSideC - s.HotC }
