package fit

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// The settings of the search, which change the way and not the result.
const (
	firstDamping  = 1e-2
	mostDamping   = 1e16
	mostSteps     = 100
	mostCurving   = 0.75  // twice the acceleration over the velocity of a step (Transtrum and Sethna 2012)
	probeShare    = 0.1   // of a step, to see how far the curve is from its tangent
	enoughImprove = 1e-14 // share of the sum of squares below which a step changes nothing
	enoughSmall   = 1e-10 // share of a parameter below which a step changes nothing
)

// Solve finds the parameters with the least sum of squared residuals from one
// start, by Levenberg's and Marquardt's method: the step h solves
// (J'J + λ·D)·h = J'r, D the largest diagonal of J'J so far, with λ divided by ten after a step that helps
// and multiplied by ten after one that does not (Marquardt 1963). A step along
// which the curve bends away from its tangent is damped more, and what bending
// is left corrects it (geodesic acceleration, Transtrum and Sethna 2012). It
// fails where the search runs out of numbers or the end is not determined.
func Solve(curve Curve, d Data, start []float64) (Result, error) {
	s := newSearch(curve, d, start)
	if !isFinite(s.rss) {
		return Result{}, ErrNoFit
	}
	for range mostSteps {
		if done := s.step(); done {
			break
		}
	}
	s.linearise()
	freedom := len(d.X) - len(start)
	if freedom <= 0 {
		return Result{}, ErrNoFit
	}
	cov, ok := covariance(s.normal, s.rss/float64(freedom))
	if !ok {
		return Result{}, ErrNoFit
	}
	return Result{Params: s.at, Covariance: cov, SumOfSquares: s.rss, Points: len(d.X)}, nil
}

// search is one walk down to a least sum of squares.
type search struct {
	curve   Curve
	data    Data
	at      []float64 // parameters
	rss     float64
	damping float64

	normal   *mat.SymDense // J'J at the parameters
	downhill *mat.VecDense // J'r
	scale    []float64     // the largest diagonal of J'J so far (Moré 1978)
	slope    []float64
}

func newSearch(curve Curve, d Data, start []float64) *search {
	n := len(start)
	s := &search{
		curve: curve, data: d, at: append([]float64{}, start...), damping: firstDamping,
		normal: mat.NewSymDense(n, nil), downhill: mat.NewVecDense(n, nil), scale: make([]float64, n), slope: make([]float64, n),
	}
	s.rss = s.sumOfSquares(start)
	return s
}

func (s *search) weight(i int) float64 {
	if s.data.Weights == nil {
		return 1
	}
	return s.data.Weights[i]
}

func (s *search) sumOfSquares(p []float64) float64 {
	sum := 0.0
	for i, x := range s.data.X {
		r := s.data.Y[i] - s.curve(x, p, s.slope)
		sum += s.weight(i) * r * r
	}
	return sum
}

// linearise works out J'J and J'r at the parameters.
func (s *search) linearise() {
	n := len(s.at)
	normal, downhill := make([]float64, n*n), make([]float64, n)
	for i, x := range s.data.X {
		r := s.data.Y[i] - s.curve(x, s.at, s.slope)
		w := s.weight(i)
		for a := range n {
			downhill[a] += w * s.slope[a] * r
			for b := a; b < n; b++ {
				normal[a*n+b] += w * s.slope[a] * s.slope[b]
			}
		}
	}
	for a := range n {
		s.scale[a] = math.Max(s.scale[a], normal[a*n+a])
	}
	s.normal, s.downhill = mat.NewSymDense(n, normal), mat.NewVecDense(n, downhill)
}

// step looks for a step that helps; it reports true where none does or the last
// one changed nothing.
func (s *search) step() (done bool) {
	s.linearise()
	for ; s.damping < mostDamping; s.damping *= 10 {
		next, ok := s.try()
		if !ok {
			continue
		}
		rss := s.sumOfSquares(next)
		if !(rss <= s.rss) {
			continue
		}
		done = s.rss-rss <= enoughImprove*s.rss && s.near(next)
		s.at, s.rss, s.damping = next, rss, math.Max(s.damping/10, 1e-14)
		return done
	}
	return true
}

// try gives the parameters after a damped step, or false where the curve bends
// too much on the way for its tangent to be a guide.
func (s *search) try() ([]float64, bool) {
	n := len(s.at)
	damped := mat.NewSymDense(n, nil)
	damped.CopySym(s.normal)
	for i := range n {
		damped.SetSym(i, i, s.normal.At(i, i)+s.damping*s.scale[i])
	}
	var factor mat.Cholesky
	var velocity, acceleration mat.VecDense
	if !factor.Factorize(damped) {
		return nil, false
	}
	_ = factor.SolveVecTo(&velocity, s.downhill) // its error only warns of a poor condition, which damping mends
	_ = factor.SolveVecTo(&acceleration, s.bending(&velocity))
	if !(2*s.length(&acceleration) <= mostCurving*s.length(&velocity)) {
		return nil, false
	}
	next := make([]float64, n)
	for i := range next {
		next[i] = s.at[i] + velocity.AtVec(i) + acceleration.AtVec(i)/2
		if !isFinite(next[i]) {
			return nil, false
		}
	}
	return next, true
}

// bending gives −J'f”, f” the second derivative of the curve along a step, from
// its value a part of the way along and its tangent.
func (s *search) bending(step *mat.VecDense) *mat.VecDense {
	n := len(s.at)
	part := make([]float64, n)
	for i := range part {
		part[i] = s.at[i] + probeShare*step.AtVec(i)
	}
	sum := make([]float64, n)
	for i, x := range s.data.X {
		ahead := s.curve(x, part, s.slope)
		here := s.curve(x, s.at, s.slope)
		along := 0.0
		for a := range n {
			along += s.slope[a] * step.AtVec(a)
		}
		second := 2 / probeShare * ((ahead-here)/probeShare - along)
		for a := range n {
			sum[a] -= s.weight(i) * s.slope[a] * second
		}
	}
	return mat.NewVecDense(n, sum)
}

// length measures a step by how much each parameter moves the curve.
func (s *search) length(step *mat.VecDense) float64 {
	sum := 0.0
	for i := range s.at {
		sum += s.scale[i] * step.AtVec(i) * step.AtVec(i)
	}
	return math.Sqrt(sum)
}

func (s *search) near(next []float64) bool {
	for i := range next {
		if math.Abs(next[i]-s.at[i]) > enoughSmall*math.Abs(next[i]) {
			return false
		}
	}
	return true
}

func isFinite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
