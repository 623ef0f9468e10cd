// Package bearing says what a new run does to what is believed of its board:
// the prediction for the run's own conditions without it and with it, and
// whether it disagrees with everything measured so far.
package bearing

import (
	"context"
	"slices"

	"hotroom/advisor"
	"hotroom/knowledge"
)

// Bearing is what one more run changes.
type Bearing struct {
	Question advisor.Question // the run's own conditions, at its own package power
	Before   advisor.Advice
	After    advisor.Advice
	// Residual is the run's measured rise less the predicted one, in standard
	// deviations, where it is beyond what chance explains; nil where it is not.
	Residual *float64
	// Others are other runs of the board that disagree once this one counts,
	// and did not before.
	Others []string
}

// Of works out what a run changes that counts as a value. Program is the
// version that answers name. The error is a *advisor.Refusal where the run's
// conditions cannot be asked about, or the context's error.
func Of(ctx context.Context, s *advisor.Snapshot, run knowledge.Run, program string) (Bearing, error) {
	b := Bearing{Question: Question(&run)}
	with := *s.Base()
	with.Runs = append(slices.Clone(with.Runs), run)
	after, err := advisor.NewSnapshot(knowledge.New(with), s.Book(), program)
	if err != nil {
		return b, err
	}
	if b.Before, err = advisor.AdviseBriefly(ctx, s, b.Question); err != nil {
		return b, err
	}
	if b.After, err = advisor.AdviseBriefly(ctx, after, b.Question); err != nil {
		return b, err
	}
	b.compare(s, after, &run)
	return b, nil
}

// compare finds what has become an outlier.
func (b *Bearing) compare(before, after *advisor.Snapshot, run *knowledge.Run) {
	known := make(map[string]bool)
	for _, o := range before.Outliers() {
		known[o.Run.ID] = true
	}
	newest := &after.Base().Runs[len(after.Base().Runs)-1]
	for _, o := range after.Outliers() {
		switch {
		case o.Run == newest:
			b.Residual = &o.Residual
		case o.Run.Board == run.Board && !known[o.Run.ID]:
			b.Others = append(b.Others, o.Run.ID)
		}
	}
}

// Question asks about a run's own conditions: its package power is the cap, so
// that what is predicted is what was measured.
func Question(run *knowledge.Run) advisor.Question {
	room, graphics, altitude := run.RoomC, run.GraphicsW, run.AltitudeM
	q := advisor.Question{
		Board: run.Board, Chip: run.Chip, RoomC: &room, Enclosure: run.Enclosure, Cooler: run.Cooler, Load: run.Load,
		Setup: run.Setup, GraphicsW: &graphics, AltitudeM: &altitude,
	}
	if run.PackageW != nil {
		q.Setup, q.PowerW = advisor.SetupCustom, run.PackageW
	} else if q.Setup == advisor.SetupCustom {
		q.PowerW, q.CurrentA = run.PowerLimitW, run.CurrentLimitA
	}
	return q
}
