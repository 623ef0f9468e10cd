package picture_test

import (
	"io"
	"math"
	"strings"
	"testing"

	"hotroom/advisor"
	"hotroom/advisor/round"
	"hotroom/advisor/sweep"
	"hotroom/cmd/internal/picture"
)

func number(v float64) *float64 { return &v }

func demo(t *testing.T) *advisor.Snapshot {
	t.Helper()
	s, problems, err := advisor.Open(advisor.Source{}, "test")
	if s == nil {
		t.Fatal(problems, err)
	}
	return s
}

func TestConditions(t *testing.T) {
	base := demo(t).Base()
	for _, tt := range []struct {
		q    advisor.Question
		want string
	}{
		{advisor.Question{}, ""},
		{advisor.Question{RoomC: number(32.45), Enclosure: "bench", Cooler: "liquid", Load: "render", Setup: "open"}, "room of 32.5 °C, open bench, liquid cooler, radiator as exhaust, all-core render, no power limit"},
		{advisor.Question{GHz: number(4.4), Setup: "custom", PowerW: number(150), CurrentA: number(180)}, "4.40 GHz wanted, capped at 150 W and 180 A"},
		{advisor.Question{Setup: "custom"}, "power limits of the tester's own"},
		{advisor.Question{Setup: "rated", GraphicsW: number(0), AltitudeM: number(900)}, "power limits as the chip's maker rates it, 900 m above the sea"},
		{advisor.Question{Setup: "shipped", GraphicsW: number(60)}, "power limits as shipped, 60 W of graphics"},
	} {
		if got := picture.Conditions(base, tt.q); got != tt.want {
			t.Errorf("got %q, want %q", got, tt.want)
		}
	}
}

func TestSweep(t *testing.T) {
	s := demo(t)
	q := advisor.Question{Board: "quarry", Chip: "v10", Enclosure: "bench", Cooler: "liquid"}
	w, err := sweep.Over(t.Context(), s, q, sweep.Range{Over: sweep.OverRoom})
	if err != nil {
		t.Fatal(err)
	}
	c := picture.Sweep(s.Base(), w)
	if c.Title != "Hot spot of the Dunmarrow Quarry with the Varnholt V10" || strings.Contains(c.Subtitle, "room of") || len(c.Points) != len(w.Rows) || len(c.Runs) != 1 || c.UsedUp != w.UsedUpAt {
		t.Errorf("%s: %s, %d points, runs %+v", c.Title, c.Subtitle, len(c.Points), c.Runs)
	}
	if err := c.PNG(io.Discard); err != nil {
		t.Error(err)
	}
	w.Over, w.Rows[0].HotSpot = sweep.OverPower, advisor.HotSpot{}
	if c := picture.Sweep(s.Base(), w); !math.IsNaN(c.Points[0].Expected) || c.X.Unit != "W" || strings.Contains(c.Subtitle, "shipped") || !strings.Contains(c.Subtitle, "room of 23 °C") {
		t.Errorf("over powers: %s, %+v", c.Subtitle, c.Points[0])
	}
}

func TestRound(t *testing.T) {
	base := demo(t).Base()
	r, err := round.Of(base, round.Which{Chip: "v10", Setup: "shipped"})
	if err != nil {
		t.Fatal(err)
	}
	c := picture.Round(base, r)
	if c.Subtitle != "power limits as shipped" || c.Rows[0].Name != "Gorsebank Gneiss" || c.Rows[1].Name != "Gorsebank Basalt, 2025-02-11" || c.Rows[0].Unlike != "" || c.Rows[1].Unlike == "" {
		t.Errorf("%s, %+v", c.Subtitle, c.Rows[:2])
	}
	if last := c.Rows[len(c.Rows)-1]; last.Outcome != "crashed" || !math.IsNaN(last.HotSpot) || !math.IsNaN(last.Clock) {
		t.Errorf("last: %+v", last)
	}
}

func TestBacktest(t *testing.T) {
	all, err := advisor.Backtest(t.Context(), demo(t))
	if err != nil {
		t.Fatal(err)
	}
	c := picture.Backtest(all)
	if len(c.Points) != len(all)/2 || c.Points[0].Label != all[0].Run.ID || c.Points[0].High != all[0].HighC {
		t.Errorf("%d points of %d predictions, %+v", len(c.Points), len(all), c.Points[0])
	}
}
