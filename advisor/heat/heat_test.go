package heat_test

import (
	"math"
	"testing"

	"hotroom/advisor/air"
	"hotroom/advisor/heat"
	"hotroom/knowledge"
)

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if math.Abs(got-want) > relative*math.Abs(want) {
		t.Errorf("%s: got %.6g, want %.6g within %g", what, got, want, relative)
	}
}

// film builds the film that a worked example states.
func film(k, nu, alpha, beta, pr float64) air.Film {
	return air.Film{KinematicM2S: nu, DiffusivityM2S: alpha, ConductWPerMK: k, Prandtl: pr, ExpansionPerK: beta}
}

// Source: Incropera 6e, example 9.2: the Rayleigh number of a vertical plate
// 0.71 m high, 232 °C in air at 23 °C (the example takes g as 9.81).
func TestRayleighIncropera92(t *testing.T) {
	f := film(0.0338, 26.4e-6, 38.3e-6, 0.0025, 0.690)
	near(t, "Ra", heat.Rayleigh(f, 232-23, 0.71)*9.81/9.80665, 1.8144e9, 0.005)
}

// Source: Incropera 6e, example 9.3: laminar sides of a duct 0.3 m high, 45 °C
// in air at 15 °C.
func TestNaturalIncropera93(t *testing.T) {
	f := film(0.0265, 16.2e-6, 22.9e-6, 0.0033, 0.71)
	near(t, "h", heat.Convection(f, 30, 0.3, 0), 4.225, 0.005)
}

// Source: Çengel, example 9.2a: Rayleigh number of a plate 0.6 m square, 90 °C
// in air at 30 °C, and its radiation with an emissivity of 1. The printed
// 114.6 W comes from the full-range correlation, which this model does not use.
func TestCengel92(t *testing.T) {
	f := film(0.02808, 1.896e-5, 1.896e-5/0.7202, 1/333.0, 0.7202)
	near(t, "Ra", heat.Rayleigh(f, 60, 0.6), 7.649e8, 0.005)
	near(t, "radiation", heat.Radiation(1, 90, 30)*0.36*60, 182.4, 0.005)
}

// Source: Lienhard, A Heat Transfer Textbook, example 6.5: air at 15 m/s and
// 20 °C over a plate 0.5 m square at 110 °C.
func TestForcedLienhard65(t *testing.T) {
	h := heat.NusseltForced(15*0.5/1.94e-5, 0.707) * 0.02885 / 0.5
	near(t, "h", h, 21.222, 0.005)
	near(t, "heat", h*0.25*90, 477.5, 0.005)
}

// Source: Incropera, example 7.1: air at 10 m/s and 6 kPa over a plate 0.5 m
// long at 27 °C, the air at 300 °C.
func TestForcedIncropera71(t *testing.T) {
	re := 10 * 0.5 / (30.84e-6 * 101325 / 6000)
	near(t, "Re", re, 9600, 0.005)
	near(t, "heat per metre", heat.NusseltForced(re, 0.687)*0.0364/0.5*0.5*273, 570, 0.005)
}

// Source: Lienhard, example 2.9: a time constant of 58.10 s; 95 % exactly is
// reached after 174.05 s, three constants are 174.3 s.
func TestTimeTo95PercentLienhard29(t *testing.T) {
	near(t, "95 %", heat.TimeToShare(58.10, 0.95), 174.05, 1e-4)
}

// Source: Theraja, A Textbook of Electrical Technology III, example 45.13: 0,
// 25 and 37.5 °C at 0, 1 and 2 h, so half the way an hour, settling at 50 °C.
func TestRiseTheraja4513(t *testing.T) {
	tau := 1 / math.Ln2
	near(t, "half", heat.TimeToShare(tau, 25.0/50), 1, 1e-12)
	near(t, "three quarters", heat.TimeToShare(tau, 37.5/50), 2, 1e-12)
	if !math.IsInf(heat.TimeToShare(tau, 1), 1) {
		t.Error("the whole way should take for ever")
	}
}

// Source: Çengel, examples 3.10 and 3.11: 60 K over 20 K/W is 3 W, so a path
// of that resistance (no convection side) is 0.05 W/K.
func TestSeriesResistance(t *testing.T) {
	bare := heat.Path{BoardAreaM2: 0, SinkAreaM2: 1e9, SinkHeightM: 0.03, PadKPerW: 20, Factor: 1}
	near(t, "heat", 60*bare.Conductance(85, 25, air.Pressure(0), 0), 3, 1e-6)
}

func TestNewPathCompletesMassAndArea(t *testing.T) {
	number := func(v float64) *float64 { return &v }
	board := func(shape string, mass, area *float64) *knowledge.Board {
		return &knowledge.Board{AreaCM2: 100, Heatsink: knowledge.Heatsink{Shape: shape, MassG: mass, AreaCM2: area, HeightMM: 30, PadKPerW: 0.25, Factor: 0.9}}
	}
	for _, c := range []struct {
		name         string
		board        *knowledge.Board
		area, massKg float64
		guessed      bool
	}{
		{"mass only", board("finned", number(150), nil), 0.03, 0.15, true},
		{"area only", board("fin-stack", nil, number(500)), 0.05, 0.1, false},
		{"both", board("block", number(100), number(300)), 0.03, 0.1, false},
		{"none", board("none", number(100), number(300)), 0, 0, false},
	} {
		p := heat.NewPath(c.board)
		if math.Abs(p.SinkAreaM2-c.area) > 1e-12 || math.Abs(p.MassKg-c.massKg) > 1e-12 || p.AreaGuessed != c.guessed {
			t.Errorf("%s: got %+v", c.name, p)
		}
	}
}

func TestNoHeatsinkLeavesTheBoard(t *testing.T) {
	p := heat.NewPath(&knowledge.Board{AreaCM2: 100, Heatsink: knowledge.Heatsink{Shape: "none"}})
	film := air.FilmAt(air.Pressure(0), 90, 30)
	want := 0.01 * (heat.Convection(film, 60, 0.08, 0.5) + heat.Radiation(0.9, 90, 30))
	near(t, "board only", p.Conductance(90, 30, air.Pressure(0), 1), want, 1e-12)
}
