// Package ranking answers one question for every board that takes the chip and
// puts the boards in order.
package ranking

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"hotroom/advisor"
)

// Options narrow a ranking; the zero value shows every board.
type Options struct {
	Budget *float64 // highest price shown, in the boards' currency
	Top    int      // most rows shown; 0: all
	Only   []string // verdicts shown; empty: all
}

// check refuses what could never narrow a ranking.
func (o Options) check() error {
	verdicts := []string{advisor.Yes, advisor.WithCare, advisor.Unknown, advisor.No}
	for _, v := range o.Only {
		if !slices.Contains(verdicts, v) {
			return &advisor.Refusal{
				Kind: advisor.BadValue, Field: "only", What: fmt.Sprintf("there is no verdict %q", v),
				Mend: "give one or more of yes, with-care, unknown and no", Candidates: verdicts,
			}
		}
	}
	if o.Budget != nil && !(*o.Budget >= 0 && !math.IsInf(*o.Budget, 1)) {
		return &advisor.Refusal{Kind: advisor.BadValue, Field: "budget", What: fmt.Sprintf("a budget of %g is not possible", *o.Budget), Mend: "give a price of 0 or more"}
	}
	if o.Top < 0 {
		return &advisor.Refusal{Kind: advisor.BadValue, Field: "top", What: fmt.Sprintf("the best %d boards cannot be shown", o.Top), Mend: "give 1 or more, or 0 for all"}
	}
	return nil
}

// Row is one board with what the buyer weighs.
type Row struct {
	Place    string          `json:"place"` // "1", or "2=" where it is shared
	Board    string          `json:"board"`
	Name     string          `json:"name"`
	Price    *float64        `json:"price"`
	Currency string          `json:"currency"`
	Verdict  string          `json:"verdict"`
	Score    float64         `json:"score"`
	Evidence string          `json:"evidence"`
	HotSpot  advisor.HotSpot `json:"hot_spot"`
	Limit    advisor.Limit   `json:"limit"`
	Margin   advisor.Margin  `json:"margin"`
	Clock    advisor.Clock   `json:"clock"`
	// HeldBack is the heaviest finding against the board; empty when none is.
	HeldBack string `json:"held_back"`
	// Cheapest marks the cheapest board whose verdict is yes, in its currency.
	Cheapest bool `json:"cheapest_adequate"`
	// Unbeaten marks a board that no other beats on both price and kept margin.
	Unbeaten bool `json:"unbeaten"`
	// BeatenBy is a cheaper board that is at least as good in every respect
	// and better in one.
	BeatenBy *Beaten `json:"beaten_by"`
}

// Beaten says which cheaper board beats another, and by how much.
type Beaten struct {
	Board        string   `json:"board"`
	Name         string   `json:"name"`
	Price        float64  `json:"price"`         // lower by this much
	MarginKeptC  *float64 `json:"margin_kept_c"` // K more kept; null: the beaten board cannot settle
	SustainedGHz float64  `json:"sustained_ghz"` // GHz more held
	Score        float64  `json:"score"`         // points more
}

// Ranking is the boards in order, best first.
type Ranking struct {
	Question advisor.Question `json:"question"` // board empty, defaults filled in
	Rows     []Row            `json:"rows"`
	Notes    []string         `json:"notes"`
}

// Rank answers a question for every board with the chip's socket; the question
// names no board. The error is a *advisor.Refusal where the question cannot be
// answered for any board, or the context's error.
func Rank(ctx context.Context, s *advisor.Snapshot, q advisor.Question, o Options) (Ranking, error) {
	if err := o.check(); err != nil {
		return Ranking{}, err
	}
	boards, err := candidates(s, q)
	if err != nil {
		return Ranking{}, err
	}
	answers, err := askAll(ctx, s, q, boards)
	if err != nil {
		return Ranking{}, err
	}
	r := Ranking{Question: q, Rows: make([]Row, 0, len(boards)), Notes: []string{}}
	for i, a := range answers {
		if a.err != nil {
			r.Notes = append(r.Notes, fmt.Sprintf("%s is left out: %v.", boards[i].Name, a.err))
			continue
		}
		r.Question = a.question
		r.Question.Board = ""
		r.Rows = append(r.Rows, a.row)
	}
	if len(r.Rows) == 0 {
		return Ranking{}, answers[0].err
	}
	r.Rows = ordered(r.Rows)
	r.mark()
	r.narrow(o)
	return r, nil
}

