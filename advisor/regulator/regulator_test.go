package regulator_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor/regulator"
	"hotroom/knowledge"
)

func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if math.Abs(got-want) > relative*math.Abs(want) {
		t.Errorf("%s: got %.6g, want %.6g within %g", what, got, want, relative)
	}
}

// Source: TI LM2745/LM2748 data sheet SNOSAL2E, page 25 (LM2743 SNVS276G,
// pages 19–20): 3.3 V to 1.2 V, 4 A, 300 kHz, 13 mΩ × 1.3 when hot.
func TestLossesLM2745(t *testing.T) {
	const duty = 1.2 / 3.3
	near(t, "switching", regulator.Switching(3.3, 4, 15e-9, 16e-9, 300e3), 61.38e-3, 0.005)
	hot := 13e-3 * 1.3
	// The data sheet rounds the duty cycle: 98.42 mW is 0.364, 172 mW is 0.636.
	near(t, "high side", regulator.Conduction(regulator.RMSSquared(4, 0), duty, hot, 1), 98.42e-3, 0.005)
	near(t, "low side", regulator.Conduction(regulator.RMSSquared(4, 0), 1-duty, hot, 1), 172e-3, 0.005)
	near(t, "gate", regulator.GateDrive(2*3e-9, 3.3, 300e3), 5.94e-3, 0.005)
}

// Source: the same data sheet, page 26: ripple at 3.6 V to 1.2 V, 2.2 µH.
func TestRippleLM2745(t *testing.T) {
	near(t, "ripple", regulator.Ripple(3.6, 1.2, 2.2e-6, 300e3), 1.212, 0.005)
}

// Source: Linear Technology LTC3728 Rev. G, page 28, conduction terms only:
// 22 V to 1.8 V, 5 A, 42 mΩ at 25 K above with 0.005/K; low side 3.2 A, × 1.1
// at short circuit.
func TestConductionLTC3728(t *testing.T) {
	near(t, "high side", regulator.Conduction(25, 1.8/22, 42e-3*regulator.WarmFactor(0.005, 50), 1), 96.6e-3, 0.005)
	near(t, "low side", regulator.Conduction(3.2*3.2, (22-1.8)/22, 42e-3*1.1, 1), 434e-3, 0.005)
}

// Source: Analog Devices ADP3654 Rev. 0, page 11: 12 V, 120 nC, 300 kHz.
func TestGateADP3654(t *testing.T) {
	near(t, "gate", regulator.GateDrive(120e-9, 12, 300e3), 432e-3, 0.005)
}

// Source: ROHM BD9130NV Rev. 002, page 12: 3.3 V to 1.8 V, 0.20 and 0.16 Ω, 2 A.
func TestConductionBD9130(t *testing.T) {
	duty := 1.8 / 3.3
	both := regulator.Conduction(4, duty, 0.20, 1) + regulator.Conduction(4, 1-duty, 0.16, 1)
	near(t, "both sides", both, 0.7272, 0.005)
}

// Source: IEC 60028 and handbooks: copper's resistance at 90 °C over 20 °C is
// 1.2751 and at 125 °C over 25 °C is 1.3854, with 0.00393/K at 20 °C.
func TestCopper(t *testing.T) {
	const perK = 0.003854
	near(t, "90 over 20", regulator.WarmFactor(perK, 90)/regulator.WarmFactor(perK, 20), 1.2751, 0.0005)
	near(t, "125 over 25", regulator.WarmFactor(perK, 125), 1.3854, 0.0005)
}

// Source: data sheets onsemi FDS6298 (1.486) and Fairchild FDS6680A (1.410):
// typical on-resistance from 25 to 125 °C. A model lies in 1.40 to 1.60.
func TestOnResistanceRise(t *testing.T) {
	if f := regulator.WarmFactor(0.005, 125); f < 1.40 || f > 1.60 {
		t.Errorf("on-resistance at 125 °C is %g times that at 25 °C, want 1.40 to 1.60", f)
	}
}

func board(phases int) *knowledge.Board {
	return &knowledge.Board{Regulator: knowledge.Regulator{Phases: phases, SwitchingKHz: 400, InductorNH: 220, InductorMOhm: 0.6, CoreLossW: 0.2, PlaneMOhm: 0.1, InputV: 12}}
}

