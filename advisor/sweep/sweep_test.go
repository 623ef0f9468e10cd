package sweep_test

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor"
	"hotroom/advisor/sweep"
)

func number(v float64) *float64 { return &v }

func demo(t testing.TB) *advisor.Snapshot {
	t.Helper()
	s, problems, err := advisor.Open(advisor.Source{}, "test")
	if s == nil {
		t.Fatal(problems, err)
	}
	return s
}

func over(t *testing.T, q advisor.Question, r sweep.Range) sweep.Sweep {
	t.Helper()
	w, err := sweep.Over(t.Context(), demo(t), q, r)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := json.Marshal(w); err != nil {
		t.Errorf("no JSON of it: %v", err)
	}
	return w
}

func at(w sweep.Sweep) []float64 {
	var list []float64
	for _, r := range w.Rows {
		list = append(list, r.At)
	}
	return list
}

func TestSteps(t *testing.T) {
	q := advisor.Question{Board: "quarry", Chip: "v10"}
	for _, tt := range []struct {
		name        string
		r           sweep.Range
		first, last float64
		steps       int
	}{
		{"rooms", sweep.Range{Over: sweep.OverRoom}, 15, 45, 16},
		{"rooms from", sweep.Range{Over: sweep.OverRoom, From: number(17.5)}, 17.5, 43.5, 14},
		{"rooms to", sweep.Range{Over: sweep.OverRoom, To: number(25)}, 15, 25, 21},
		{"rooms with ends and step", sweep.Range{Over: sweep.OverRoom, From: number(-20), To: number(60), Step: 0.2}, -20, 60, 401},
		{"a step that does not divide", sweep.Range{Over: sweep.OverRoom, From: number(20), To: number(30), Step: 4}, 20, 28, 3},
		{"a step longer than the range", sweep.Range{Over: sweep.OverRoom, From: number(20), To: number(30), Step: 40}, 20, 20, 1},
		{"powers", sweep.Range{Over: sweep.OverPower}, 80, 190, 12},
		{"powers with ends", sweep.Range{Over: sweep.OverPower, From: number(95), To: number(118), Step: 23}, 95, 118, 2},
	} {
		t.Run(tt.name, func(t *testing.T) {
			w := over(t, q, tt.r)
			if got := at(w); got[0] != tt.first || got[len(got)-1] != tt.last || len(got) != tt.steps || !slices.IsSorted(got) {
				t.Errorf("steps %v", got)
			}
		})
	}
}

// Each step is the answer to its own question.
func TestStepsAreAnswers(t *testing.T) {
	s := demo(t)
	q := advisor.Question{Board: "kiln", Chip: "v10", RoomC: number(30)}
	rooms := over(t, q, sweep.Range{Over: sweep.OverRoom, From: number(20), To: number(40), Step: 20})
	q.RoomC = number(40)
	a, err := advisor.Advise(t.Context(), s, q)
	if err != nil || *a.HotSpot.ExpectedC != *rooms.Rows[1].HotSpot.ExpectedC || a.Verdict != rooms.Rows[1].Verdict {
		t.Errorf("%v: %+v", err, rooms.Rows[1])
	}
	powers := over(t, q, sweep.Range{Over: sweep.OverPower, From: number(90), To: number(120), Step: 30})
	q.Setup, q.PowerW = advisor.SetupCustom, number(120)
	a, err = advisor.Advise(t.Context(), s, q)
	if err != nil || *a.HotSpot.ExpectedC != *powers.Rows[1].HotSpot.ExpectedC || a.Clock.SustainedGHz != powers.Rows[1].Clock.SustainedGHz {
		t.Errorf("%v: %+v", err, powers.Rows[1])
	}
}

func TestUsedUp(t *testing.T) {
	q := advisor.Question{Board: "quarry", Chip: "v10"}
	w := over(t, q, sweep.Range{Over: sweep.OverRoom})
	if w.UsedUpAt == nil {
		t.Fatal("not found")
	}
	for _, r := range w.Rows {
		if kept := *r.Margin.KeptC; kept < 0 && r.At < *w.UsedUpAt || kept > 0 && r.At > *w.UsedUpAt {
			t.Errorf("at %g °C %g K are kept, and it is used up at %g °C", r.At, kept, *w.UsedUpAt)
		}
	}
	if cool := over(t, q, sweep.Range{Over: sweep.OverRoom, To: number(30)}); cool.UsedUpAt != nil {
		t.Errorf("used up at %g °C, outside the range", *cool.UsedUpAt)
	}
	q.Board = "gneiss"
	if atLeast := over(t, q, sweep.Range{Over: sweep.OverPower}); atLeast.UsedUpAt != nil {
		t.Errorf("used up at %g W, where the table ends first", *atLeast.UsedUpAt)
	}
}

