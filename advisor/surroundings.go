package advisor

import (
	"math"

	"hotroom/advisor/air"
	"hotroom/advisor/balance"
	"hotroom/advisor/regulator"
	"hotroom/knowledge"
)

// surroundings is where the board works.
type surroundings struct {
	roomC     float64 // °C
	altitudeM float64 // m
	graphicsW float64 // heat of the graphics card into the case, W
	enclosure *knowledge.Enclosure
	cooler    *knowledge.Cooler
}

// airspeed gives the air speed at the heatsink in m/s: the enclosure's and the
// cooler's streams add as squares, being independent of each other.
func (s *surroundings) airspeed() float64 {
	return math.Hypot(s.enclosure.AirspeedMS, s.cooler.AirspeedMS)
}

// drawn is what the chip draws.
type drawn struct {
	packageW float64 // W
	coreA    float64 // A
	volts    float64 // V
}

// balance puts together the heat balance of a board that feeds a chip in these
// surroundings.
func (s *surroundings) balance(p *parts, d drawn) (balance.Case, regulator.Loss) {
	pressure := air.Pressure(s.altitudeM)
	loss := p.regulator.At(d.coreA, d.volts)
	c := balance.Case{
		RoomC:        s.roomC,
		PressurePa:   pressure,
		AirspeedMS:   s.airspeed(),
		CaseHeatW:    s.cooler.HeatIntoCaseShare*d.packageW + s.graphicsW + s.enclosure.OtherW,
		Loss:         loss.Total,
		Path:         p.path,
		SocketRiseK:  p.board.SocketKPerW * d.packageW,
		Coefficients: balance.Coefficients(p.belief.Mean),
	}
	if s.enclosure.FlowM3H != nil {
		c.CaseRisePerW = air.CaseRisePerW(*s.enclosure.FlowM3H, s.roomC, pressure)
	}
	return c, loss
}
