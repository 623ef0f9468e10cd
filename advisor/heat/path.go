package heat

import (
	"math"

	"hotroom/knowledge"
)

const (
	sinkEmissivity  = 0.8  // anodised aluminium, common handbook value
	sinkRadiates    = 0.5  // share of the sink's surface that sees the surroundings, fins shade the rest
	boardEmissivity = 0.9  // solder mask, common handbook value
	boardHeightM    = 0.08 // height of the board area that sheds heat, m
	boardSpeed      = 0.5  // air speed over the board as a share of that at the sink

	aluminiumJPerKgK = 897.0 // heat capacity of aluminium, J/(kg·K), handbook value at 25 °C
	boardJPerK       = 60.0  // heat capacity of the board area around the regulator, J/K: an estimate
)

// AreaPerMass gives the surface of a heatsink shape in m² per kg: typical
// figures, an estimate that answers mark as one. Shape none gives 0.
func AreaPerMass(shape string) float64 {
	switch shape {
	case "block":
		return 0.10
	case "finned":
		return 0.20
	case "fin-stack":
		return 0.50
	}
	return 0
}

// Path is the way from the regulator to the air.
type Path struct {
	SinkAreaM2  float64 // wetted area of the heatsink, m²; 0 with none
	SinkHeightM float64 // height of the sink along the rising air, m
	PadKPerW    float64 // thermal pad, K/W
	Factor      float64 // share of the ideal sink surface that works
	BoardAreaM2 float64 // bare board that sheds heat, both sides counted, m²
	MassKg      float64 // mass of the heatsink, kg
	AreaGuessed bool    // the area was worked out from the mass
}

// NewPath takes a board's heatsink and area and converts them to SI units.
// Where only one of mass and area is known, the shape gives the other.
func NewPath(b *knowledge.Board) Path {
	s := b.Heatsink
	p := Path{
		SinkHeightM: s.HeightMM / 1e3,
		PadKPerW:    s.PadKPerW,
		Factor:      s.Factor,
		BoardAreaM2: b.AreaCM2 / 1e4,
	}
	perMass := AreaPerMass(s.Shape)
	if perMass == 0 {
		return p
	}
	if s.MassG != nil {
		p.MassKg = *s.MassG / 1e3
	}
	if s.AreaCM2 != nil {
		p.SinkAreaM2 = *s.AreaCM2 / 1e4
	} else {
		p.SinkAreaM2 = p.MassKg * perMass
		p.AreaGuessed = true
	}
	if s.MassG == nil {
		p.MassKg = p.SinkAreaM2 / perMass
	}
	return p
}

// Capacity gives the heat capacity of sink and board, J/K.
func (p Path) Capacity() float64 {
	return aluminiumJPerKgK*p.MassKg + boardJPerK
}

// Conductance gives the conductance in W/K from a surface to the air, both in
// °C, at a pressure in Pa and an air speed at the heatsink in m/s. Sink, board
// and radiation all take the surface at one temperature: the pad's drop is not
// fed back.
func (p Path) Conductance(surfaceC, airC, pressurePa, speedMS float64) float64 {
	film := filmAt(pressurePa, surfaceC, airC)
	rise := surfaceC - airC
	board := film.convection(rise, boardHeightM, boardSpeed*speedMS) + Radiation(boardEmissivity, surfaceC, airC)
	g := board * p.BoardAreaM2
	if p.SinkAreaM2 > 0 {
		sink := film.convection(rise, p.SinkHeightM, speedMS) + sinkRadiates*Radiation(sinkEmissivity, surfaceC, airC)
		g += 1 / (1/(sink*p.SinkAreaM2*p.Factor) + p.PadKPerW)
	}
	return g
}

// TimeConstant gives the time constant in s of a heat capacity in J/K that
// sheds its heat through a conductance in W/K, lengthened by the
// electro-thermal loop gain (0 to below 1).
func TimeConstant(capacityJPerK, conductanceWPerK, loopGain float64) float64 {
	return capacityJPerK / conductanceWPerK / (1 - loopGain)
}

// TimeToShare gives the time in s after which a first-order rise with a time
// constant in s has covered a share (0 to below 1) of its way; +Inf from 1 on.
func TimeToShare(tauS, share float64) float64 {
	if share >= 1 {
		return math.Inf(1)
	}
	return -tauS * math.Log1p(-max(share, 0))
}
