package bench

import (
	"fmt"
	"math"

	"hotroom/advisor/bench/fit"
	"hotroom/advisor/uncertainty"
)

// Heating is a rise over the room that settles with one time constant or two:
// rise(t) = final − Σ amplitudeᵢ·e^(−t/τᵢ).
type Heating struct {
	FinalK     float64 // rise when settled
	StandardK  float64 // standard error of it
	Freedom    float64 // effective degrees of freedom
	Parts      []Part  // the fastest first
	FromS      float64 // time under load at which the curve begins
	ResidualK  float64 // standard deviation of what the curve leaves
	Correlated float64 // of neighbouring residuals, 0 to 1
	// SlowK is how far off the final rise may be, K, if a slower part hides in
	// the record that it does not show.
	SlowK float64
}

// Part is one exponential.
type Part struct {
	AmplitudeK       float64
	TimeConstantS    float64
	TimeConstantStdS float64 // standard error
}

// At gives the rise in K at a time in s after the start of the load.
func (h *Heating) At(t float64) float64 {
	rise := h.FinalK
	for _, p := range h.Parts {
		rise -= p.AmplitudeK * math.Exp(-(t-h.FromS)/p.TimeConstantS)
	}
	return rise
}

// Main gives the part that carries most of the rise since the load came on.
func (h *Heating) Main() Part {
	best := h.Parts[0]
	for _, p := range h.Parts[1:] {
		if h.sinceOn(p) > h.sinceOn(best) {
			best = p
		}
	}
	return best
}

// sinceOn gives a part's share of the rise in K, followed back from where the
// curve begins.
func (h *Heating) sinceOn(p Part) float64 {
	return math.Abs(p.AmplitudeK) * math.Exp(h.FromS/p.TimeConstantS)
}

// slowest gives the longest time constant, s.
func (h *Heating) slowest() float64 { return h.Parts[len(h.Parts)-1].TimeConstantS }

// Within95 gives how far the final rise may be off by the fit of this curve
// alone, ± K with 95 %.
func (h *Heating) Within95() float64 {
	return uncertainty.Budget{h.source()}.Expanded(0.95)
}

func (h *Heating) source() uncertainty.Source {
	return uncertainty.Source{Name: "fit", Value: h.StandardK, Divisor: 1, Freedom: h.Freedom}
}

// one is rise∞ − (rise∞ − rise0)·e^(−t/τ), with the parameters rise∞, rise0, τ
// and the derivatives by them.
func one(t float64, p, slope []float64) float64 {
	if p[2] <= 0 {
		return math.NaN()
	}
	e := math.Exp(-t / p[2])
	span := p[0] - p[1]
	slope[0], slope[1], slope[2] = 1-e, e, -span*e*t/(p[2]*p[2])
	return p[0] - span*e
}

// two is rise∞ − a1·e^(−t/τ1) − a2·e^(−t/τ2), with the parameters rise∞, a1, τ1,
// a2, τ2 and the derivatives by them.
func two(t float64, p, slope []float64) float64 {
	if p[2] <= 0 || p[4] <= 0 {
		return math.NaN()
	}
	fast, slow := math.Exp(-t/p[2]), math.Exp(-t/p[4])
	slope[0] = 1
	slope[1], slope[2] = -fast, -p[1]*fast*t/(p[2]*p[2])
	slope[3], slope[4] = -slow, -p[3]*slow*t/(p[4]*p[4])
	return p[0] - p[1]*fast - p[3]*slow
}

// enoughAICc is how much a better curve must lower Akaike's corrected criterion
// to be kept: beyond 10 there is essentially no support for the other one
// (Burnham and Anderson 2002).
const enoughAICc = 10

// fitHeating fits one time constant, and a second, slower one where that lowers
// Akaike's criterion by more than 10. The refusal is the reason why the data do
// not say where the rise ends; the heating is then nil.
func fitHeating(points []Point, span float64) (*Heating, string) {
	if len(points) < fewestPoints || span < leastLoadS {
		return nil, fmt.Sprintf("the load is on for %s with %d samples: at least %s and %d are needed to fit its heating", seconds(span), len(points), seconds(leastLoadS), fewestPoints)
	}
	from := points[0].TimeS
	d := dataOf(points, from)
	single, err := fit.Best(one, d, startsOfOne(points))
	if err != nil || straight(points)-single.AICc() < enoughAICc {
		return nil, "the warming shows no curvature: it cannot be told where it ends"
	}
	best := heatingOfOne(single, from)
	best.examine(d)
	if double, err := fit.Best(two, d, startsOfTwo(single.Params, points)); err == nil && single.AICc()-double.AICc() > enoughAICc {
		if h := heatingOfTwo(double, from); h.physical() {
			h.examine(d)
			best = h
		}
	}
	best.SlowK = hiddenPart(best, d)
	if slow := best.slowest(); slow > span {
		return nil, fmt.Sprintf("the load is on for %s, less than the time constant of about %s: it cannot be told where the warming ends", seconds(span), seconds(slow))
	}
	return best, ""
}

