package evidence_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"

	"hotroom/advisor/evidence"
	"hotroom/knowledge"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.9g, want %.9g within %g", what, got, want, tolerance)
	}
}

// Sources: IEC 60584-1 class 1 and 2 and ASTM E230 special and standard limits,
// type K up to 293 °C, as rectangular distributions (GUM 4.3.7).
func TestMeasurementNoise(t *testing.T) {
	for _, c := range []struct {
		meter *knowledge.Thermometer
		hotC  float64
		band  float64
	}{
		{&knowledge.Thermometer{ClassC: 1.5, ClassPercent: 0.4}, 90, 1.5},
		{&knowledge.Thermometer{ClassC: 2.5, ClassPercent: 0.75}, 90, 2.5},
		{&knowledge.Thermometer{ClassC: 1.1, ClassPercent: 0.4}, 90, 1.1},
		{&knowledge.Thermometer{ClassC: 2.2, ClassPercent: 0.75}, 90, 2.2},
		{&knowledge.Thermometer{ClassC: 1.1, ClassPercent: 1.5}, 90, 1.35},
		{nil, 90, 2.5},
	} {
		near(t, "noise", evidence.MeasurementNoise(c.meter, c.hotC), c.band*c.band/3+1+0.25, 1e-12)
	}
}

// The posterior one observation at a time is the textbook normal-equation
// posterior: C = (S⁻¹ + Σ xx'/v)⁻¹, m = C·(S⁻¹μ + Σ xy/v).
func TestPosteriorAgreesWithNormalEquations(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		runs := rapid.SliceOfN(drawObservation(), 1, 8).Draw(t, "runs")
		prior := evidence.PartsOnly()
		got := evidence.Posterior(prior, runs)
		mean, cov := normalEquations(prior, runs)
		for i := range 3 {
			if math.Abs(got.Mean[i]-mean.AtVec(i)) > 1e-6 {
				t.Fatalf("mean %d: got %g, want %g", i, got.Mean[i], mean.AtVec(i))
			}
			for j := range 3 {
				if math.Abs(got.Cov[i][j]-cov.At(i, j)) > 1e-6 {
					t.Fatalf("covariance %d,%d: got %g, want %g", i, j, got.Cov[i][j], cov.At(i, j))
				}
			}
		}
	})
}

func drawObservation() *rapid.Generator[evidence.Observation] {
	return rapid.Custom(func(t *rapid.T) evidence.Observation {
		return evidence.Observation{
			X:     evidence.Vector{1, rapid.Float64Range(2, 90).Draw(t, "x1"), rapid.Float64Range(2, 25).Draw(t, "x2")},
			Y:     rapid.Float64Range(0, 110).Draw(t, "y"),
			Noise: rapid.Float64Range(1, 6).Draw(t, "noise"),
		}
	})
}

func normalEquations(prior evidence.Belief, runs []evidence.Observation) (*mat.VecDense, *mat.Dense) {
	precision := mat.NewDense(3, 3, nil)
	right := mat.NewVecDense(3, nil)
	for i := range 3 {
		precision.Set(i, i, 1/prior.Cov[i][i])
		right.SetVec(i, prior.Mean[i]/prior.Cov[i][i])
	}
	for _, o := range runs {
		v := o.Noise + prior.DiscrepancyK*prior.DiscrepancyK
		x := mat.NewVecDense(3, o.X[:])
		var outer mat.Dense
		outer.Outer(1/v, x, x)
		precision.Add(precision, &outer)
		right.AddScaledVec(right, o.Y/v, x)
	}
	var cov mat.Dense
	if err := cov.Inverse(precision); err != nil {
		panic(err)
	}
	var mean mat.VecDense
	mean.MulVec(&cov, right)
	return &mean, &cov
}

// One more run never raises x'Cx, with prior and discrepancy held fixed.
func TestOneMoreRunNeverRaisesVariance(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		runs := rapid.SliceOfN(drawObservation(), 0, 6).Draw(t, "runs")
		more := append(runs[:len(runs):len(runs)], drawObservation().Draw(t, "more"))
		x := drawObservation().Draw(t, "at").X
		before, after := evidence.Posterior(evidence.PartsOnly(), runs), evidence.Posterior(evidence.PartsOnly(), more)
		if after.Variance(x) > before.Variance(x)*(1+1e-9)+1e-12 {
			t.Fatalf("x'Cx rises from %g to %g", before.Variance(x), after.Variance(x))
		}
	})
}

// Neither scale is ever below 0.05, whatever the runs say, and a bounded
// coefficient is certain.
func TestBounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		runs := rapid.SliceOfN(drawObservation(), 0, 6).Draw(t, "runs")
		free := evidence.Posterior(evidence.PartsOnly(), runs)
		b := free.Bounded()
		for i := 1; i < 3; i++ {
			if b.Mean[i] < 0.05 {
				t.Fatalf("θ%d is %g", i, b.Mean[i])
			}
		}
		if free.Mean[1] >= 0.05 && free.Mean[2] >= 0.05 && b != free {
			t.Fatal("a belief that needs no bound was changed")
		}
	})
	b := evidence.Posterior(evidence.PartsOnly(), []evidence.Observation{
		{X: evidence.Vector{1, 10, 5}, Y: 30, Noise: 1},
		{X: evidence.Vector{1, 80, 15}, Y: 25, Noise: 1},
	})
	if after := b.Mean[2] + b.Cov[2][1]/b.Cov[1][1]*(0.05-b.Mean[1]); b.Mean[1] >= 0.05 || after < 0.05 {
		t.Fatalf("the test wants runs that pull θ1 alone below its bound, got %g and %g", b.Mean[1], after)
	}
	bounded := b.Bounded()
	near(t, "θ1", bounded.Mean[1], 0.05, 0)
	near(t, "its variance", bounded.Cov[1][1], 0, 1e-12)
	near(t, "b, conditioned", bounded.Mean[0], b.Mean[0]+b.Cov[0][1]/b.Cov[1][1]*(0.05-b.Mean[1]), 1e-9)
}

func TestLearnedKeepsPartsOnlyBelowThreeBoards(t *testing.T) {
	two := [][]evidence.Observation{{{X: evidence.Vector{1, 30, 9}, Y: 60, Noise: 2}}, {{X: evidence.Vector{1, 40, 9}, Y: 70, Noise: 2}}}
	if got := evidence.Learned(two); got != evidence.PartsOnly() {
		t.Errorf("two boards changed the belief to %+v", got)
	}
	three := append(two, []evidence.Observation{{X: evidence.Vector{1, 35, 9}, Y: 66, Noise: 2}})
	if got := evidence.Learned(three); got == evidence.PartsOnly() {
		t.Error("three boards changed nothing")
	}
}

func TestUncertaintyGrowsWithTheLoop(t *testing.T) {
	b := evidence.PartsOnly()
	x := evidence.Vector{1, 30, 12}
	want := math.Sqrt(16 + 0.1225*900 + 0.25*144 + 4)
	near(t, "no loop", b.Uncertainty(x, 0), want, 1e-12)
	near(t, "loop of a half", b.Uncertainty(x, 0.5), 2*want, 1e-12)
}
