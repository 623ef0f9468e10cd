package advisor_test

import (
	"context"
	"errors"
	"math"
	"slices"
	"testing"

	"hotroom/advisor"
	"hotroom/knowledge"
)

// withRuns is the demo with other runs.
func withRuns(t testing.TB, change func(runs []knowledge.Run) []knowledge.Run) *advisor.Snapshot {
	t.Helper()
	s := demo(t)
	base := *s.Base()
	base.Runs = change(slices.Clone(base.Runs))
	other, err := advisor.NewSnapshot(knowledge.New(base), s.Book(), "test")
	if err != nil {
		t.Fatal(err)
	}
	return other
}

// only keeps some runs.
func only(keep func(*knowledge.Run) bool) func([]knowledge.Run) []knowledge.Run {
	return func(runs []knowledge.Run) []knowledge.Run {
		return slices.DeleteFunc(runs, func(r knowledge.Run) bool { return !keep(&r) })
	}
}

func predictions(t *testing.T, s *advisor.Snapshot) []advisor.Prediction {
	t.Helper()
	all, err := advisor.Backtest(t.Context(), s)
	if err != nil {
		t.Fatal(err)
	}
	return all
}

func predicted(t *testing.T, s *advisor.Snapshot, run, left string) *advisor.Prediction {
	t.Helper()
	all := predictions(t, s)
	for i := range all {
		if all[i].Run.ID == run && all[i].Left == left {
			return &all[i]
		}
	}
	t.Fatalf("%s is not predicted", run)
	return nil
}

// A prediction is what somebody would have been answered who never had the run:
// the same number as an answer from a knowledge without it.
func TestBacktestIsTheAnswerWithoutTheRun(t *testing.T) {
	const id = "2025-02-05-anvil-v10" // at an operating point of the chip's table
	for _, tt := range []struct {
		left string
		keep func(*knowledge.Run) bool
	}{
		{advisor.LeaveRun, func(r *knowledge.Run) bool { return r.ID != id }},
		{advisor.LeaveBoard, func(r *knowledge.Run) bool { return r.Board != "anvil" }},
	} {
		p := predicted(t, demo(t), id, tt.left)
		a, err := advisor.Advise(t.Context(), withRuns(t, only(tt.keep)), advisor.Question{
			Board: "anvil", Chip: "v10", RoomC: number(p.Run.RoomC), Enclosure: "bench", Cooler: "liquid", Setup: advisor.SetupShipped,
		})
		if err != nil || math.Abs(*a.HotSpot.ExpectedC-p.ExpectedC) > 0.01 || a.Evidence != p.Evidence {
			t.Errorf("without the %s: predicted %g °C (%s), answered %g °C (%s), %v", tt.left, p.ExpectedC, p.Evidence, *a.HotSpot.ExpectedC, a.Evidence, err)
		}
		if answered := *a.HotSpot.HighC - *a.HotSpot.LowC; p.HighC-p.LowC <= answered {
			t.Errorf("the interval of the reading, %g K, is not wider than that of the temperature, %g K", p.HighC-p.LowC, answered)
		}
	}
}

// With one run of a board, to leave the run is to leave the board.
func TestBacktestOfSingleRuns(t *testing.T) {
	s := withRuns(t, func(runs []knowledge.Run) []knowledge.Run {
		seen := map[string]bool{}
		return slices.DeleteFunc(runs, func(r knowledge.Run) bool {
			again := seen[r.Board] || !r.Counts()
			seen[r.Board] = seen[r.Board] || r.Counts()
			return again
		})
	})
	for _, r := range s.Base().Runs {
		run, board := predicted(t, s, r.ID, advisor.LeaveRun), predicted(t, s, r.ID, advisor.LeaveBoard)
		if run.ExpectedC != board.ExpectedC || run.HighC != board.HighC || run.Evidence != advisor.Estimated {
			t.Errorf("%s: %g and %g °C, %s", r.ID, run.ExpectedC, board.ExpectedC, run.Evidence)
		}
	}
}

func TestBacktestOfOneBoard(t *testing.T) {
	s := withRuns(t, only(func(r *knowledge.Run) bool { return r.Board == "quarry" }))
	all := predictions(t, s)
	if len(all) != 2*len(s.Base().Runs) {
		t.Fatalf("%d predictions of %d runs", len(all), len(s.Base().Runs))
	}
	for i := range all {
		p := &all[i]
		if p.Left == advisor.LeaveBoard && (p.Evidence != advisor.Estimated || !p.Settles || p.HighC-p.LowC < 10) {
			t.Errorf("%s from nothing but its parts: %+v", p.Run.ID, p)
		}
	}
}

func TestBacktestOfNothing(t *testing.T) {
	for name, keep := range map[string]func(*knowledge.Run) bool{
		"no runs":               func(*knowledge.Run) bool { return false },
		"none with temperature": func(r *knowledge.Run) bool { return r.Outcome == knowledge.Crashed },
	} {
		if all := predictions(t, withRuns(t, only(keep))); len(all) != 0 || len(advisor.Scores(all)) != 0 {
			t.Errorf("%s: %+v", name, all)
		}
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := advisor.Backtest(ctx, demo(t)); !errors.Is(err, context.Canceled) {
		t.Errorf("interrupted: %v", err)
	}
}

// The figures are worked out by hand.
func TestScores(t *testing.T) {
	at := func(word string, measured, expected, low, high float64) advisor.Prediction {
		return advisor.Prediction{Left: advisor.LeaveRun, Evidence: word, Settles: true, MeasuredC: measured, ExpectedC: expected, LowC: low, HighC: high}
	}
	endless := advisor.Prediction{Left: advisor.LeaveBoard, Evidence: advisor.Estimated, MeasuredC: 90, ExpectedC: math.NaN(), LowC: math.NaN(), HighC: math.NaN()}
	got := advisor.Scores([]advisor.Prediction{
		at(advisor.Measured, 80, 82, 77, 87),
		at(advisor.Measured, 80, 70, 65, 75), // above
		at(advisor.Measured, 60, 66, 61, 71), // below, which is outside but not above
		at(advisor.Projected, 50, 50, 50, 50),
		endless,
	})
	want := []advisor.Score{
		{Left: "run", Evidence: "measured", Runs: 3, MeanAbsC: 6, BiasC: -2.0 / 3, CoverPercent: 100.0 / 3, AbovePercent: 100.0 / 3, WidthC: 10},
		{Left: "run", Evidence: "projected", Runs: 1, CoverPercent: 100},
		{Left: "run", Evidence: "all", Runs: 4, MeanAbsC: 4.5, BiasC: -0.5, CoverPercent: 50, AbovePercent: 25, WidthC: 7.5},
		{Left: "board", Evidence: "estimated", Unsettled: 1},
		{Left: "board", Evidence: "all", Unsettled: 1},
	}
	close := func(a, b advisor.Score) bool {
		near := func(x, y float64) bool { return math.Abs(x-y) < 1e-9 }
		return a.Left == b.Left && a.Evidence == b.Evidence && a.Runs == b.Runs && a.Unsettled == b.Unsettled && near(a.MeanAbsC, b.MeanAbsC) &&
			near(a.BiasC, b.BiasC) && near(a.CoverPercent, b.CoverPercent) && near(a.AbovePercent, b.AbovePercent) && near(a.WidthC, b.WidthC)
	}
	if !slices.EqualFunc(got, want, close) {
		t.Errorf("got %+v", got)
	}
}
