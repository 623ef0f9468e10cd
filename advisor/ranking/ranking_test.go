package ranking_test

import (
	"context"
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"hotroom/advisor"
	"hotroom/advisor/ranking"
	"hotroom/knowledge"
	"hotroom/rules"
)

func number(v float64) *float64 { return &v }

// demo is the demo's knowledge after a change to its boards.
func demo(t testing.TB, change func(boards []knowledge.Board) []knowledge.Board) *advisor.Snapshot {
	t.Helper()
	base, problems := knowledge.Read(knowledge.Demo())
	book, mistakes := rules.Load(rules.Default())
	if base == nil || book == nil {
		t.Fatal(problems, mistakes)
	}
	if change != nil {
		other := *base
		other.Boards = change(slices.Clone(base.Boards))
		base = knowledge.New(other)
	}
	s, err := advisor.NewSnapshot(base, book, "test")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// edit changes one board.
func edit(id string, change func(*knowledge.Board)) func([]knowledge.Board) []knowledge.Board {
	return func(boards []knowledge.Board) []knowledge.Board {
		for i := range boards {
			if boards[i].ID == id {
				change(&boards[i])
			}
		}
		return boards
	}
}

// twin adds a copy of a board under another id, changed.
func twin(id string, change func(*knowledge.Board)) func([]knowledge.Board) []knowledge.Board {
	return func(boards []knowledge.Board) []knowledge.Board {
		for _, b := range boards {
			if b.ID == id {
				b.ID, b.Name = id+"-twin", b.Name+" twin"
				change(&b)
				return append(boards, b)
			}
		}
		return boards
	}
}

func rank(t testing.TB, s *advisor.Snapshot, q advisor.Question, o ranking.Options) ranking.Ranking {
	t.Helper()
	r, err := ranking.Rank(t.Context(), s, q, o)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := json.Marshal(r); err != nil {
		t.Errorf("no JSON of it: %v", err)
	}
	return r
}

func find(t testing.TB, r ranking.Ranking, board string) *ranking.Row {
	t.Helper()
	for i := range r.Rows {
		if r.Rows[i].Board == board {
			return &r.Rows[i]
		}
	}
	t.Fatalf("%s is not in the ranking", board)
	return nil
}

func boards(r ranking.Ranking, of func(*ranking.Row) bool) string {
	var list []string
	for i := range r.Rows {
		if of(&r.Rows[i]) {
			list = append(list, r.Rows[i].Board)
		}
	}
	return strings.Join(list, " ")
}

func TestRank(t *testing.T) {
	s := demo(t, nil)
	q := advisor.Question{Chip: "v10", RoomC: number(33)}
	r := rank(t, s, q, ranking.Options{})
	if got := boards(r, func(*ranking.Row) bool { return true }); got != "gneiss anvil basalt quarry brook tongs flint kiln slate" {
		t.Errorf("order: %s", got)
	}
	if got := boards(r, func(row *ranking.Row) bool { return row.Cheapest }); got != "brook" {
		t.Errorf("cheapest: %s", got)
	}
	if got := boards(r, func(row *ranking.Row) bool { return row.Unbeaten }); got != "gneiss basalt brook" {
		t.Errorf("unbeaten: %s", got)
	}
	if r.Question.Board != "" || *r.Question.GHz != 4.4 || r.Question.Enclosure != "airy-tower" {
		t.Errorf("question: %+v", r.Question)
	}
	for i := range r.Rows { // each row is the board's own answer
		q.Board = r.Rows[i].Board
		a, err := advisor.Advise(t.Context(), s, q)
		if err != nil || a.Verdict != r.Rows[i].Verdict || *a.Margin.KeptC != *r.Rows[i].Margin.KeptC {
			t.Errorf("%s: the ranking says %s and its own answer %s, %v", q.Board, r.Rows[i].Verdict, a.Verdict, err)
		}
	}
	kiln := find(t, r, "kiln")
	if kiln.BeatenBy == nil || kiln.BeatenBy.Board != "brook" || kiln.BeatenBy.Price != 157 || !strings.HasPrefix(kiln.HeldBack, "Heat costs ") {
		t.Errorf("kiln: %+v, %q", kiln.BeatenBy, kiln.HeldBack)
	}
}

func TestTies(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*knowledge.Board)
		want   string
	}{
		{"built alike", func(*knowledge.Board) {}, "5= 5="},
		{"a heatsink that differs by less than is known", func(b *knowledge.Board) { b.Heatsink.MassG = number(*b.Heatsink.MassG * 1.02) }, "5= 5="},
		{"a heatsink that differs by more", func(b *knowledge.Board) { b.Heatsink.MassG = number(*b.Heatsink.MassG * 4) }, "6 4"},
		{"another clock", func(b *knowledge.Board) { b.Limit.PowerW = number(110) }, "6 5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := demo(t, twin("brook", c.change))
			r := rank(t, s, advisor.Question{Chip: "v10", RoomC: number(33)}, ranking.Options{})
			if got := find(t, r, "brook").Place + " " + find(t, r, "brook-twin").Place; got != c.want {
				t.Errorf("places %q, want %q", got, c.want)
			}
		})
	}
}

