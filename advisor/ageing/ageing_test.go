package ageing_test

import (
	"math"
	"testing"

	"hotroom/advisor/ageing"
)

// Source: the capacitor makers' rule, liquid ×2 each 10 °C, polymer ×10 each
// 20 °C: 2000 h at 105 °C.
func TestLife(t *testing.T) {
	for _, c := range []struct {
		kind  string
		tempC float64
		want  float64
	}{
		{ageing.Liquid, 95, 4000},
		{ageing.Liquid, 85, 8000},
		{ageing.Liquid, 65, 32000},
		{ageing.Polymer, 95, 6324.6},
		{ageing.Polymer, 85, 20000},
		{ageing.Polymer, 65, 131400},
		{ageing.Polymer, 115, 632.46},
		{ageing.Liquid, -20, 131400},
	} {
		if got := ageing.Life(c.kind, 2000, 105, c.tempC); math.Abs(got-c.want) > 1e-4*c.want {
			t.Errorf("%s at %g °C: got %g h, want %g h", c.kind, c.tempC, got, c.want)
		}
	}
	if got := ageing.Years(131400); got != 15 {
		t.Errorf("131400 h is %g years, want 15", got)
	}
}

func TestTemperatureStandsBetween(t *testing.T) {
	if got := ageing.Temperature(40, 90, 0.5); got != 65 {
		t.Errorf("got %g °C, want 65 °C", got)
	}
}
