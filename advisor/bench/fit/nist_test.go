package fit_test

import (
	"math"
	"testing"

	"hotroom/advisor/bench/fit"
)

// saturating is b1·(1 − e^(−b2·x)), the curve of both sets.
func saturating(x float64, p, slope []float64) float64 {
	e := math.Exp(-p[1] * x)
	slope[0], slope[1] = 1-e, p[0]*x*e
	return p[0] * (1 - e)
}

// certified is a NIST data set with its certified results.
type certified struct {
	data             fit.Data
	starts           [][]float64
	params, errors   []float64
	sumOfSquares     float64
	residualStandard float64
}

// Source: NIST Statistical Reference Datasets, nonlinear regression, Misra1a
// (lower difficulty). The data, the starts and the certified standard errors
// are from memory; only the right ones give the certified results.
func misra1a() certified {
	return certified{
		data: fit.Data{
			X: []float64{77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1, 689.1, 760.0},
			Y: []float64{10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40, 75.47, 81.78},
		},
		starts:       [][]float64{{500, 0.0001}, {250, 0.0005}},
		params:       []float64{2.3894212918e+02, 5.5015643181e-04},
		errors:       []float64{2.7070075241e+00, 7.2668688436e-06},
		sumOfSquares: 1.2455138894e-01, residualStandard: 1.0187876330e-01,
	}
}

// Source: NIST Statistical Reference Datasets, BoxBOD (higher difficulty), from
// memory, as above. Many solvers fail from the first start.
func boxBOD() certified {
	return certified{
		data: fit.Data{
			X: []float64{1, 2, 3, 5, 7, 10},
			Y: []float64{109, 149, 149, 191, 213, 224},
		},
		starts:       [][]float64{{1, 1}, {100, 0.75}},
		params:       []float64{2.1380940889e+02, 5.4723748542e-01},
		errors:       []float64{1.2354515176e+01, 1.0455993237e-01},
		sumOfSquares: 1.1680088766e+03, residualStandard: 1.7088072423e+01,
	}
}

func TestCertifiedNIST(t *testing.T) {
	for name, set := range map[string]certified{"Misra1a": misra1a(), "BoxBOD": boxBOD()} {
		for _, start := range set.starts {
			r, err := fit.Solve(saturating, set.data, start)
			if err != nil {
				t.Errorf("%s from %v: %v", name, start, err)
				continue
			}
			for i := range r.Params {
				agrees(t, name, r.Params[i], set.params[i])
				agrees(t, name+" standard error", r.StandardError(i), set.errors[i])
			}
			agrees(t, name+" sum of squares", r.SumOfSquares, set.sumOfSquares)
			agrees(t, name+" residual deviation", math.Sqrt(r.SumOfSquares/float64(r.Freedom())), set.residualStandard)
		}
	}
}

func agrees(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-6*math.Abs(want)) {
		t.Errorf("%s: got %.11g, certified %.11g", what, got, want)
	}
}
