package advisor

import (
	"context"
	"math"

	"hotroom/advisor/chip"
	"hotroom/advisor/evidence"
	"hotroom/knowledge"
)

// The two ways to hold runs back.
const (
	LeaveRun   = "run"   // predict a run from all other runs, its board's included
	LeaveBoard = "board" // predict a run from the runs of other boards only
)

// Prediction is one measured run held against what would have been said
// without it.
type Prediction struct {
	Run       *knowledge.Run
	Left      string  // LeaveRun or LeaveBoard
	Evidence  string  // what the prediction rests on: measured, projected or estimated
	Settles   bool    // false: the board was predicted not to settle, and there are no temperatures
	MeasuredC float64 // °C
	ExpectedC float64 // °C
	LowC      float64 // lower end of the 90 % interval of the reading, °C
	HighC     float64 // upper end, °C
}

// ErrorC gives predicted less measured, K.
func (p *Prediction) ErrorC() float64 { return p.ExpectedC - p.MeasuredC }

// Within reports whether the measured temperature lies in the 90 % interval.
func (p *Prediction) Within() bool {
	return p.Settles && p.MeasuredC >= p.LowC && p.MeasuredC <= p.HighC
}

// Above reports whether the measured temperature is above the one-sided 95 %
// bound.
func (p *Prediction) Above() bool { return p.Settles && p.MeasuredC > p.HighC }

// Backtest predicts every counted run from the others, once without the run and
// once without its whole board; boards in their order, runs in theirs. What is
// learned about boards in general is learned anew each time. The interval is
// that of the reading: it holds the thermometer, the placement and the room as
// well. The error is the context's.
func Backtest(ctx context.Context, s *Snapshot) ([]Prediction, error) {
	h := holdout{s: s}
	for i := range s.base.Boards {
		var list []evidence.Observation
		runs := counted(s.base.RunsOf(s.base.Boards[i].ID))
		for _, run := range runs {
			list = append(list, s.observation(run))
		}
		h.runs, h.observed = append(h.runs, runs), append(h.observed, list)
	}
	var all []Prediction
	for board := range h.runs {
		for run := range h.runs[board] {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			all = append(all, h.leaveRun(board, run))
		}
	}
	for board := range h.runs {
		all = append(all, h.leaveBoard(board)...)
	}
	return all, ctx.Err()
}

// holdout is every counted run with its observation, one slice a board.
type holdout struct {
	s        *Snapshot
	runs     [][]*knowledge.Run
	observed [][]evidence.Observation
}

func (h *holdout) leaveRun(board, run int) Prediction {
	kept := without(h.observed[board], run)
	others := append([][]evidence.Observation{}, h.observed...)
	others[board] = kept
	belief := evidence.Posterior(evidence.Learned(measured(others)), kept).Bounded()
	return h.s.predict(h.runs[board][run], belief, LeaveRun, wordWithout(h.runs[board][run], without(h.runs[board], run)))
}

func (h *holdout) leaveBoard(board int) []Prediction {
	if len(h.runs[board]) == 0 {
		return nil
	}
	belief := evidence.Learned(measured(without(h.observed, board))).Bounded()
	list := make([]Prediction, len(h.runs[board]))
	for i, run := range h.runs[board] {
		list[i] = h.s.predict(run, belief, LeaveBoard, Estimated)
	}
	return list
}

// without gives a copy of a list with one element left out.
func without[T any](list []T, i int) []T {
	kept := make([]T, 0, len(list))
	return append(append(kept, list[:i]...), list[i+1:]...)
}

// wordWithout gives the evidence word that an answer to a run's conditions would
// carry, were only the other runs of its board known.
func wordWithout(run *knowledge.Run, others []*knowledge.Run) string {
	word := Estimated
	for _, o := range others {
		word = better(word, o, run.Chip, *run.PackageW)
	}
	return word
}

// predict works out the hot spot of a run's conditions, at its own power.
func (s *Snapshot) predict(run *knowledge.Run, belief evidence.Belief, left, word string) Prediction {
	p := Prediction{Run: run, Left: left, Evidence: word, MeasuredC: *run.HotC, ExpectedC: math.NaN(), LowC: math.NaN(), HighC: math.NaN()}
	parts := *s.boards[run.Board]
	parts.belief = belief
	k, _ := s.base.Chip(run.Chip)
	around := s.around(run)
	c, _ := around.balance(&parts, drawn{
		packageW: *run.PackageW, coreA: chip.CoreCurrent(k.CoreShare, *run.PackageW, *run.Volts), volts: *run.Volts,
	})
	state, ok := c.Solve()
	if !ok {
		return p
	}
	meter, _ := s.base.Thermometer(run.Thermometer)
	u := math.Hypot(belief.Uncertainty(row(state), state.LoopGain), math.Sqrt(evidence.MeasurementNoise(meter, *run.HotC)))
	p.Settles, p.ExpectedC = true, state.HotC
	p.LowC, p.HighC = state.HotC-oneSided95*u, state.HotC+oneSided95*u
	return p
}