// The least that a heating is fitted to.
const (
	fewestPoints = 20
	leastLoadS   = 5 * 60.0
)

func dataOf(points []Point, from float64) fit.Data {
	var d fit.Data
	for _, p := range points {
		d.X, d.Y, d.Weights = append(d.X, p.TimeS-from), append(d.Y, p.RiseK), append(d.Weights, p.count)
	}
	scale := float64(len(points)) / sum(d.Weights)
	for i := range d.Weights {
		d.Weights[i] *= scale
	}
	return d
}

func sum(values []float64) float64 { return mean(values) * float64(len(values)) }

// straight gives Akaike's criterion of a straight line.
func straight(points []Point) float64 {
	l := lineThrough(points)
	total := 0.0
	for _, p := range points {
		total += p.count
	}
	r := fit.Result{Params: make([]float64, 2), Points: len(points), SumOfSquares: l.sumOfSquares * float64(len(points)) / total}
	return r.AICc()
}

// startsOfOne guesses the ends from the data and tries time constants over the
// range that a record can show.
func startsOfOne(points []Point) [][]float64 {
	n := len(points)
	tail := max(1, n/10)
	first, last := points[0].RiseK, lineThrough(points[n-tail:]).level
	span := points[n-1].TimeS - points[0].TimeS
	var starts [][]float64
	for _, share := range []float64{0.03, 0.1, 0.3, 1, 3} {
		starts = append(starts, []float64{last, first, share * span})
	}
	return starts
}

// startsOfTwo splits the one time constant that was found.
func startsOfTwo(single []float64, points []Point) [][]float64 {
	whole, tau := single[0]-single[1], single[2]
	var starts [][]float64
	for _, s := range []struct{ share, fast, slow float64 }{{0.5, 0.3, 2}, {0.7, 0.7, 4}, {0.3, 0.1, 1.2}, {0.85, 0.9, 8}} {
		starts = append(starts, []float64{single[0], s.share * whole, s.fast * tau, (1 - s.share) * whole, s.slow * tau})
	}
	return starts
}

func heatingOfOne(r fit.Result, from float64) *Heating {
	return &Heating{
		FinalK: r.Params[0], StandardK: r.StandardError(0), Freedom: float64(r.Freedom()), FromS: from,
		Parts: []Part{{AmplitudeK: r.Params[0] - r.Params[1], TimeConstantS: r.Params[2], TimeConstantStdS: r.StandardError(2)}},
	}
}

func heatingOfTwo(r fit.Result, from float64) *Heating {
	fast := Part{AmplitudeK: r.Params[1], TimeConstantS: r.Params[2], TimeConstantStdS: r.StandardError(2)}
	slow := Part{AmplitudeK: r.Params[3], TimeConstantS: r.Params[4], TimeConstantStdS: r.StandardError(4)}
	if slow.TimeConstantS < fast.TimeConstantS {
		fast, slow = slow, fast
	}
	return &Heating{FinalK: r.Params[0], StandardK: r.StandardError(0), Freedom: float64(r.Freedom()), FromS: from, Parts: []Part{fast, slow}}
}

// physical reports whether both parts warm: two heat capacities in a row do.
func (h *Heating) physical() bool {
	a, b := h.Parts[0].AmplitudeK, h.Parts[1].AmplitudeK
	return a*b > 0
}

// examine works out what the curve leaves. Neighbouring residuals that are alike
// carry less than as many independent ones: with a lag-one correlation ρ, n of
// them count as n·(1−ρ)/(1+ρ).
func (h *Heating) examine(d fit.Data) {
	var squares, neighbours, before float64
	for i, x := range d.X {
		r := d.Y[i] - h.At(x+h.FromS)
		squares += r * r
		if i > 0 {
			neighbours += r * before
		}
		before = r
	}
	h.ResidualK = math.Sqrt(squares / h.Freedom)
	if squares > 0 {
		h.Correlated = min(max(neighbours/squares, 0), 0.99)
	}
	share := (1 - h.Correlated) / (1 + h.Correlated)
	h.StandardK /= math.Sqrt(share)
	h.Freedom = max(1, h.Freedom*share)
	for i := range h.Parts {
		h.Parts[i].TimeConstantStdS /= math.Sqrt(share)
	}
}
