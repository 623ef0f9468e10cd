package regulator

import (
	"fmt"

	"gonum.org/v1/gonum/interp"

	"hotroom/knowledge"
)

// Regulator is a board's converter in SI units.
type Regulator struct {
	phases    int
	inV       float64 // V
	hertz     float64 // Hz
	henry     float64 // H
	windOhm   float64 // winding at 25 °C, Ω
	coreLossW float64 // W per phase
	planeOhm  float64 // Ω
	stage     stage
}

// stage is the switching part of one phase.
type stage interface {
	// loss gives the heat of one phase as a line over temperature, at the
	// phase's load.
	loss(r *Regulator, l load) Line
	// endA gives the phase current in A at which the stage's data end; +Inf
	// where they do not.
	endA() float64
}

// load is what one phase carries.
type load struct {
	phaseA     float64 // mean current, A
	outV       float64 // V
	duty       float64 // share of the cycle that the high side conducts
	rmsSquared float64 // A²
}

// Line is a heat that grows with temperature as a straight line.
type Line struct {
	At25W float64 // W at 25 °C
	PerKW float64 // W/K
}

// At gives the heat in W at a temperature in °C.
func (l Line) At(tempC float64) float64 { return l.At25W + l.PerKW*(tempC-refC) }

// plus adds a heat that has a coefficient in 1/K referred to 25 °C.
func (l Line) plus(at25W, perK float64) Line {
	return Line{l.At25W + at25W, l.PerKW + at25W*perK}
}

// New takes a board's regulator and its power stage and converts them to SI
// units. It fails where the stage's loss table cannot be interpolated, which a
// checked knowledge never holds.
func New(b *knowledge.Board, s *knowledge.Stage) (*Regulator, error) {
	k := b.Regulator
	r := &Regulator{
		phases:    k.Phases,
		inV:       k.InputV,
		hertz:     k.SwitchingKHz * 1e3,
		henry:     k.InductorNH / 1e9,
		windOhm:   k.InductorMOhm / 1e3,
		coreLossW: k.CoreLossW,
		planeOhm:  k.PlaneMOhm / 1e3,
	}
	if s.Kind == knowledge.StageIntegrated {
		table, err := newTable(s)
		if err != nil {
			return nil, err
		}
		r.stage = table
		return r, nil
	}
	r.stage = newDiscrete(s)
	return r, nil
}

// Loss is the heat of a regulator at a core current and voltage, as lines over
// temperature.
type Loss struct {
	Total Line // the whole regulator, W
	// Semiconductor is the share of one phase's switching stage, gate drive
	// included, W: everything but the inductor and the plane.
	Semiconductor Line
	PhaseA        float64 // current of one phase, A
	PastTable     bool    // the phase current is past the end of the stage maker's table
}

// At gives the heat when the chip draws a current in A at a voltage in V:
// N·(stage + inductor) + I²·R_plane. The plane has no temperature coefficient.
func (r *Regulator) At(coreA, outV float64) Loss {
	l := load{phaseA: PhaseCurrent(coreA, r.phases), outV: outV, duty: outV / r.inV}
	l.rmsSquared = RMSSquared(l.phaseA, Ripple(r.inV, outV, r.henry, r.hertz))
	semi := r.stage.loss(r, l)
	phase := semi.plus(l.rmsSquared*r.windOhm, copperPerK).plus(r.coreLossW, 0)
	n := float64(r.phases)
	return Loss{
		Total:         Line{n*phase.At25W + coreA*coreA*r.planeOhm, n * phase.PerKW},
		Semiconductor: semi,
		PhaseA:        l.phaseA,
		PastTable:     l.phaseA > r.stage.endA(),
	}
}

// table is an integrated stage: its maker's loss over current.
type table struct {
	watts            interp.FritschButland
	firstA, lastA    float64
	lastW, endWPerA  float64
	refHertz, tableC float64
	perK, swShare    float64
}

func newTable(s *knowledge.Stage) (*table, error) {
	n := len(s.Losses)
	if n < 2 {
		return nil, fmt.Errorf("stage %q has %d rows in its loss table: give it at least two", s.ID, n)
	}
	amps, watts := make([]float64, n), make([]float64, n)
	for i, row := range s.Losses {
		amps[i], watts[i] = row.Amps, row.Watts
		if i > 0 && amps[i] <= amps[i-1] {
			return nil, fmt.Errorf("stage %q: the current of row %d does not rise: sort the table by amps", s.ID, i+1)
		}
	}
	t := &table{
		firstA: amps[0], lastA: amps[n-1], lastW: watts[n-1],
		refHertz: s.KHz * 1e3, tableC: s.TempC, perK: s.RdsPerK, swShare: s.SwitchingShare,
	}
	if err := t.watts.Fit(amps, watts); err != nil {
		return nil, fmt.Errorf("stage %q: %w", s.ID, err)
	}
	t.endWPerA = t.watts.PredictDerivative(t.lastA)
	return t, nil
}

func (t *table) endA() float64 { return t.lastA }

// read gives the table's heat in W at a phase current in A. Below the first
// row it is held; past the last it goes on with its end slope, since holding it
// would hide heat.
func (t *table) read(phaseA float64) float64 {
	if phaseA > t.lastA {
		return t.lastW + t.endWPerA*(phaseA-t.lastA)
	}
	return t.watts.Predict(max(phaseA, t.firstA))
}

// loss scales the table to the board's frequency and to the temperature:
// W·(1 + share·(f/f_ref − 1))·(1 + a·(T − T_ref)).
func (t *table) loss(r *Regulator, l load) Line {
	at := t.read(l.phaseA) * (1 + t.swShare*(r.hertz/t.refHertz-1))
	return Line{At25W: at * (1 + t.perK*(refC-t.tableC)), PerKW: at * t.perK}
}