// answer is one board's row and the question as it was answered, or why there
// is none.
type answer struct {
	row      Row
	question advisor.Question
	err      error
}

// askAll answers the question for every board, on every processor. Only the
// context's error ends it.
func askAll(ctx context.Context, s *advisor.Snapshot, q advisor.Question, boards []board) ([]answer, error) {
	answers := make([]answer, len(boards))
	var next atomic.Int64
	var workers sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), len(boards)) {
		workers.Go(func() {
			for {
				i := int(next.Add(1)) - 1
				if i >= len(boards) || ctx.Err() != nil {
					return
				}
				one := q
				one.Board = boards[i].ID
				advice, err := advisor.Weigh(ctx, s, one)
				answers[i] = answer{row(&boards[i], &advice), advice.Question, err}
			}
		})
	}
	workers.Wait()
	return answers, ctx.Err()
}

// board is what a ranking needs to know of a board besides its answer.
type board struct {
	ID, Name, Currency string
	Price              *float64
}

// candidates lists the boards that take the chip, in the order of their ids.
func candidates(s *advisor.Snapshot, q advisor.Question) ([]board, error) {
	if q.Chip == "" {
		return nil, advisor.NoChip(s.Base())
	}
	chip, ok := s.Base().Chip(q.Chip)
	var list []board
	for i := range s.Base().Boards {
		b := &s.Base().Boards[i]
		if !ok || b.Socket == chip.Socket {
			list = append(list, board{ID: b.ID, Name: b.Name, Currency: b.Currency, Price: b.Price})
		}
	}
	slices.SortFunc(list, func(a, b board) int { return cmp.Compare(a.ID, b.ID) })
	if len(list) == 0 {
		return nil, &advisor.Refusal{
			Kind: advisor.Unfit, Field: "chip", What: fmt.Sprintf("no board of the knowledge takes the chip %q", q.Chip), Mend: "add one, or ask about another chip",
		}
	}
	return list, nil
}

func row(b *board, a *advisor.Advice) Row {
	return Row{
		Board: b.ID, Name: b.Name, Price: b.Price, Currency: b.Currency,
		Verdict: a.Verdict, Score: a.Score, Evidence: a.Evidence, HotSpot: a.HotSpot, Limit: a.Limit, Margin: a.Margin, Clock: a.Clock,
		HeldBack: heldBack(a.Findings),
	}
}

// heldBack gives the text of the heaviest finding against a board: a veto, else
// the concern that takes the most points.
func heldBack(findings []advisor.Finding) string {
	heaviest := advisor.Finding{}
	for _, f := range findings {
		if f.Kind == "veto" {
			return f.Text
		}
		if f.Points < heaviest.Points {
			heaviest = f
		}
	}
	return heaviest.Text
}

// standing orders verdicts, the best first.
func standing(verdict string) int {
	return slices.Index([]string{advisor.Yes, advisor.WithCare, advisor.Unknown, advisor.No}, verdict)
}

// order puts the better board first: by verdict, then score, then kept margin,
// then price, then held clock, then id. Of one verdict a board that cannot settle is last,
// whatever rules found to say for it.
func order(a, b *Row) int {
	return cmp.Or(
		cmp.Compare(standing(a.Verdict), standing(b.Verdict)),
		cmp.Compare(endless(a), endless(b)),
		cmp.Compare(b.Score, a.Score),
		cmp.Compare(kept(b), kept(a)),
		cmp.Compare(price(a), price(b)),
		cmp.Compare(b.Clock.SustainedGHz, a.Clock.SustainedGHz),
		cmp.Compare(a.Board, b.Board),
	)
}

// ordered gives the rows in order. Rows are large, so only their places are
// sorted, and each row moves once.
func ordered(rows []Row) []Row {
	places := make([]*Row, len(rows))
	for i := range rows {
		places[i] = &rows[i]
	}
	slices.SortFunc(places, order)
	sorted := make([]Row, len(rows))
	for i, row := range places {
		sorted[i] = *row
	}
	return sorted
}

// endless gives 1 for a board that cannot settle, 0 for others.
func endless(r *Row) int {
	if r.HotSpot.ExpectedC == nil {
		return 1
	}
	return 0
}

// kept gives the kept margin in K; -Inf when the board cannot settle.
func kept(r *Row) float64 {
	if r.Margin.KeptC == nil {
		return math.Inf(-1)
	}
	return *r.Margin.KeptC
}

// price gives the price; +Inf when none is known.
func price(r *Row) float64 {
	if r.Price == nil {
		return math.Inf(1)
	}
	return *r.Price
}
