// Package evidence knows how sure the estimate is: what is believed of a
// board's coefficients before anything was measured, and how measured runs
// sharpen it.
package evidence

import "math"

// Vector is b (K), θ1 and θ2, or the row x = (1, x1, x2) that multiplies them.
type Vector [3]float64

// Matrix is a symmetric covariance of a Vector.
type Matrix [3][3]float64

// Belief is a normal distribution of a board's coefficients, with the
// discrepancy that the model leaves even when they are known.
type Belief struct {
	Mean         Vector
	Cov          Matrix
	DiscrepancyK float64 // standard deviation, K
}

// The belief before anything was measured: the parts alone. Judged by
// engineers, no source; runs replace it as they come in.
const (
	priorOffsetK      = 3.0  // mean of b: probe spot over the mean surface, K
	priorOffsetSDK    = 4.0  // K
	priorScale        = 1.0  // mean of θ1 and θ2
	priorLossScaleSD  = 0.35 // of θ1
	priorSocketSD     = 0.5  // of θ2
	priorDiscrepancyK = 2.0  // K

	// leastScale is the lowest θ1 and θ2: heat never cools.
	leastScale = 0.05
)

// PartsOnly is the belief about a board of which nothing was measured.
func PartsOnly() Belief {
	return Belief{
		Mean:         Vector{priorOffsetK, priorScale, priorScale},
		Cov:          diagonal(priorOffsetSDK*priorOffsetSDK, priorLossScaleSD*priorLossScaleSD, priorSocketSD*priorSocketSD),
		DiscrepancyK: priorDiscrepancyK,
	}
}

func diagonal(a, b, c float64) Matrix {
	return Matrix{{a, 0, 0}, {0, b, 0}, {0, 0, c}}
}

// Diagonal gives the variances.
func (m *Matrix) Diagonal() Vector { return Vector{m[0][0], m[1][1], m[2][2]} }

// Times gives the product of a matrix and a column.
func (m *Matrix) Times(x Vector) Vector {
	var y Vector
	for i := range m {
		y[i] = m[i][0]*x[0] + m[i][1]*x[1] + m[i][2]*x[2]
	}
	return y
}

// Dot gives the product of a row and a column.
func (v Vector) Dot(x Vector) float64 { return v[0]*x[0] + v[1]*x[1] + v[2]*x[2] }

// Variance gives x'Cx, the variance that the coefficients leave at a row x, K².
func (b *Belief) Variance(x Vector) float64 { return x.Dot(b.Cov.Times(x)) }

// Uncertainty gives the standard uncertainty in K of a prediction at a row x:
// sqrt(x'Cx + discrepancy²)/(1 − g), since the loop gain g amplifies whatever
// is wrong.
func (b *Belief) Uncertainty(x Vector, loopGain float64) float64 {
	return math.Sqrt(b.Variance(x)+b.DiscrepancyK*b.DiscrepancyK) / (1 - loopGain)
}

// observe conditions the belief on a value y that a row x predicts with a
// noise variance: the conjugate update of a normal (Bayesian linear
// regression), one observation at a time.
func (b *Belief) observe(x Vector, y, noise float64) {
	cx := b.Cov.Times(x)
	total := x.Dot(cx) + noise
	miss := y - x.Dot(b.Mean)
	for i := range b.Mean {
		b.Mean[i] += cx[i] * miss / total
		for j := range b.Cov[i] {
			b.Cov[i][j] -= cx[i] * cx[j] / total
		}
	}
}

// Bounded gives the belief with θ1 and θ2 kept from falling below 0.05: where
// a mean does, the normal is conditioned on 0.05, the lower one first, its
// covariance too.
func (b Belief) Bounded() Belief {
	for range 2 {
		low := 1
		if b.Mean[2] < b.Mean[1] {
			low = 2
		}
		if b.Mean[low] >= leastScale {
			break
		}
		b.fix(low, leastScale)
	}
	return b
}

// fix conditions the belief on a coefficient being exactly a value.
func (b *Belief) fix(which int, at float64) {
	if b.Cov[which][which] > 0 {
		var x Vector
		x[which] = 1
		b.observe(x, at, 0)
	}
	b.Mean[which] = at
	for i := range b.Cov {
		b.Cov[i][which], b.Cov[which][i] = 0, 0
	}
}
