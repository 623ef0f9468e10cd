package bench

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// A warming that is stretched in time or in temperature, or shifted, has its
// fit stretched and shifted alike.
func TestFitScales(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tau, span := rapid.Float64Range(60, 900).Draw(t, "tau"), rapid.Float64Range(3, 8).Draw(t, "records of tau")
		stretch, scale := rapid.Float64Range(0.5, 3).Draw(t, "stretch"), rapid.Float64Range(0.5, 3).Draw(t, "scale")
		shift := rapid.Float64Range(-5, 20).Draw(t, "shift")
		plain, changed := warming(tau, span, 1, 1, 0), warming(tau, span, stretch, scale, shift)
		a, refusal := fitHeating(plain, plain[len(plain)-1].TimeS)
		b, otherRefusal := fitHeating(changed, changed[len(changed)-1].TimeS)
		if a == nil || b == nil {
			if tau*span*min(stretch, 1) < leastLoadS*1.01 {
				return // too short for any fit
			}
			t.Fatalf("refused: %s; %s", refusal, otherRefusal)
		}
		if !alike(b.FinalK, a.FinalK*scale+shift) || len(a.Parts) != len(b.Parts) || !alike(b.Main().TimeConstantS, a.Main().TimeConstantS*stretch) {
			t.Fatalf("%+v became %+v", a, b)
		}
	})
}

// warming is 50 K with a ripple that no exponential fits.
func warming(tau, records, stretch, scale, shift float64) []Point {
	var points []Point
	for i := range 120 {
		x := tau * records * float64(i) / 119
		rise := 50*(1-math.Exp(-x/tau)) + 0.05*math.Sin(float64(i)*2.3)
		points = append(points, Point{TimeS: x * stretch, RiseK: rise*scale + shift, count: 1})
	}
	return points
}

func alike(a, b float64) bool { return math.Abs(a-b) <= 1e-4*math.Max(math.Abs(b), 1) }

// What the Hampel filter marks does not depend on where zero is, and nothing
// within the least spike is marked.
func TestSpikesShift(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		eighth := rapid.Map(rapid.IntRange(160, 800), func(n int) float64 { return float64(n) / 8 }) // exact, also shifted
		values := rapid.SliceOfN(eighth, 1, 40).Draw(t, "values")
		shifted := make([]float64, len(values))
		for i, v := range values {
			shifted[i] = v + 64
		}
		a, b := spikes(values), spikes(shifted)
		for i := range a {
			if a[i] != b[i] {
				t.Fatalf("reading %d of %v is marked only at one place", i, values)
			}
		}
		quiet := rapid.SliceOfN(rapid.Float64Range(50, 50+leastSpikeK), 1, 40).Draw(t, "quiet")
		for i, spike := range spikes(quiet) {
			if spike {
				t.Fatalf("reading %d of %v is marked", i, quiet)
			}
		}
	})
}

// The moving median is the median of what is in the window.
func TestWindow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.Float64Range(-5, 5), 1, 60).Draw(t, "values")
		var w window
		const wide = 7
		for i, v := range values {
			w.add(v)
			if i >= wide {
				w.remove(values[i-wide])
			}
			from := max(0, i-wide+1)
			if want := median(values[from : i+1]); math.Abs(w.median()-want) > 1e-12 {
				t.Fatalf("at %d: %g, want %g", i, w.median(), want)
			}
		}
	})
}
