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
	LoopGain    float64 // slope of the right side over the hot spot, total derivative; not filled by At
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
func (c *Case) SolveNear(guessC float64) (State, bool) { return c.SolveBelow(RunawayC, guessC) }

// SolveBelow is SolveNear for those who ask only about temperatures up to one in
// °C: where the balance is above it, it is not gone after. False: there is none
// up to there.
func (c *Case) SolveBelow(topC, guessC float64) (State, bool) {
	s, ok := c.search(topC, guessC)
	if !ok {
		return State{}, false
	}
	c.slope(&s)
	return s, s.LoopGain < 1
}

// Around is At with the loop gain, which tells how it goes on from there.
func (c *Case) Around(hotC float64) State {
	s := c.At(hotC)
	c.slope(&s)
	return s
}

func (c *Case) slope(s *State) {
	s.LoopGain = (c.At(s.HotC+slopeStepK).RightSideC - s.RightSideC) / slopeStepK
}

// search follows the secant through the last two tries, which hardly bends,
// between the lowest temperature known to be too low and the highest known to
// be too high, or that matters; where it leaves them, it halves.
func (c *Case) search(topC, guessC float64) (State, bool) {
	low, high := c.RoomC, topC
	if low > high {
		return State{}, false
	}
	at := c.At(min(max(guessC, low), high))
	next := at.RightSideC // the first step takes the right side at its word
	for range mostTries {
		if at.Excess() > 0 {
			low = at.HotC
		} else {
			high = at.HotC
		}
		switch {
		case low >= topC:
			return c.past(topC)
		case next >= topC && high == topC:
			if end := c.At(topC); end.Excess() > 0 {
				return c.past(topC)
			}
		case next <= c.RoomC && low == c.RoomC:
			if room := c.At(c.RoomC); room.Excess() <= 0 {
				return room, true
			}
		}
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		last := at
		at = c.At(next)
		step := at.Excess() * (at.HotC - last.HotC) / (at.Excess() - last.Excess())
		if math.Abs(step) <= toleranceK { // what is left
			return at, true
		}
		next = at.HotC - step
	}
	return c.scan()
}

// past is where the right side is still the higher one at the highest
// temperature that matters.
func (c *Case) past(topC float64) (State, bool) {
	if topC < RunawayC {
		return State{}, false
	}
	return c.scan()
}

// scan looks for the lowest balance in small steps from the room: for the rare
// case that the right side runs away, where one may still lie below.
func (c *Case) scan() (State, bool) {
	low := c.At(c.RoomC)
	for low.HotC < RunawayC {
		high := c.At(min(low.HotC+scanK, RunawayC))
		if high.Excess() <= 0 {
			excess := func(hotC float64) float64 { s := c.At(hotC); return s.Excess() }
			return c.At(root.Find(excess, low.HotC, low.Excess(), high.HotC, high.Excess(), toleranceK)), true
		}
		low = high
	}
	return State{}, false
}

// Excess gives the right side less the left, K: above 0 it warms further.
func (s *State) Excess() float64 { return s.RightSideC - s.HotC }