func TestPoints(t *testing.T) {
	q := advisor.Question{Board: "quarry", Chip: "v10", RoomC: number(22), Enclosure: "bench", Cooler: "liquid", Setup: advisor.SetupShipped}
	alike := func(w sweep.Sweep) []string {
		var list []string
		for _, p := range w.Points {
			if p.Alike {
				list = append(list, p.Run)
			}
		}
		return list
	}
	rooms := over(t, q, sweep.Range{Over: sweep.OverRoom})
	if got := alike(rooms); !slices.Equal(got, []string{"2025-02-04-quarry-v10"}) || len(rooms.Points) != 4 || rooms.Points[0].At != 22.1 {
		t.Errorf("over rooms: %q of %+v", got, rooms.Points)
	}
	if want := "Measured runs of this board with this chip that were made under other conditions, and cannot be held against these steps: 3."; !slices.Contains(rooms.Notes, want) {
		t.Errorf("notes: %q", rooms.Notes)
	}
	powers := over(t, q, sweep.Range{Over: sweep.OverPower})
	if got := alike(powers); !slices.Equal(got, []string{"2025-02-04-quarry-v10", "2025-02-05-quarry-v10"}) || powers.Points[0].At != 188 {
		t.Errorf("over powers, in a room of 22 °C: %q of %+v", got, powers.Points)
	}
	if want := "No current cap is in force here: give one to keep it."; !slices.Contains(powers.Notes, want) {
		t.Errorf("notes: %q", powers.Notes)
	}
	q.Setup, q.CurrentA = advisor.SetupCustom, number(120)
	capped := over(t, q, sweep.Range{Over: sweep.OverPower})
	if last := capped.Rows[len(capped.Rows)-1]; last.Clock.LimitedBy != "current" || slices.Contains(capped.Notes, "No current cap is in force here: give one to keep it.") {
		t.Errorf("a current cap that was given is lost: %+v", last.Clock)
	}
	unmeasured := over(t, advisor.Question{Board: "brook", Chip: "v10"}, sweep.Range{Over: sweep.OverRoom})
	if unmeasured.Points == nil || len(unmeasured.Points) != 0 || len(unmeasured.Notes) != 0 {
		t.Errorf("an unmeasured board: %+v, %q", unmeasured.Points, unmeasured.Notes)
	}
}

func TestRefusals(t *testing.T) {
	s := demo(t)
	q := advisor.Question{Board: "quarry", Chip: "v10"}
	for _, tt := range []struct {
		name string
		r    sweep.Range
		want string
	}{
		{"over nothing", sweep.Range{}, `a sweep over "" is not possible: sweep over room or power`},
		{"over wind", sweep.Range{Over: "wind", From: number(1)}, `a sweep over "wind" is not possible: sweep over room or power`},
		{"falling", sweep.Range{Over: sweep.OverRoom, From: number(40), To: number(20)}, "a sweep from 40 to 20 °C is not possible: let it end above where it begins"},
		{"one place", sweep.Range{Over: sweep.OverRoom, From: number(30), To: number(30), Step: 1}, "a sweep from 30 to 30 °C is not possible: let it end above where it begins"},
		{"from above the usual end", sweep.Range{Over: sweep.OverRoom, From: number(50)}, "a sweep from 50 to 45 °C is not possible: let it end above where it begins"},
		{"no step", sweep.Range{Over: sweep.OverRoom, Step: -1}, "a sweep from 15 to 45 °C is not possible in steps of -1: give a step above 0 and at most 500 steps"},
		{"no number", sweep.Range{Over: sweep.OverRoom, Step: math.NaN()}, "a sweep from 15 to 45 °C is not possible in steps of NaN: give a step above 0 and at most 500 steps"},
		{"too many steps", sweep.Range{Over: sweep.OverRoom, Step: 0.01}, "a sweep from 15 to 45 °C is not possible in steps of 0.01: give a step above 0 and at most 500 steps"},
		{"too hot", sweep.Range{Over: sweep.OverRoom, To: number(80)}, "a room of 80 °C is not possible here: give one from -20 to 60 °C"},
		{"no number at an end", sweep.Range{Over: sweep.OverRoom, To: number(math.NaN())}, "a room of NaN °C is not possible here: give one from -20 to 60 °C"},
		{"no power", sweep.Range{Over: sweep.OverPower, From: number(0)}, "a power cap of 0 W is not possible here: give one above 0 and up to 2000 W"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, err := sweep.Over(t.Context(), s, q, tt.r)
			if refusal, ok := errors.AsType[*advisor.Refusal](err); !ok || refusal.Error() != tt.want || refusal.Kind != advisor.BadValue {
				t.Errorf("got %v, want %s", err, tt.want)
			}
		})
	}
	if _, err := sweep.Over(t.Context(), s, advisor.Question{Board: "marl", Chip: "v10"}, sweep.Range{Over: sweep.OverRoom}); err == nil {
		t.Error("a board of another socket is swept")
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := sweep.Over(ctx, s, q, sweep.Range{Over: sweep.OverRoom}); !errors.Is(err, context.Canceled) {
		t.Errorf("interrupted: %v", err)
	}
}

// The hotter the room, the hotter the board or the slower the chip; and every
// range that is taken has steps within it.
func TestLaws(t *testing.T) {
	s := demo(t)
	rapid.Check(t, func(r *rapid.T) {
		board := rapid.SampledFrom([]string{"flint", "quarry", "kiln", "tongs", "gneiss"}).Draw(r, "board")
		from := rapid.Float64Range(-20, 50).Draw(r, "from")
		to := rapid.Float64Range(-20, 60).Draw(r, "to")
		step := rapid.Float64Range(0, 10).Draw(r, "step")
		w, err := sweep.Over(t.Context(), s, advisor.Question{Board: board, Chip: "v10"}, sweep.Range{Over: sweep.OverRoom, From: &from, To: &to, Step: step})
		if err != nil {
			if to > from && step > (to-from)/400 {
				r.Fatalf("refused: %v", err)
			}
			return
		}
		for i, row := range w.Rows {
			if row.At < from-1e-6 || row.At > to+1e-6 {
				r.Fatalf("step at %g is outside %g to %g", row.At, from, to)
			}
			if i > 0 && (*row.HotSpot.ExpectedC < *w.Rows[i-1].HotSpot.ExpectedC-1e-3 || row.Clock.SustainedGHz > w.Rows[i-1].Clock.SustainedGHz+1e-4) {
				r.Fatalf("%s is better at %g °C than at %g °C", board, row.At, w.Rows[i-1].At)
			}
		}
	})
}
