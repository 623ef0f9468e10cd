package advisor_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"hotroom/advisor"
	"hotroom/knowledge"
)

func outliers(s *advisor.Snapshot) []string {
	var list []string
	for _, o := range s.Outliers() {
		list = append(list, o.Run.ID)
	}
	return list
}

// hotter changes the temperature of one run.
func hotter(id string, byK float64) func([]knowledge.Run) []knowledge.Run {
	return func(runs []knowledge.Run) []knowledge.Run {
		for i := range runs {
			if runs[i].ID == id {
				runs[i].HotC = number(*runs[i].HotC + byK)
			}
		}
		return runs
	}
}

func TestOutliers(t *testing.T) {
	for _, tt := range []struct {
		name   string
		change func([]knowledge.Run) []knowledge.Run
		named  []string // these at least
	}{
		{"the demo", func(r []knowledge.Run) []knowledge.Run { return r }, nil},
		{"one run 30 °C hotter than its like", hotter("2025-02-05-gneiss-v10", 30), []string{"2025-02-05-gneiss-v10"}},
		{"one run 30 °C cooler", hotter("2025-02-05-quarry-v10", -30), []string{"2025-02-05-quarry-v10"}},
		{"no runs", only(func(*knowledge.Run) bool { return false }), nil},
		{"one run in all", only(func(r *knowledge.Run) bool { return r.ID == "2025-02-05-quarry-v10" }), nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := outliers(withRuns(t, tt.change))
			for _, id := range tt.named {
				if !slices.Contains(got, id) {
					t.Errorf("%s is not named, of %q", id, got)
				}
			}
			if len(tt.named) == 0 && len(got) > 0 {
				t.Errorf("named for nothing: %q", got)
			}
		})
	}
}

// Two runs of one board that contradict each other by 30 °C: nobody can say
// which is wrong, so both are named, both count, and the answer lies between
// them with more doubt than without the contradiction.
func TestContradiction(t *testing.T) {
	two := func(byK float64) func([]knowledge.Run) []knowledge.Run {
		return func(runs []knowledge.Run) []knowledge.Run {
			runs = slices.DeleteFunc(runs, func(r knowledge.Run) bool {
				return r.Board == "gneiss" && r.ID != "2025-02-04-gneiss-v10" && r.ID != "2025-02-05-gneiss-v10"
			})
			return hotter("2025-02-05-gneiss-v10", byK)(runs)
		}
	}
	q := advisor.Question{Board: "gneiss", Chip: "v10", RoomC: number(22), Enclosure: "bench", Cooler: "liquid"}
	agree, err := advisor.Advise(t.Context(), withRuns(t, two(0)), q)
	if err != nil {
		t.Fatal(err)
	}
	s := withRuns(t, two(30))
	fight, err := advisor.Advise(t.Context(), s, q)
	if err != nil {
		t.Fatal(err)
	}
	got := outliers(s)
	if !slices.Contains(got, "2025-02-04-gneiss-v10") || !slices.Contains(got, "2025-02-05-gneiss-v10") {
		t.Errorf("named: %q", got)
	}
	if hot := *fight.HotSpot.ExpectedC; hot < 58.3 || hot > 86.1 {
		t.Errorf("%g °C, which is outside the two readings of 58.3 and 86.1 °C", hot)
	}
	if *fight.HotSpot.UncertaintyC <= *agree.HotSpot.UncertaintyC {
		t.Errorf("as sure with a contradiction (%g K) as without (%g K)", *fight.HotSpot.UncertaintyC, *agree.HotSpot.UncertaintyC)
	}
	if !slices.ContainsFunc(fight.Cautions, func(c string) bool { return strings.Contains(c, "2025-02-05-gneiss-v10") }) {
		t.Errorf("no caution names it: %q", fight.Cautions)
	}
}

// A run that no coefficients explain: barely above its room at full power. It
// is named, and heat still never cools: a hotter room and more power stay
// hotter.
func TestRunThatNothingExplains(t *testing.T) {
	s := withRuns(t, func(runs []knowledge.Run) []knowledge.Run {
		for i := range runs {
			if runs[i].ID == "2025-02-05-anvil-v10" {
				runs[i].HotC = number(runs[i].RoomC + 1)
			}
		}
		return slices.DeleteFunc(runs, func(r knowledge.Run) bool { return r.Board == "anvil" && r.ID != "2025-02-05-anvil-v10" })
	})
	if got := outliers(s); !slices.Equal(got, []string{"2025-02-05-anvil-v10"}) {
		t.Errorf("named: %q", got)
	}
	hot := func(roomC, watts float64) float64 {
		a, err := advisor.Advise(t.Context(), s, advisor.Question{Board: "anvil", Chip: "v10", RoomC: &roomC, PowerW: &watts})
		if err != nil || a.HotSpot.ExpectedC == nil {
			t.Fatalf("%v", err)
		}
		return *a.HotSpot.ExpectedC
	}
	if cool, warm := hot(20, 150), hot(40, 150); warm < cool+19 {
		t.Errorf("a room 20 °C hotter makes it %g °C hotter", warm-cool)
	}
	if low, high := hot(20, 90), hot(20, 180); high <= low {
		t.Errorf("%g °C at 90 W and %g °C at 180 W", low, high)
	}
}

// Runs that fall with power would make the coefficients negative; they are
// held at 0.05 or above, so that more power is never cooler.
func TestNegativeSlopeIsBounded(t *testing.T) {
	s := withRuns(t, func(runs []knowledge.Run) []knowledge.Run {
		var sample knowledge.Run
		for _, r := range runs {
			if r.ID == "2025-02-05-anvil-v10" {
				sample = r
			}
		}
		runs = slices.DeleteFunc(runs, func(r knowledge.Run) bool { return r.Board == "anvil" })
		for i := range 12 {
			low, high := sample, sample
			low.ID, high.ID = "low-"+string(rune('a'+i)), "high-"+string(rune('a'+i))
			low.PackageW, low.Volts, low.HotC = number(90), number(0.93), number(95)
			high.HotC = number(45)
			runs = append(runs, low, high)
		}
		return runs
	})
	last := math.Inf(-1)
	for watts := 80.0; watts <= 180; watts += 20 {
		a, err := advisor.Advise(t.Context(), s, advisor.Question{Board: "anvil", Chip: "v10", RoomC: number(22), Enclosure: "bench", Cooler: "liquid", PowerW: &watts})
		if err != nil {
			t.Fatal(err)
		}
		if *a.HotSpot.ExpectedC <= last {
			t.Errorf("at %g W it is %g °C, and %g °C with 20 W less", watts, *a.HotSpot.ExpectedC, last)
		}
		last = *a.HotSpot.ExpectedC
	}
}
