package bench

import (
	"math"
	"testing"

	"hotroom/advisor/bench/fit"
)

// Source: Theraja, A Textbook of Electrical Technology, vol. III, example 45.13:
// a machine at 0, 25 and 37.5 °C over the room after 0, 1 and 2 h settles at
// 50.0 °C; it doubles its way in each hour, so that τ = 1/ln 2 h. Each reading
// is given twice, since three of them leave nothing to judge the fit by.
func TestHeatingTheraja(t *testing.T) {
	d := fit.Data{X: []float64{0, 1, 2, 0, 1, 2}, Y: []float64{0, 25, 37.5, 0, 25, 37.5}}
	r, err := fit.Best(one, d, [][]float64{{40, 0, 1}, {40, 0, 3}})
	if err != nil || math.Abs(r.Params[0]-50) > 1e-6 || math.Abs(r.Params[2]-1/math.Ln2) > 1e-6 {
		t.Errorf("got %v (%v), want 50.0 °C and 1.4427 h", r.Params, err)
	}
}

// Source: Lienhard, A Heat Transfer Textbook, example 2.9: a time constant of
// 58.10 s; 95 % of the way takes 174.05 s, where the book's rule of 3τ says
// 174.3 s.
func TestHeatingLienhard(t *testing.T) {
	h := Heating{FinalK: 80, Parts: []Part{{AmplitudeK: 80, TimeConstantS: 58.10}}}
	if got := h.At(174.05) / 80; math.Abs(got-0.95) > 1e-5 {
		t.Errorf("after 174.05 s: %.6f of the way, want 0.95", got)
	}
	if got := h.At(174.3) / 80; math.Abs(got-(1-math.Exp(-3))) > 1e-9 {
		t.Errorf("after 174.3 s: %.6f of the way", got)
	}
	var points []Point
	for x := 0.0; x <= 600; x += 5 {
		points = append(points, Point{TimeS: x, RiseK: h.At(x), count: 1})
	}
	got, refusal := fitHeating(points, 600)
	if got == nil || math.Abs(got.Main().TimeConstantS-58.10) > 0.01 || math.Abs(got.FinalK-80) > 1e-6 {
		t.Errorf("got %+v (%s)", got, refusal)
	}
}

// The derivatives agree with differences of the curves themselves.
func TestDerivatives(t *testing.T) {
	for name, tt := range map[string]struct {
		curve fit.Curve
		at    []float64
	}{"one": {one, []float64{55, 4, 300}}, "two": {two, []float64{60, 15, 90, 40, 800}}} {
		slope, unused := make([]float64, len(tt.at)), make([]float64, len(tt.at))
		for _, x := range []float64{0, 1, 50, 400, 3000} {
			tt.curve(x, tt.at, slope)
			for i, p := range tt.at {
				step := 1e-5 * p
				up, down := append([]float64{}, tt.at...), append([]float64{}, tt.at...)
				up[i], down[i] = p+step, p-step
				want := (tt.curve(x, up, unused) - tt.curve(x, down, unused)) / (2 * step)
				if math.Abs(slope[i]-want) > 1e-6*math.Max(1, math.Abs(want)) {
					t.Errorf("%s at %g by parameter %d: %g, by differences %g", name, x, i, slope[i], want)
				}
			}
		}
	}
}

func TestSpikes(t *testing.T) {
	for name, tt := range map[string]struct {
		values []float64
		want   []int
	}{
		"steady":          {[]float64{50, 50, 50, 50, 50, 50, 50, 50}, nil},
		"one":             {[]float64{50, 50, 50.1, 80, 50.1, 50.2, 50.2, 50.3}, []int{3}},
		"two":             {[]float64{50, 50.1, 50.2, 80, 20, 50.3, 50.4, 50.5, 50.6}, []int{3, 4}},
		"a step":          {[]float64{20, 20, 20, 20, 20, 60, 60, 60, 60, 60}, nil},
		"a rise":          {[]float64{20, 20, 20, 20, 28, 36, 42, 47, 51}, nil},
		"a tenth's noise": {[]float64{50, 50, 50, 50.1, 50, 50, 50, 50.1}, nil},
		"at the end":      {[]float64{50, 50, 50, 50, 50, 50, 70}, []int{6}},
		"at the start":    {[]float64{5, 50, 50, 50, 50, 50, 50}, []int{0}},
	} {
		var got []int
		for i, spike := range spikes(tt.values) {
			if spike {
				got = append(got, i)
			}
		}
		if len(got) != len(tt.want) {
			t.Errorf("%s: got %v, want %v", name, got, tt.want)
			continue
		}
		for i := range got {
			if got[i] != tt.want[i] {
				t.Errorf("%s: got %v, want %v", name, got, tt.want)
			}
		}
	}
}

func TestPeak(t *testing.T) {
	times, values := make([]float64, 600), make([]float64, 600)
	for i := range times {
		times[i], values[i] = float64(i), 50
		if i >= 300 && i < 340 { // less than half of any minute and a half, more than half of a minute
			values[i] = 70
		}
		if i == 100 {
			values[i] = 200
		}
	}
	if got := peak(times, values); got != 70 {
		t.Errorf("got %g, want 70: the largest 60-second median", got)
	}
	for i := 300; i < 340; i++ {
		values[i] = 50
	}
	if got := peak(times, values); got != 50 {
		t.Errorf("got %g, want 50: one reading is no minute", got)
	}
}

func TestLoadByPower(t *testing.T) {
	var times, power []float64
	for i := range 1000 {
		times = append(times, float64(i))
		watts := 12.0
		switch {
		case i >= 50 && i < 100, i >= 200 && i < 900 && (i < 400 || i >= 430): // a short load, then one with a pause
			watts = 120
		}
		power = append(power, watts)
	}
	power[600] = math.NaN()
	if got := loadByPower(times, power, 50); got != (stretch{200, 900}) {
		t.Errorf("got %v, want 200 to 900", got)
	}
}

func TestRoomDriftHasASign(t *testing.T) {
	var times, up, down []float64
	for i := range 600 {
		times, up, down = append(times, float64(i)), append(up, 20+float64(i)/200), append(down, 25-float64(i)/300)
	}
	if got := roomDrift(times, up); math.Abs(got-2.695) > 0.01 {
		t.Errorf("up: %g", got)
	}
	if got := roomDrift(times, down); math.Abs(got+1.797) > 0.01 {
		t.Errorf("down: %g", got)
	}
}
