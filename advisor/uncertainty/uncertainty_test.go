package uncertainty_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"hotroom/advisor/uncertainty"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.6g, want %.6g within %g", what, got, want, tolerance)
	}
}

// Source: GUM (JCGM 100), example H.1, end-gauge calibration: u = 32 nm, 16
// degrees of freedom, U99 = 93 nm (unrounded 92.48). The four components, in
// nm, are from memory; that they give all three printed results speaks for
// them.
func TestEndGaugeGUMH1(t *testing.T) {
	b := uncertainty.Budget{
		{Name: "standard", Value: 25, Divisor: 1, Freedom: 18},
		{Name: "difference", Value: 9.7, Divisor: 1, Freedom: 25.6},
		{Name: "expansion", Value: 2.9, Divisor: 1, Freedom: 50},
		{Name: "temperature", Value: 16.6, Divisor: 1, Freedom: 2},
	}
	near(t, "u", b.Standard(), 32, 0.5)
	near(t, "degrees of freedom", math.Floor(b.Freedom()), 16, 0)
	near(t, "U99", b.Expanded(0.99), 92.48, 0.1)
}

// Source: GUM, the Welch–Satterthwaite formula for 0.57 with 9 degrees of
// freedom and 0.25 with infinitely many: 12.8.
func TestWelchSatterthwaite(t *testing.T) {
	b := uncertainty.Budget{{Value: 0.57, Divisor: 1, Freedom: 9}, uncertainty.Deviation("other", 0.25)}
	near(t, "degrees of freedom", b.Freedom(), 12.8, 0.05)
}

// A source of no weight with few degrees of freedom leaves the others' interval.
func TestHugeFreedom(t *testing.T) {
	for _, tiny := range []float64{1e-1, 1e-2, 1e-3, 1e-4, 1e-6} {
		b := uncertainty.Budget{uncertainty.Deviation("large", 1), {Name: "tiny", Value: tiny, Divisor: 1, Freedom: 5}}
		near(t, "U95", b.Expanded(0.95), 1.96*math.Hypot(1, tiny), 0.001)
	}
}

// Source: JCGM 101, 9.2.2: the sum of four standard normal quantities lies
// within ±3.92 with 95 %, by the GUM's way and by draws.
func TestFourNormalsJCGM101(t *testing.T) {
	var b uncertainty.Budget
	for range 4 {
		b = append(b, uncertainty.Deviation("one of four", 1))
	}
	near(t, "u", b.Standard(), 2, 1e-12)
	near(t, "U95", b.Expanded(0.95), 3.92, 0.005)
	near(t, "by draws", spread95(func(r *rand.Rand) float64 { return r.NormFloat64() }), 3.92, 0.03)
}

// Source: JCGM 101, 9.2.3: four rectangular quantities of standard deviation 1
// lie within ±3.88 with 95 % by draws, ±3.92 by the GUM's way.
func TestFourRectanglesJCGM101(t *testing.T) {
	var b uncertainty.Budget
	for range 4 {
		b = append(b, uncertainty.Within("one of four", math.Sqrt(3)))
	}
	near(t, "U95", b.Expanded(0.95), 3.92, 0.005)
	near(t, "by draws", spread95(func(r *rand.Rand) float64 { return (2*r.Float64() - 1) * math.Sqrt(3) }), 3.88, 0.02)
}

// spread95 draws the sum of four quantities 400,000 times and gives half the
// width of the interval that holds the middle 95 %.
func spread95(draw func(*rand.Rand) float64) float64 {
	r := rand.New(rand.NewPCG(1, 2))
	sums := make([]float64, 400_000)
	for i := range sums {
		sums[i] = draw(r) + draw(r) + draw(r) + draw(r)
	}
	slices.Sort(sums)
	return (sums[len(sums)*975/1000] - sums[len(sums)*25/1000]) / 2
}