func TestNoPrice(t *testing.T) {
	s := demo(t, edit("brook", func(b *knowledge.Board) { b.Price = nil }))
	q := advisor.Question{Chip: "v10", RoomC: number(33)}
	r := rank(t, s, q, ranking.Options{})
	if brook := find(t, r, "brook"); brook.Cheapest || brook.Unbeaten || brook.BeatenBy != nil || brook.Price != nil {
		t.Errorf("a board without a price is weighed on it: %+v", brook)
	}
	if !find(t, r, "basalt").Cheapest {
		t.Error("the cheapest of those with a price is not marked")
	}
	r = rank(t, s, q, ranking.Options{Budget: number(110)})
	want := []string{
		"6 boards are not shown: they cost more than the budget.",
		"1 board is not shown: it has no known price to hold the budget against.",
	}
	if !slices.Equal(r.Notes, want) || len(r.Rows) != 2 {
		t.Errorf("%d rows, notes %q", len(r.Rows), r.Notes)
	}
}

func TestCurrencies(t *testing.T) {
	s := demo(t, edit("gneiss", func(b *knowledge.Board) { b.Price, b.Currency = number(50), "USD" }))
	r := rank(t, s, advisor.Question{Chip: "v10", RoomC: number(33)}, ranking.Options{})
	if got := boards(r, func(row *ranking.Row) bool { return row.Cheapest }); got != "gneiss brook" {
		t.Errorf("cheapest of each currency: %s", got)
	}
	for i := range r.Rows {
		if by := r.Rows[i].BeatenBy; by != nil && by.Board == "gneiss" {
			t.Errorf("%s is beaten by a price in another currency", r.Rows[i].Board)
		}
	}
	want := "Prices are in EUR and USD: only prices in one currency are compared with each other, and a budget is taken as a number in each."
	if !slices.Contains(r.Notes, want) {
		t.Errorf("notes: %q", r.Notes)
	}
}

func TestNothingIsGood(t *testing.T) {
	s := demo(t, func(boards []knowledge.Board) []knowledge.Board {
		for i := range boards {
			boards[i].Limit.HotSpotC = number(75) // every one throttles
		}
		return boards
	})
	r := rank(t, s, advisor.Question{Chip: "v10", RoomC: number(55), Setup: advisor.SetupOpen}, ranking.Options{})
	for i := range r.Rows {
		if row := &r.Rows[i]; row.Verdict != advisor.No || row.Cheapest || row.Unbeaten || row.HeldBack == "" {
			t.Errorf("%s: %+v", row.Board, row)
		}
	}
	if len(r.Rows) != 9 || !slices.IsSortedFunc(r.Rows, func(a, b ranking.Row) int { return int(b.Score - a.Score) }) {
		t.Errorf("%d rows, not by score", len(r.Rows))
	}
}

// A board without an end to its heat is last, and no number stands for it.
func TestCannotSettle(t *testing.T) {
	s := demo(t, edit("slate", func(b *knowledge.Board) { b.Regulator.Phases = 1 }))
	r := rank(t, s, advisor.Question{Chip: "v10", RoomC: number(45), Setup: advisor.SetupOpen}, ranking.Options{})
	last := r.Rows[len(r.Rows)-1]
	if last.Board != "slate" || last.HotSpot.ExpectedC != nil || last.Margin.KeptC != nil || last.Unbeaten || *last.Margin.ExceedProbability != 1 {
		t.Errorf("last: %+v", last)
	}
}

