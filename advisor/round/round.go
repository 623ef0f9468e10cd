// Package round lays out one round of testing: every board measured with a
// chip and a power setup, beside each other.
package round

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"hotroom/advisor"
	"hotroom/advisor/comparison"
	"hotroom/knowledge"
)

// Which says which runs belong to the round; empty words take every one.
type Which struct {
	Chip  string
	Setup string
	From  string // first date, YYYY-MM-DD
	To    string // last date, YYYY-MM-DD
}

// Row is one run of the round, with the fields of runs.csv that it shows.
type Row struct {
	Run       string   `json:"run"`
	Date      string   `json:"date"`
	Board     string   `json:"board"`
	Name      string   `json:"name"`
	Price     *float64 `json:"price"`
	Currency  string   `json:"currency"`
	HotC      *float64 `json:"hot_c"`
	OverRoomC *float64 `json:"over_room_c"` // hot spot above the room, K
	LimitC    *float64 `json:"limit_c"`     // the board maker's stated hot spot
	GHz       *float64 `json:"ghz"`
	PackageW  *float64 `json:"package_w"`
	RoomC     float64  `json:"room_c"`
	Minutes   *float64 `json:"minutes"`
	Firmware  string   `json:"firmware"`
	Outcome   string   `json:"outcome"`
	Note      string   `json:"note"`
	// Unlike says why the run cannot be compared directly with the round's
	// reference; empty when it can.
	Unlike []string `json:"unlike"`
	// BeatenBy is a cheaper board that was cooler at no lower clock under the
	// same conditions.
	BeatenBy *Beaten `json:"beaten_by"`

	run *knowledge.Run
}

// Beaten says which cheaper board did better, and by how much.
type Beaten struct {
	Board string   `json:"board"`
	Name  string   `json:"name"`
	Price float64  `json:"price"` // lower by this much
	HotC  *float64 `json:"hot_c"` // cooler by this much, K; null: the beaten one has no temperature
	GHz   *float64 `json:"ghz"`   // more by this much; null: the beaten one held none
}

// Round is one round of testing.
type Round struct {
	Chip      string   `json:"chip"`
	Setup     string   `json:"setup"`
	Reference string   `json:"reference"` // id of the run that the others are held against
	Rows      []Row    `json:"rows"`
	Notes     []string `json:"notes"`
}

// Of lays out a round: coolest first, runs without a temperature last. The
// error is a *advisor.Refusal where no run belongs to it.
func Of(base *knowledge.Base, which Which) (Round, error) {
	runs := which.runs(base)
	if len(runs) == 0 {
		return Round{}, &advisor.Refusal{
			Kind: advisor.NotFound, Field: "chip", What: "no run " + which.words() + " is on file",
			Mend: "ask for another round, or record the runs first",
		}
	}
	reference := reference(base, runs)
	r := Round{Chip: which.Chip, Setup: which.Setup, Reference: reference.ID, Rows: []Row{}, Notes: []string{}}
	for _, run := range runs {
		r.Rows = append(r.Rows, row(base, run, reference))
	}
	for i := range r.Rows {
		r.Rows[i].BeatenBy = beatenBy(base, r.Rows, i)
	}
	slices.SortStableFunc(r.Rows, order)
	r.note()
	return r, nil
}

// words says which runs are meant: "with the chip v10 and the setup open".
func (w Which) words() string {
	text := "with the chip " + w.Chip
	if w.Setup != "" {
		text += " and the setup " + w.Setup
	}
	if w.From != "" {
		text += " from " + w.From
	}
	if w.To != "" {
		text += " to " + w.To
	}
	return text
}

func (w Which) runs(base *knowledge.Base) []*knowledge.Run {
	var list []*knowledge.Run
	for i := range base.Runs {
		run := &base.Runs[i]
		if run.Chip == w.Chip && (w.Setup == "" || run.Setup == w.Setup) &&
			(w.From == "" || run.Date >= w.From) && (w.To == "" || run.Date <= w.To) {
			list = append(list, run)
		}
	}
	return list
}

