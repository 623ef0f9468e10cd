package thermocouple_test

import (
	"math"
	"testing"

	"hotroom/advisor/thermocouple"
)

// Source: NIST ITS-90 (SRD 60), type K table, mV to three decimals. The rows
// below 0 °C and above 150 °C are from memory.
func TestTableITS90(t *testing.T) {
	for _, row := range []struct{ celsius, millivolts float64 }{
		{-270, -6.458},
		{-200, -5.891},
		{-100, -3.554},
		{-50, -1.889},
		{-10, -0.392},
		{0, 0},
		{25, 1.000},
		{50, 2.023},
		{85, 3.474},
		{100, 4.096},
		{125, 5.124},
		{150, 6.138},
		{500, 20.644},
		{1000, 41.276},
		{1372, 54.886},
	} {
		got, err := thermocouple.Millivolts(row.celsius)
		if err != nil || math.Round(got*1000) != math.Round(row.millivolts*1000) {
			t.Errorf("%g °C: got %.5f mV (%v), the table says %.3f", row.celsius, got, err, row.millivolts)
		}
	}
}

// Source: NIST ITS-90 (SRD 60): the error bounds of the inverse functions.
func TestInverseBoundsITS90(t *testing.T) {
	for _, part := range []struct{ from, to, low, high float64 }{
		{-199.9, 0, -0.02, 0.04},
		{0, 500, -0.05, 0.04},
		{500, 1371.9, -0.05, 0.06},
	} {
		for c := part.from; c <= part.to; c += 0.1 {
			mv, err := thermocouple.Millivolts(c)
			if err != nil {
				t.Fatal(err)
			}
			back, err := thermocouple.Celsius(mv)
			if miss := back - c; err != nil || miss < part.low-0.002 || miss > part.high+0.002 {
				t.Fatalf("%.1f °C comes back as %.4f (%v), beyond %g to %g", c, back, err, part.low, part.high)
			}
		}
	}
}

// The cold junction's millivolts are added: adding temperatures instead would
// be wrong by more than the tolerance here.
func TestCompensated(t *testing.T) {
	for _, tt := range []struct{ hot, junction float64 }{
		{90, 23}, {90, -10}, {25, 25}, {20, 30}, {-30, 20}, {0, 20}, {0.01, 20}, {-0.01, 20},
	} {
		hot, _ := thermocouple.Millivolts(tt.hot)
		cold, _ := thermocouple.Millivolts(tt.junction)
		got, err := thermocouple.Compensated(hot-cold, tt.junction)
		if err != nil || math.Abs(got-tt.hot) > 0.05 {
			t.Errorf("%g °C over a junction at %g: got %g (%v)", tt.hot, tt.junction, got, err)
		}
	}
}

func TestOutside(t *testing.T) {
	for _, tt := range []struct {
		got  func() (float64, error)
		want string
	}{
		{func() (float64, error) { return thermocouple.Millivolts(1400) }, "1400 °C is outside type K: give -270 to 1372 °C"},
		{func() (float64, error) { return thermocouple.Celsius(60) }, "60 mV is outside type K: give -5.891 to 54.886 mV, which are -200 to 1372 °C"},
		{func() (float64, error) { return thermocouple.Celsius(math.NaN()) }, "NaN mV is outside type K: give -5.891 to 54.886 mV, which are -200 to 1372 °C"},
		{func() (float64, error) { return thermocouple.Compensated(1, -300) }, "the cold junction: -300 °C is outside type K: give -270 to 1372 °C"},
	} {
		if _, err := tt.got(); err == nil || err.Error() != tt.want {
			t.Errorf("got %v, want %s", err, tt.want)
		}
	}
}
