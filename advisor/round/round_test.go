package round_test

import (
	"encoding/json"
	"errors"
	"slices"
	"strings"
	"testing"

	"hotroom/advisor"
	"hotroom/advisor/round"
	"hotroom/knowledge"
)

func number(v float64) *float64 { return &v }

// bench is three boards at 80, 100 and 150 EUR and one without a price, each
// measured once; change alters the runs.
func bench(change func(runs []knowledge.Run)) *knowledge.Base {
	boards := []knowledge.Board{
		{ID: "a", Name: "Alder", Price: number(80), Currency: "EUR", Limit: knowledge.BoardLimit{HotSpotC: number(105)}},
		{ID: "b", Name: "Birch", Price: number(100), Currency: "EUR"},
		{ID: "c", Name: "Cedar", Price: number(150), Currency: "EUR"},
		{ID: "d", Name: "Damson"},
	}
	var runs []knowledge.Run
	for i, b := range boards {
		runs = append(runs, knowledge.Run{
			ID: "run-" + b.ID, Date: "2026-03-0" + string(rune('1'+i)), Board: b.ID, Chip: "k", Enclosure: "bench", Cooler: "liquid", Load: "render",
			Setup: "shipped", RoomC: 22, GHz: number(4.4), Volts: number(1.1), PackageW: number(180), HotC: number(70 + 5*float64(i)), Outcome: knowledge.Settled,
		})
	}
	if change != nil {
		change(runs)
	}
	return knowledge.New(knowledge.Base{Boards: boards, Runs: runs})
}

func of(t *testing.T, base *knowledge.Base, which round.Which) round.Round {
	t.Helper()
	r, err := round.Of(base, which)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := json.Marshal(r); err != nil {
		t.Errorf("no JSON of it: %v", err)
	}
	return r
}

func order(r round.Round) string {
	var list []string
	for i := range r.Rows {
		list = append(list, r.Rows[i].Board)
	}
	return strings.Join(list, " ")
}

func TestRound(t *testing.T) {
	for _, tt := range []struct {
		name      string
		change    func(runs []knowledge.Run)
		order     string
		reference string
		beaten    string // board>by for each that is beaten
		unlike    int
	}{
		{"all alike, dearer is hotter", nil, "a b c d", "run-a", "b>a c>a", 0},
		{"dearer is cooler", func(r []knowledge.Run) { r[0].HotC, r[2].HotC = number(90), number(60) }, "c b d a", "run-a", "", 0},
		{"the cheaper one is slower", func(r []knowledge.Run) { r[0].GHz = number(4.0) }, "a b c d", "run-b", "c>b", 1},
		{"as hot", func(r []knowledge.Run) { r[1].HotC = number(70) }, "a b c d", "run-a", "c>a", 0},
		{"another room", func(r []knowledge.Run) { r[0].RoomC = 12 }, "a b c d", "run-b", "c>b", 1},
		{"one crashed", func(r []knowledge.Run) {
			r[2].Outcome, r[2].GHz, r[2].HotC, r[2].PackageW, r[2].Volts = knowledge.Crashed, nil, nil, nil, nil
		}, "a b d c", "run-a", "b>a c>a", 1},
		{"one unsettled", func(r []knowledge.Run) { r[0].Outcome = knowledge.Unsettled }, "a b c d", "run-b", "c>b", 1},
		{"all crashed", func(r []knowledge.Run) {
			for i := range r {
				r[i].Outcome, r[i].GHz, r[i].HotC = knowledge.Crashed, nil, nil
			}
		}, "a b c d", "run-a", "", 3},
	} {
		t.Run(tt.name, func(t *testing.T) {
			r := of(t, bench(tt.change), round.Which{Chip: "k"})
			var beaten []string
			unlike := 0
			for i := range r.Rows {
				if by := r.Rows[i].BeatenBy; by != nil {
					beaten = append(beaten, r.Rows[i].Board+">"+by.Board)
				}
				if len(r.Rows[i].Unlike) > 0 {
					unlike++
				}
			}
			slices.Sort(beaten)
			if got := strings.Join(beaten, " "); order(r) != tt.order || r.Reference != tt.reference || got != tt.beaten || unlike != tt.unlike {
				t.Errorf("order %q, reference %s, beaten %q, %d unlike", order(r), r.Reference, got, unlike)
			}
		})
	}
}

func TestRows(t *testing.T) {
	r := of(t, bench(nil), round.Which{Chip: "k"})
	a, c, d := r.Rows[0], r.Rows[2], r.Rows[3]
	if *a.OverRoomC != 48 || *a.LimitC != 105 || c.LimitC != nil || d.Price != nil || d.BeatenBy != nil {
		t.Errorf("rows: %+v", r.Rows)
	}
	if by := c.BeatenBy; by == nil || by.Name != "Alder" || by.Price != 70 || *by.HotC != 10 || *by.GHz != 0 {
		t.Errorf("beaten by %+v", by)
	}
	if len(r.Notes) != 0 {
		t.Errorf("notes: %q", r.Notes)
	}
	r = of(t, bench(func(runs []knowledge.Run) { runs[0].RoomC = 30 }), round.Which{Chip: "k"})
	if want := []string{"rooms of 22.0 and 30.0 °C"}; !slices.Equal(r.Rows[0].Unlike, want) {
		t.Errorf("unlike: %q", r.Rows[0].Unlike)
	}
	if want := []string{"1 of 4 runs is not like for like with run-b; it is marked."}; !slices.Equal(r.Notes, want) {
		t.Errorf("notes: %q", r.Notes)
	}
}

func TestWhich(t *testing.T) {
	base := bench(func(runs []knowledge.Run) { runs[3].Setup = "open" })
	for _, tt := range []struct {
		which round.Which
		want  string
	}{
		{round.Which{Chip: "k", Setup: "shipped"}, "a b c"},
		{round.Which{Chip: "k", Setup: "open"}, "d"},
		{round.Which{Chip: "k", From: "2026-03-02"}, "b c d"},
		{round.Which{Chip: "k", To: "2026-03-02"}, "a b"},
		{round.Which{Chip: "k", From: "2026-03-02", To: "2026-03-02"}, "b"},
	} {
		if got := order(of(t, base, tt.which)); got != tt.want {
			t.Errorf("%+v: %s, want %s", tt.which, got, tt.want)
		}
	}
}

func TestNoRuns(t *testing.T) {
	for _, tt := range []struct {
		which round.Which
		want  string
	}{
		{round.Which{Chip: "z"}, "no run with the chip z is on file: ask for another round, or record the runs first"},
		{round.Which{Chip: "k", Setup: "custom", From: "2026-01-01", To: "2026-01-31"}, "no run with the chip k and the setup custom from 2026-01-01 to 2026-01-31 is on file: ask for another round, or record the runs first"},
	} {
		_, err := round.Of(bench(nil), tt.which)
		if refusal, ok := errors.AsType[*advisor.Refusal](err); !ok || refusal.Error() != tt.want || refusal.Kind != advisor.NotFound {
			t.Errorf("got %v, want %s", err, tt.want)
		}
	}
}