// reference picks the run that the most others are alike to; of equals, the
// first.
func reference(base *knowledge.Base, runs []*knowledge.Run) *knowledge.Run {
	best, most := runs[0], -1
	for _, a := range runs {
		alike := 0
		for _, b := range runs {
			if a != b && len(comparison.Unlike(base, a, b)) == 0 {
				alike++
			}
		}
		if a.Counts() && alike > most {
			best, most = a, alike
		}
	}
	return best
}

func row(base *knowledge.Base, run, reference *knowledge.Run) Row {
	b, _ := base.Board(run.Board)
	r := Row{
		Run: run.ID, Date: run.Date, Board: run.Board, Name: b.Name, Price: b.Price, Currency: b.Currency, HotC: run.HotC,
		LimitC: b.Limit.HotSpotC, GHz: run.GHz, PackageW: run.PackageW, RoomC: run.RoomC, Minutes: run.Minutes, Firmware: run.Firmware,
		Outcome: run.Outcome, Note: run.Note, Unlike: []string{}, run: run,
	}
	if run.HotC != nil {
		over := math.Round((*run.HotC-run.RoomC)*1e4) / 1e4
		r.OverRoomC = &over
	}
	if run != reference {
		r.Unlike = append(r.Unlike, comparison.Unlike(base, reference, run)...)
	}
	return r
}

// order puts the coolest first and runs without a temperature last.
func order(a, b Row) int {
	return cmp.Or(cmp.Compare(heat(&a), heat(&b)), cmp.Compare(a.Name, b.Name), cmp.Compare(a.Run, b.Run))
}

// heat gives the hot spot in °C; +Inf without one.
func heat(r *Row) float64 {
	if r.HotC == nil {
		return math.Inf(1)
	}
	return *r.HotC
}

// beatenBy finds the cheapest cheaper board that was cooler at no lower clock
// under the same conditions.
func beatenBy(base *knowledge.Base, rows []Row, i int) *Beaten {
	a := &rows[i]
	var by *Row
	for j := range rows {
		if b := &rows[j]; beats(base, b, a) && (by == nil || *b.Price < *by.Price) {
			by = b
		}
	}
	if by == nil {
		return nil
	}
	return &Beaten{Board: by.Board, Name: by.Name, Price: *a.Price - *by.Price, HotC: less(a.HotC, by.HotC), GHz: less(by.GHz, a.GHz)}
}

// beats reports whether a run did better than another of a dearer board. A run
// that crashed is beaten by any that gave a temperature.
func beats(base *knowledge.Base, b, a *Row) bool {
	if a.Board == b.Board || a.Price == nil || b.Price == nil || a.Currency != b.Currency || *b.Price >= *a.Price ||
		!b.run.Counts() || len(comparison.OtherConditions(base, a.run, b.run)) > 0 {
		return false
	}
	if a.Outcome == knowledge.Crashed {
		return true
	}
	return a.run.Counts() && *b.HotC < *a.HotC && b.GHz != nil && a.GHz != nil && *b.GHz >= *a.GHz
}

// less gives a difference, nil where one side is missing.
func less(a, b *float64) *float64 {
	if a == nil || b == nil {
		return nil
	}
	d := math.Round((*a-*b)*1e4) / 1e4
	return &d
}

func (r *Round) note() {
	unlike := 0
	for i := range r.Rows {
		if len(r.Rows[i].Unlike) > 0 {
			unlike++
		}
	}
	switch {
	case unlike == 1:
		r.Notes = append(r.Notes, fmt.Sprintf("1 of %d runs is not like for like with %s; it is marked.", len(r.Rows), r.Reference))
	case unlike > 1:
		r.Notes = append(r.Notes, fmt.Sprintf("%d of %d runs are not like for like with %s; they are marked.", unlike, len(r.Rows), r.Reference))
	}
}
