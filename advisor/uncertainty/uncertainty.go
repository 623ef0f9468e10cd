// Package uncertainty combines what is not known exactly, in the form of the
// Guide to the Expression of Uncertainty in Measurement (GUM, JCGM 100).
package uncertainty

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Source is one line of an uncertainty budget.
type Source struct {
	Name string
	// Value is the half width of the interval, or a standard deviation, in the
	// unit of the result.
	Value float64
	// Divisor turns the value into a standard uncertainty: 1 for a standard
	// deviation, √3 for the half width of a rectangular distribution (GUM
	// 4.3.7).
	Divisor float64
	// Freedom is the degrees of freedom; 0 stands for infinitely many.
	Freedom float64
}

// Within makes a source of a tolerance: anything within ± the half width is
// equally likely.
func Within(name string, halfWidth float64) Source {
	return Source{Name: name, Value: halfWidth, Divisor: math.Sqrt(3)}
}

// Deviation makes a source of a standard deviation that is well known.
func Deviation(name string, standard float64) Source {
	return Source{Name: name, Value: standard, Divisor: 1}
}

// Standard gives the standard uncertainty of a source.
func (s Source) Standard() float64 { return s.Value / s.Divisor }

// Budget is the sources of one result, each with a sensitivity of one, and
// independent of each other.
type Budget []Source

// Variance gives the square of the combined standard uncertainty.
func (b Budget) Variance() float64 {
	sum := 0.0
	for _, s := range b {
		sum += s.Standard() * s.Standard()
	}
	return sum
}

// Standard gives the combined standard uncertainty: the root of the sum of
// squares (GUM 5.1.2).
func (b Budget) Standard() float64 { return math.Sqrt(b.Variance()) }

// Freedom gives the effective degrees of freedom by the Welch–Satterthwaite
// formula (GUM G.4.1); +Inf when every source has infinitely many.
func (b Budget) Freedom() float64 {
	sum := 0.0
	for _, s := range b {
		if s.Freedom > 0 {
			sum += math.Pow(s.Standard(), 4) / s.Freedom
		}
	}
	return b.Variance() * b.Variance() / sum
}

// mostFreedom is where Student's t is the normal distribution to five digits; far
// beyond it the library's quantile loses its way.
const mostFreedom = 1e6

// Expanded gives the half width of the interval that holds a share (0 to below
// 1) of what may be true: Student's t at the effective degrees of freedom,
// rounded down (GUM G.4.1), times the combined standard uncertainty.
func (b Budget) Expanded(share float64) float64 {
	quantile := (1 + share) / 2
	freedom := math.Floor(b.Freedom())
	if freedom > mostFreedom {
		return distuv.UnitNormal.Quantile(quantile) * b.Standard()
	}
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: freedom}.Quantile(quantile) * b.Standard()
}