func discreteStage() *knowledge.Stage {
	return &knowledge.Stage{
		Kind: knowledge.StageDiscrete, RdsPerK: 0.005, HighCount: 1, LowCount: 2, HighMOhm: 4.2, LowMOhm: 1.6,
		RiseNS: 9, FallNS: 12, HighGateNC: 12, LowGateNC: 25, DriveV: 5, DeadNS: 20, DiodeV: 0.8, HighOutNC: 14, LowOutNC: 22, RecoveryNC: 30,
	}
}

func tableStage() *knowledge.Stage {
	return &knowledge.Stage{
		Kind: knowledge.StageIntegrated, RdsPerK: 0.005, SwitchingShare: 0.5, VinV: 12, VoutV: 1.2, KHz: 500, TempC: 25,
		Losses: []knowledge.StageLoss{{Amps: 5, Watts: 0.7}, {Amps: 20, Watts: 2.2}, {Amps: 40, Watts: 6}},
	}
}

func build(t testing.TB, b *knowledge.Board, s *knowledge.Stage) *regulator.Regulator {
	t.Helper()
	r, err := regulator.New(b, s)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// Every term by hand for one phase of the discrete stage at 25 A, 1.2 V, 85 °C.
func TestDiscreteAddsEveryTerm(t *testing.T) {
	got := build(t, board(6), discreteStage()).At(150, 1.2)
	ripple := (12 - 1.2) * 0.1 / (220e-9 * 400e3)
	rms2 := 25*25 + ripple*ripple/12
	hot := 1 + 0.005*60.0
	semi := rms2*0.1*4.2e-3*hot + rms2*0.9*1.6e-3*hot/2 + // conduction
		0.5*12*25*21e-9*400e3 + // switching
		(12e-9+2*25e-9)*5*400e3 + // gate
		0.8*25*2*20e-9*400e3 + // dead time
		0.5*(14e-9+2*22e-9)*12*400e3 + // output charge
		30e-9*12*400e3 // recovery
	near(t, "semiconductor", got.Semiconductor.At(85), semi, 1e-12)
	phase := semi + rms2*0.6e-3*(1+0.003854*60) + 0.2
	near(t, "total", got.Total.At(85), 6*phase+150*150*0.1e-3, 1e-12)
}

func TestTableScalesAndContinues(t *testing.T) {
	r := build(t, board(4), tableStage())
	scale := (1 + 0.5*(400.0/500-1)) * (1 + 0.005*60)
	near(t, "on a row", r.At(80, 1.2).Semiconductor.At(85), 2.2*scale, 1e-12)
	near(t, "held below", r.At(4, 1.2).Semiconductor.At(85), 0.7*scale, 1e-12)
	end, past := r.At(160, 1.2), r.At(200, 1.2)
	near(t, "last row", end.Semiconductor.At(85), 6*scale, 1e-12)
	if end.PastTable || !past.PastTable {
		t.Errorf("past the table: got %v at 40 A and %v at 50 A", end.PastTable, past.PastTable)
	}
	slope := (past.Semiconductor.At(85) - end.Semiconductor.At(85)) / 10
	before := r.At(159.99, 1.2)
	near(t, "end slope", slope, (end.Semiconductor.At(85)-before.Semiconductor.At(85))/0.0025, 1e-3)
}

func TestTwoParallelDevicesHalveConduction(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rms2 := rapid.Float64Range(1e-3, 1e4).Draw(t, "A²")
		share := rapid.Float64Range(1e-3, 1).Draw(t, "share")
		ohm := rapid.Float64Range(1e-4, 1e-1).Draw(t, "Ω")
		one, two := regulator.Conduction(rms2, share, ohm, 1), regulator.Conduction(rms2, share, ohm, 2)
		if math.Abs(one-2*two) > 1e-12*one {
			t.Fatalf("one device loses %g W, two lose %g W", one, two)
		}
	})
}

func TestNewRefusesATableThatDoesNotRise(t *testing.T) {
	s := tableStage()
	s.Losses[2].Amps = 20
	if _, err := regulator.New(board(4), s); err == nil {
		t.Error("a table that does not rise should be refused")
	}
	s.Losses = s.Losses[:1]
	if _, err := regulator.New(board(4), s); err == nil {
		t.Error("a table of one row should be refused")
	}
}

func TestEfficiency(t *testing.T) {
	near(t, "efficiency", regulator.Efficiency(180, 20), 0.9, 1e-12)
	if !math.IsNaN(regulator.Efficiency(0, 0)) {
		t.Error("nothing delivered has no efficiency")
	}
}
