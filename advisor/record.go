package advisor

import (
	"math"
	"slices"

	"hotroom/knowledge"
)

// record is what the runs of the asked board say.
type record struct {
	runs           []*knowledge.Run
	settled        int
	throttled      int
	crashed        int
	unsettled      int
	crashedNear    int
	throttledNear  int
	firmwares      int
	firmwareOther  bool
	nearest        *knowledge.Run // nearest with a temperature; nil: none
	packageGap     float64        // of the nearest run, percent of the answer's power; NaN: none
	roomGapK       float64        // of the nearest run; NaN: none
	word           string
	removedPercent float64   // of the parts-only uncertainty; NaN when the board cannot settle
	outliers       []Outlier // among these runs
}

// closePercent is how near a run's package power must be for the answer to
// count as measured.
const closePercent = 10

// record looks through the runs of the board that was asked about.
func (s *Snapshot) record(a *answer) record {
	r := record{runs: s.base.RunsOf(a.parts.board.ID), packageGap: math.NaN(), roomGapK: math.NaN(), removedPercent: math.NaN(), word: Estimated}
	var firmwares []string
	for _, run := range r.runs {
		r.count(run, a)
		if run.Firmware != "" && !slices.Contains(firmwares, run.Firmware) {
			firmwares = append(firmwares, run.Firmware)
		}
	}
	r.firmwares = len(firmwares)
	if own := a.parts.board.Firmware; own != "" {
		r.firmwareOther = slices.ContainsFunc(firmwares, func(f string) bool { return f != own })
	}
	for _, o := range s.outliers {
		if o.Run.Board == a.parts.board.ID {
			r.outliers = append(r.outliers, o)
		}
	}
	if a.settles {
		r.removedPercent = a.removedPercent(&a.parts.belief)
	}
	return r
}

// count adds one run.
func (r *record) count(run *knowledge.Run, a *answer) {
	sameChip := run.Chip == a.chip.ID
	switch run.Outcome {
	case knowledge.Settled:
		r.settled++
	case knowledge.Throttled:
		r.throttled++
		if sameChip && run.RoomC <= a.roomC {
			r.throttledNear++
		}
	case knowledge.Crashed:
		r.crashed++
		if sameChip && (run.PowerLimitW == nil || *run.PowerLimitW <= a.demand.PackageW*(1+closePercent/100.0)) {
			r.crashedNear++
		}
	case knowledge.Unsettled:
		r.unsettled++
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