func TestOptions(t *testing.T) {
	s := demo(t, nil)
	q := advisor.Question{Chip: "v10", RoomC: number(33)}
	for _, c := range []struct {
		name  string
		o     ranking.Options
		rows  string
		notes []string
	}{
		{"top", ranking.Options{Top: 2}, "gneiss anvil", []string{"7 boards are not shown: they come after the last one shown."}},
		{"top of fewer", ranking.Options{Top: 20}, "gneiss anvil basalt quarry brook tongs flint kiln slate", []string{}},
		{
			"only no",
			ranking.Options{Only: []string{advisor.No}, Top: 3},
			"tongs flint kiln",
			[]string{"5 boards are not shown: they have another verdict than asked for.", "1 board is not shown: it comes after the last one shown."},
		},
		{"nothing left", ranking.Options{Budget: number(10)}, "", []string{"9 boards are not shown: they cost more than the budget."}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := rank(t, s, q, c.o)
			if got := boards(r, func(*ranking.Row) bool { return true }); got != c.rows || !slices.Equal(r.Notes, c.notes) {
				t.Errorf("rows %q, notes %q", got, r.Notes)
			}
		})
	}
}

func TestRefusals(t *testing.T) {
	s := demo(t, nil)
	for _, c := range []struct {
		name string
		q    advisor.Question
		o    ranking.Options
		want string
	}{
		{"no chip", advisor.Question{}, ranking.Options{}, "the question names no chip: name one"},
		{"unknown chip", advisor.Question{Chip: "v99"}, ranking.Options{}, `the knowledge holds no chip "v99": take one that it holds`},
		{"a room that no board could answer", advisor.Question{Chip: "v10", RoomC: number(400)}, ranking.Options{}, "a room of 400 °C is not possible here: give one from -20 to 60 °C"},
		{"only", advisor.Question{Chip: "v10"}, ranking.Options{Only: []string{"maybe"}}, `there is no verdict "maybe": give one or more of yes, with-care, unknown and no`},
		{"budget", advisor.Question{Chip: "v10"}, ranking.Options{Budget: number(-1)}, "a budget of -1 is not possible: give a price of 0 or more"},
		{"top", advisor.Question{Chip: "v10"}, ranking.Options{Top: -2}, "the best -2 boards cannot be shown: give 1 or more, or 0 for all"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := ranking.Rank(t.Context(), s, c.q, c.o)
			if refusal, ok := errors.AsType[*advisor.Refusal](err); !ok || refusal.Error() != c.want {
				t.Errorf("got %v, want %s", err, c.want)
			}
		})
	}
	lonely := demo(t, func([]knowledge.Board) []knowledge.Board { return nil })
	_, err := ranking.Rank(t.Context(), lonely, advisor.Question{Chip: "v10"}, ranking.Options{})
	if err == nil || err.Error() != `no board of the knowledge takes the chip "v10": add one, or ask about another chip` {
		t.Errorf("no boards: %v", err)
	}
}

// A clock that only tunable boards allow leaves the others out, and says so.
func TestLeftOut(t *testing.T) {
	r := rank(t, demo(t, nil), advisor.Question{Chip: "v10", RoomC: number(20), GHz: number(4.6)}, ranking.Options{})
	if got := boards(r, func(row *ranking.Row) bool {
		return row.Board == "slate" || row.Board == "flint" || row.Board == "brook"
	}); got != "" {
		t.Errorf("not tunable, and ranked: %s", got)
	}
	if len(r.Notes) != 3 || !strings.HasPrefix(r.Notes[2], "Gorsebank Slate is left out: 4.6 GHz is above the stock all-core clock of the Varnholt V10") {
		t.Errorf("notes: %q", r.Notes)
	}
}

func TestInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := ranking.Rank(ctx, demo(t, nil), advisor.Question{Chip: "v10"}, ranking.Options{}); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
}
