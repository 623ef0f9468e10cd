package evidence

import (
	"math"

	"hotroom/advisor/uncertainty"
	"hotroom/knowledge"
)

// Observation is what one counted run says: y = b + θ1·x1 + θ2·x2 + noise.
type Observation struct {
	X     Vector  // (1, x1, x2)
	Y     float64 // hot spot over local air, K
	Noise float64 // variance of thermometer, placement and room, K²; the discrepancy is not in it
}

// Spread of what a run's measurement adds, K (standard deviations).
const (
	placementK = 1.0 // probe placement, common practice, no source
	roomK      = 0.5 // room temperature, common practice, no source
	// class2C is the tolerance that is assumed when a run names no
	// thermometer: IEC 60584-1 class 2, K.
	class2C = 2.5
)

// MeasurementNoise gives the variance in K² of a hot spot in °C read by a
// thermometer, nil for none named: its tolerance as a rectangular
// distribution (GUM 4.3.7: tolerance/√3), probe placement and room.
func MeasurementNoise(t *knowledge.Thermometer, hotC float64) float64 {
	tolerance := class2C
	if t != nil {
		tolerance = max(t.ClassC, t.ClassPercent/100*math.Abs(hotC))
	}
	return uncertainty.Budget{
		uncertainty.Within("thermometer", tolerance),
		uncertainty.Deviation("probe placement", placementK),
		uncertainty.Deviation("room temperature", roomK),
	}.Variance()
}

// Posterior gives the belief about a board after its observations.
func Posterior(prior Belief, runs []Observation) Belief {
	b := prior
	for _, o := range runs {
		b.observe(o.X, o.Y, o.Noise+b.DiscrepancyK*b.DiscrepancyK)
	}
	return b
}

// Weights says how much the parts-only belief counts in Population: in boards
// for the mean, in boards for the spread, in runs for the discrepancy.
type Weights struct{ Mean, Spread, Discrepancy float64 }

// usualWeights gives the weights that answers use: the parts-only belief is
// worth one board for the mean, four for the spread and five runs for the
// discrepancy.
func usualWeights() Weights { return Weights{Mean: 1, Spread: 4, Discrepancy: 5} }

// Fewest is the number of measured boards below which nothing is learned about
// boards in general.
const Fewest = 3

// Learned gives the belief about a board of which nothing was measured, given
// the observations of all measured boards, one slice a board: the parts-only
// belief below three boards, otherwise a random-coefficient model.
func Learned(boards [][]Observation) Belief {
	if len(boards) < Fewest {
		return PartsOnly()
	}
	return Population(boards, PartsOnly(), usualWeights())
}

const (
	mostRounds  = 5000
	stillChange = 1e-7 // relative change of a round that counts as none
)

// Population estimates the distribution that boards' coefficients are drawn
// from, a normal with a diagonal spread, and the discrepancy, by EM for the
// random-coefficient model (Laird and Ware 1982; Dempster, Rubin and Tsutakawa
// 1981). The start is also the prior, with the given weights.
func Population(boards [][]Observation, start Belief, w Weights) Belief {
	now := start
	for range mostRounds {
		next := round(boards, now, start, w)
		done := still(now, next)
		now = next
		if done {
			break
		}
	}
	return now
}

// round does one expectation and one maximisation.
func round(boards [][]Observation, now, start Belief, w Weights) Belief {
	var sums totals
	for _, observations := range boards {
		sums.add(Posterior(now, observations), observations)
	}
	n := float64(len(boards))
	next := Belief{}
	for i := range next.Mean {
		mean := (w.Mean*start.Mean[i] + sums.mean[i]) / (w.Mean + n)
		// Σ(m − μ)² + C, from the sums.
		spread := sums.square[i] - 2*mean*sums.mean[i] + n*mean*mean
		next.Mean[i] = mean
		next.Cov[i][i] = (w.Spread*start.Cov[i][i] + spread) / (w.Spread + n)
	}
	squares := w.Discrepancy*start.DiscrepancyK*start.DiscrepancyK + sums.unexplained
	next.DiscrepancyK = math.Sqrt(squares / (w.Discrepancy + sums.runs))
	return next
}

// totals is what a round adds up over the boards.
type totals struct {
	mean, square Vector  // Σm and Σ(m² + C) of the posteriors
	unexplained  float64 // Σ of the runs' expected squares, K²
	runs         float64
}

func (t *totals) add(b Belief, observations []Observation) {
	for i := range b.Mean {
		t.mean[i] += b.Mean[i]
		t.square[i] += b.Mean[i]*b.Mean[i] + b.Cov[i][i]
	}
	for _, o := range observations {
		t.unexplained += unexplained(&b, o)
	}
	t.runs += float64(len(observations))
}

// unexplained gives the expected square in K² of the part of a residual that
// its known noise does not explain: the residual is the sum of two normals, and
// the discrepancy's share of it has mean share·r and variance d²·(1 − share).
func unexplained(b *Belief, o Observation) float64 {
	d2 := b.DiscrepancyK * b.DiscrepancyK
	if d2 == 0 {
		return 0
	}
	share := d2 / (d2 + o.Noise)
	miss := o.Y - o.X.Dot(b.Mean)
	return share*share*(miss*miss+b.Variance(o.X)) + d2*(1-share)
}

// still reports whether a round changed nothing that matters.
func still(a, b Belief) bool {
	for i := range a.Mean {
		if moved(a.Mean[i], b.Mean[i]) || moved(a.Cov[i][i], b.Cov[i][i]) {
			return false
		}
	}
	return !moved(a.DiscrepancyK, b.DiscrepancyK)
}

func moved(a, b float64) bool {
	return math.Abs(a-b) > stillChange*(math.Abs(a)+math.Abs(b))
}
