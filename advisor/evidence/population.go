package evidence

import "math"

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

// Population estimates the distribution that boards' coefficients are drawn
// from, a normal with a diagonal spread, and the discrepancy, by EM for the
// random-coefficient model (Laird and Ware 1982; Dempster, Rubin and Tsutakawa
// 1981). The start is also the prior, with the given weights. Rounds of EM take
// ever smaller steps in the same direction, so every two of them are followed by
// a longer one (squared extrapolation: Varadhan and Roland 2008), which EM then
// corrects; where it ends is EM's own fixed point.
func Population(boards [][]Observation, start Belief, w Weights) Belief {
	step := func(p point) point { return pack(round(boards, p.belief(), start, w)) }
	now := pack(start)
	for range mostCycles {
		once := step(now)
		if now.near(once) {
			return once.belief()
		}
		twice := step(once)
		if now = step(extrapolate(now, once, twice)); !now.finite() {
			now = twice
		}
	}
	return now.belief()
}

// mostCycles bounds the search, three rounds each; a usual one takes about ten.
const mostCycles = 1000

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
