package bearing_test

import (
	"testing"

	"hotroom/advisor"
	"hotroom/advisor/bearing"
	"hotroom/knowledge"
)

func number(v float64) *float64 { return &v }

func open(t *testing.T) *advisor.Snapshot {
	t.Helper()
	s, problems, err := advisor.Open(advisor.Source{}, "test")
	if s == nil {
		t.Fatal(problems, err)
	}
	return s
}

// measured is a run of the demo's Flint; hotC is its hot spot.
func measured(hotC float64) knowledge.Run {
	return knowledge.Run{
		ID: "new", Date: "2025-06-01", Board: "flint", Chip: "v10", Enclosure: "bench", Cooler: "liquid", Thermometer: "k1", Load: "render",
		Setup: "shipped", RoomC: 22, Minutes: number(60), GHz: number(3), Volts: number(0.85), PackageW: number(70), HotC: number(hotC),
		Outcome: knowledge.Settled,
	}
}

// A run near the prediction narrows it and disagrees with nothing; one far off
// moves it and is named.
func TestOf(t *testing.T) {
	s := open(t)
	first, err := bearing.Of(t.Context(), s, measured(90), "test")
	if err != nil {
		t.Fatal(err)
	}
	expected := *first.Before.HotSpot.ExpectedC
	near, err := bearing.Of(t.Context(), s, measured(expected), "test")
	if err != nil {
		t.Fatal(err)
	}
	if *near.After.HotSpot.UncertaintyC >= *near.Before.HotSpot.UncertaintyC || near.Residual != nil || len(near.Others) > 0 {
		t.Errorf("a run as expected: u %g before, %g after, residual %v", *near.Before.HotSpot.UncertaintyC, *near.After.HotSpot.UncertaintyC, near.Residual)
	}
	far, err := bearing.Of(t.Context(), s, measured(expected+60), "test")
	if err != nil {
		t.Fatal(err)
	}
	if far.Residual == nil || *far.Residual < advisor.OutlierBeyond || *far.After.HotSpot.ExpectedC <= expected {
		t.Errorf("a run 60 K above: residual %v, expected %g before, %v after", far.Residual, expected, far.After.HotSpot.ExpectedC)
	}
	if got := len(s.Base().Runs); got != len(open(t).Base().Runs) {
		t.Errorf("the snapshot was changed: %d runs", got)
	}
}
