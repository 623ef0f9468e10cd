package limit_test

import (
	"math"
	"testing"

	"hotroom/advisor/limit"
	"hotroom/knowledge"
)

// junction gives a junction in °C over an ambient, the sum that the worked
// examples below do.
func junction(ambientC, watts, kelvinPerWatt float64) float64 {
	return ambientC + watts*kelvinPerWatt
}

// The limit on the hot spot is the worked examples read backwards: a hot spot
// at the limit, plus the junction's rise, is the junction's maximum.
// Sources: Analog Devices ADP3654 Rev. 0, page 11 (85 °C, 878.4 mW, 59 and 43
// K/W); ROHM Tech Web, Heat Calculation for Package Selection, example 2
// (85 °C, 1.008 W, 189.4 and 40.3 K/W).
func TestStageLimitReadsWorkedExamplesBackwards(t *testing.T) {
	for _, c := range []struct{ watts, kelvinPerWatt, junctionC float64 }{
		{0.8784, 59, 136.83}, {0.8784, 43, 122.77}, {1.008, 189.4, 275.92}, {1.008, 40.3, 125.62},
	} {
		if got := limit.StageC(c.junctionC, 0, c.kelvinPerWatt, c.watts); math.Abs(got-85) > 0.01 {
			t.Errorf("junction %g °C: the limit is %g °C, want 85 °C", c.junctionC, got)
		}
		if got := junction(85, c.watts, c.kelvinPerWatt); math.Abs(got-c.junctionC) > 0.01 {
			t.Errorf("junction: got %g °C, want %g °C", got, c.junctionC)
		}
	}
}

// Source: onsemi NCP5331, page 34: (120−55)/P − 1.65 is 42.27 K/W for 1.48 W
// and 74.82 K/W for 0.85 W, so that resistance plus 1.65 K/W leads from 120 to
// 55 °C.
func TestStageLimitNCP5331(t *testing.T) {
	for _, c := range []struct{ watts, kelvinPerWatt float64 }{{1.48, 42.27}, {0.85, 74.82}} {
		if got := limit.StageC(120, 0, c.kelvinPerWatt+1.65, c.watts); math.Abs(got-55) > 0.02 {
			t.Errorf("%g W: got %g °C, want 55 °C", c.watts, got)
		}
	}
}

func TestAllPutsTheLowestFirst(t *testing.T) {
	hot := 105.0
	b := &knowledge.Board{Source: "sheet", LaminateC: 130, Defaulted: []string{"laminate_c"}, Limit: knowledge.BoardLimit{HotSpotC: &hot}}
	s := &knowledge.Stage{TempMaxC: 150, DeratingC: 25, JunctionKPerW: 4}
	kinds := func(stageW float64) (got []string) {
		limits := limit.Of(b, s)
		all := limits.All(stageW)
		for _, l := range all {
			got = append(got, l.Kind)
		}
		if value, kind := limits.Lowest(stageW); kind != all[0].Kind || value != all[0].ValueC {
			t.Errorf("%g W: the lowest is %s at %g °C, and %s comes first", stageW, kind, value, all[0].Kind)
		}
		return got
	}
	for _, c := range []struct {
		stageW float64
		want   [3]string
	}{
		{1, [3]string{"board", "stage", "laminate"}},
		{8, [3]string{"stage", "board", "laminate"}},
		{math.NaN(), [3]string{"board", "laminate", "stage"}},
	} {
		if got := kinds(c.stageW); [3]string(got) != c.want {
			t.Errorf("%g W: got %v, want %v", c.stageW, got, c.want)
		}
	}
	b.Limit.HotSpotC = nil
	if got := kinds(1); len(got) != 2 || got[0] != "stage" {
		t.Errorf("without a stated hot spot: got %v", got)
	}
}
