// Package fit finds the parameters of a curve by least squares, with analytic
// derivatives, and says how well the data determine them.
package fit

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/mat"
)

// Curve gives a curve's value at x for parameters p and writes its derivatives
// by each parameter into slope.
type Curve func(x float64, p, slope []float64) float64

// Data are the points to fit. Weights are relative, so that a mean of four
// readings counts as four; nil weighs all alike.
type Data struct {
	X, Y    []float64
	Weights []float64
}

// Result is a curve's best parameters.
type Result struct {
	Params []float64
	// Covariance of the parameters by the linear approximation at the best
	// point, s²·(J'J)⁻¹ with s² the residual variance.
	Covariance [][]float64
	// SumOfSquares is the weighted sum of squared residuals.
	SumOfSquares float64
	Points       int
}

// Freedom gives the degrees of freedom: points less parameters.
func (r *Result) Freedom() int { return r.Points - len(r.Params) }

// StandardError gives the standard error of a parameter, in its own unit.
func (r *Result) StandardError(i int) float64 { return math.Sqrt(r.Covariance[i][i]) }

// AICc gives Akaike's information criterion with the correction for few points
// (Hurvich and Tsai 1989): n·ln(RSS/n) + 2k + 2k(k+1)/(n−k−1), where k counts
// the parameters and the variance.
func (r *Result) AICc() float64 {
	n, k := float64(r.Points), float64(len(r.Params)+1)
	if n-k-1 <= 0 {
		return math.Inf(1)
	}
	// An exact fit has no logarithm: what rounding leaves stands for it.
	rss := math.Max(r.SumOfSquares, 1e-24*n)
	return n*math.Log(rss/n) + 2*k + 2*k*(k+1)/(n-k-1)
}

// ErrNoFit says that no start led to parameters that the data determine.
var ErrNoFit = errors.New("the data do not determine the curve's parameters")

// Best solves from several starts and keeps the lowest sum of squares.
func Best(curve Curve, d Data, starts [][]float64) (Result, error) {
	var best Result
	found := false
	for _, start := range starts {
		r, err := Solve(curve, d, start)
		if err == nil && (!found || r.SumOfSquares < best.SumOfSquares) {
			best, found = r, true
		}
	}
	if !found {
		return Result{}, ErrNoFit
	}
	return best, nil
}

// covariance gives s²·(J'J)⁻¹; false where J'J has no inverse worth the name.
func covariance(normal *mat.SymDense, s2 float64) ([][]float64, bool) {
	n := normal.SymmetricDim()
	scaled, scale := mat.NewSymDense(n, nil), make([]float64, n)
	for i := range n {
		scale[i] = math.Sqrt(normal.At(i, i))
		if !(scale[i] > 0) || math.IsInf(scale[i], 1) {
			return nil, false
		}
	}
	for i := range n {
		for j := i; j < n; j++ {
			scaled.SetSym(i, j, normal.At(i, j)/scale[i]/scale[j])
		}
	}
	var factor mat.Cholesky
	var inverse mat.SymDense
	if !factor.Factorize(scaled) || factor.Cond() > 1e14 || factor.InverseTo(&inverse) != nil {
		return nil, false
	}
	rows := make([][]float64, n)
	for i := range rows {
		rows[i] = make([]float64, n)
		for j := range rows[i] {
			rows[i][j] = s2 * inverse.At(i, j) / scale[i] / scale[j]
		}
	}
	return rows, true
}
