package advisor

import (
	"math"
	"slices"

	"hotroom/knowledge"
)

// history is what the runs of a board say, whatever is asked about it.
type history struct {
	runs          []*knowledge.Run
	settled       int
	throttled     int
	crashed       int
	unsettled     int
	firmwares     int
	firmwareOther bool
	outliers      []Outlier // among these runs
}

// newHistory looks through the runs of a board, outliers aside.
func newHistory(b *knowledge.Board, runs []*knowledge.Run) history {
	h := history{runs: runs}
	var firmwares []string
	for _, run := range runs {
		h.count(run)
		if run.Firmware != "" && !slices.Contains(firmwares, run.Firmware) {
			firmwares = append(firmwares, run.Firmware)
		}
	}
	h.firmwares = len(firmwares)
	if b.Firmware != "" {
		h.firmwareOther = slices.ContainsFunc(firmwares, func(f string) bool { return f != b.Firmware })
	}
	return h
}

// tell gives every board its history.
func (s *Snapshot) tell() {
	for id, p := range s.boards {
		p.history = newHistory(p.board, s.base.RunsOf(id))
	}
	for _, o := range s.outliers {
		h := &s.boards[o.Run.Board].history
		h.outliers = append(h.outliers, o)
	}
}

// count adds one run.
func (h *history) count(run *knowledge.Run) {
	switch run.Outcome {
	case knowledge.Settled:
		h.settled++
	case knowledge.Throttled:
		h.throttled++
	case knowledge.Crashed:
		h.crashed++
	case knowledge.Unsettled:
		h.unsettled++
	}
}

// record is what the runs of the asked board say to the question.
type record struct {
	*history
	crashedNear    int
	throttledNear  int
	nearest        *knowledge.Run // nearest with a temperature; nil: none
	packageGap     float64        // of the nearest run, percent of the answer's power; NaN: none
	roomGapK       float64        // of the nearest run; NaN: none
	word           string
	removedPercent float64 // of the parts-only uncertainty; NaN when the board cannot settle
}

// closePercent is how near a run's package power must be for the answer to
// count as measured.
const closePercent = 10

// recall looks through the runs of the board that was asked about.
func (a *answer) recall() record {
	r := record{history: &a.parts.history, packageGap: math.NaN(), roomGapK: math.NaN(), removedPercent: math.NaN(), word: Estimated}
	for _, run := range r.runs {
		r.consider(run, a)
	}
	return r
}

// consider holds one run against the question.
func (r *record) consider(run *knowledge.Run, a *answer) {
	if run.Chip == a.chip.ID {
		switch {
		case run.Outcome == knowledge.Throttled && run.RoomC <= a.roomC:
			r.throttledNear++
		case run.Outcome == knowledge.Crashed && (run.PowerLimitW == nil || *run.PowerLimitW <= a.demand.PackageW*(1+closePercent/100.0)):
			r.crashedNear++
		}
	}
	if !run.Counts() {
		return
	}
	r.word = better(r.word, run, a.chip.ID, a.demand.PackageW)
	gap := gapPercent(run, a.demand.PackageW)
	roomGap := math.Abs(run.RoomC - a.roomC)
	if r.nearest == nil || gap < r.packageGap || (gap == r.packageGap && roomGap < r.roomGapK) {
		r.nearest, r.packageGap, r.roomGapK = run, gap, roomGap
	}
}

// better gives the evidence word after one more counted run, for a chip at a
// package power in W.
func better(word string, run *knowledge.Run, chipID string, packageW float64) string {
	if run.Outcome == knowledge.Settled && run.Chip == chipID && gapPercent(run, packageW) <= closePercent {
		return Measured
	}
	if word == Estimated {
		return Projected
	}
	return word
}

// gapPercent gives how far a run's package power is from another in W.
func gapPercent(run *knowledge.Run, packageW float64) float64 {
	return 100 * math.Abs(*run.PackageW/packageW-1)
}
