package advisor

import (
	"math"
	"slices"

	"hotroom/advisor/evidence"
	"hotroom/knowledge"
)

// OutlierBeyond is the standardised leave-one-out residual from which a run is
// called an outlier: beyond it, one run in two thousand by chance.
const OutlierBeyond = 3.5

// Outlier is a run that its board's other runs, and the other boards, do not
// explain. It is named, not dropped.
type Outlier struct {
	Run *knowledge.Run
	// Residual is its measured rise less the predicted one, in standard
	// deviations of their difference.
	Residual float64
}

// Outliers lists the runs whose residual is beyond 3.5, in the order of the
// boards and their runs.
func (s *Snapshot) Outliers() []Outlier { return slices.Clone(s.outliers) }

// doubtful is the residual from which a board's only run is looked at again
// without what it taught about boards in general, which takes longer.
const doubtful = 2.0

// findOutliers holds each counted run of a board against what is believed of
// the board without it.
func (s *Snapshot) findOutliers(board int, runs []*knowledge.Run, observed [][]evidence.Observation) {
	own := observed[board]
	for i, o := range own {
		r := residual(s.general, o, slices.Concat(own[:i], own[i+1:]))
		if len(own) == 1 && math.Abs(r) > doubtful {
			r = residual(evidence.Learned(measured(without(observed, board))), o, nil)
		}
		if math.Abs(r) > OutlierBeyond {
			s.outliers = append(s.outliers, Outlier{Run: runs[i], Residual: r})
		}
	}
}

// residual holds an observation against a board of which the others were
// observed.
func residual(general evidence.Belief, o evidence.Observation, others []evidence.Observation) float64 {
	b := evidence.Posterior(general, others).Bounded()
	return standardised(&b, o)
}

// standardised gives the difference between an observation and its prediction
// in standard deviations: of the coefficients, the discrepancy and the
// measurement together.
func standardised(b *evidence.Belief, o evidence.Observation) float64 {
	spread := b.Variance(o.X) + b.DiscrepancyK*b.DiscrepancyK + o.Noise
	return (o.Y - o.X.Dot(b.Mean)) / math.Sqrt(spread)
}
