package comparison_test

import (
	"context"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"

	"hotroom/advisor"
	"hotroom/advisor/comparison"
	"hotroom/knowledge"
	"hotroom/rules"
)

func number(v float64) *float64 { return &v }

// demo is the demo's knowledge after a change.
func demo(t testing.TB, change func(*knowledge.Base)) *advisor.Snapshot {
	t.Helper()
	base, problems := knowledge.Read(knowledge.Demo())
	book, mistakes := rules.Load(rules.Default())
	if base == nil || book == nil {
		t.Fatal(problems, mistakes)
	}
	if change != nil {
		other := *base
		other.Boards, other.Runs = slices.Clone(base.Boards), slices.Clone(base.Runs)
		change(&other)
		base = knowledge.New(other)
	}
	s, err := advisor.NewSnapshot(base, book, "test")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func compare(t *testing.T, s *advisor.Snapshot, q advisor.Question, boards ...string) comparison.Comparison {
	t.Helper()
	c, err := comparison.Compare(t.Context(), s, q, boards)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := json.Marshal(c); err != nil {
		t.Errorf("no JSON of it: %v", err)
	}
	return c
}

func TestLikeForLike(t *testing.T) {
	c := compare(t, demo(t, nil), advisor.Question{Chip: "v10", RoomC: number(32)}, "basalt", "gneiss")
	p := c.Pairs[0]
	if !p.LikeForLike || p.RunA != "2025-02-04-basalt-v10" || p.RunB != "2025-02-04-gneiss-v10" || *p.MeasuredDeltaC != -29 || len(p.Unlike) != 0 {
		t.Errorf("pair: %+v", p)
	}
	if got := *c.Rows[1].Advice.HotSpot.ExpectedC - *c.Rows[0].Advice.HotSpot.ExpectedC; math.Abs(got-*p.DeltaC) > 1e-3 || *p.CoolerProbability > 0.001 {
		t.Errorf("difference %g, %+v", got, p)
	}
	if b := c.Rows[1].Build; b.Phases != 12 || b.DevicesPerPhase != 1 || *b.HeatsinkAreaCM2 != 1100 || *b.LimitPowerW != 205 {
		t.Errorf("build: %+v", b)
	}
	if c.Question.Board != "" || len(c.Rows) != 2 || len(c.Exchanges) != 1 {
		t.Errorf("%+v", c.Question)
	}
}

func TestNotLikeForLike(t *testing.T) {
	q := advisor.Question{Chip: "v10", RoomC: number(32)}
	for _, tt := range []struct {
		name   string
		change func(*knowledge.Base)
		a, b   string
		want   []string
	}{
		{"only one of the two was measured", nil, "gneiss", "brook", []string{"no two runs with the chip v10"}},
		{"nothing was measured", func(b *knowledge.Base) { b.Runs = nil }, "gneiss", "anvil", []string{"no two runs with the chip v10"}},
		{"crashed", nil, "slate", "gneiss", []string{"the run 2025-02-08-slate-v10 crashed"}},
		{
			"all runs in another room", func(b *knowledge.Base) {
				for i := range b.Runs {
					if b.Runs[i].Board == "gneiss" {
						b.Runs[i].RoomC = 28
					}
				}
			}, "gneiss", "quarry", []string{"rooms of 28.0 and 22.1 °C"},
		},
	} {
		t.Run(tt.name, func(t *testing.T) {
			p := compare(t, demo(t, tt.change), q, tt.a, tt.b).Pairs[0]
			if p.LikeForLike || p.MeasuredDeltaC != nil || !slices.Equal(p.Unlike, tt.want) {
				t.Errorf("%+v", p)
			}
			if p.CoolerProbability == nil || !(*p.CoolerProbability >= 0 && *p.CoolerProbability <= 1) {
				t.Errorf("probability: %v", p.CoolerProbability)
			}
		})
	}
}

func TestFirmware(t *testing.T) {
	s := demo(t, func(b *knowledge.Base) {
		for i := range b.Boards {
			switch b.Boards[i].ID {
			case "basalt":
				b.Boards[i].Firmware = "3.00"
			case "gneiss":
				b.Boards[i].Firmware = ""
			}
		}
	})
	want := []string{
		"the run 2025-02-04-basalt-v10 had firmware 2.04; the board's record has 3.00",
		"the run 2025-02-04-gneiss-v10 had firmware 2.11; the board's record names none",
	}
	if p := compare(t, s, advisor.Question{Chip: "v10"}, "basalt", "gneiss").Pairs[0]; !slices.Equal(p.Firmware, want) {
		t.Errorf("%q", p.Firmware)
	}
}

func TestCannotSettle(t *testing.T) {
	s := demo(t, func(b *knowledge.Base) {
		for i := range b.Boards {
			if b.Boards[i].ID == "slate" {
				b.Boards[i].Regulator.Phases = 1
			}
		}
	})
	c := compare(t, s, advisor.Question{Chip: "v10", RoomC: number(45), Setup: advisor.SetupOpen}, "slate", "gneiss")
	if p := c.Pairs[0]; p.DeltaC != nil || p.CoolerProbability != nil {
		t.Errorf("a difference to nothing: %+v", p)
	}
	if x := c.Exchanges[0]; x.TotalC != nil || len(x.Parts) == 0 {
		t.Errorf("%+v", x)
	}
}

// The parts and what stands beside them add up to the whole difference.
func TestExchangesAddUp(t *testing.T) {
	c := compare(t, demo(t, nil), advisor.Question{Chip: "v10", RoomC: number(25)}, "basalt", "gneiss", "anvil", "quarry")
	for _, x := range c.Exchanges {
		alone := 0.0
		for _, p := range x.Parts {
			alone += *p.DeltaC
		}
		if math.Abs(alone+*x.TogetherC-*x.PartsC) > 1e-3 || math.Abs(*x.PartsC+*x.LearnedC-*x.TotalC) > 1e-3 {
			t.Errorf("%s to %s: %g alone, %+v", x.From, x.To, alone, x)
		}
	}
}

func TestBuiltAlike(t *testing.T) {
	s := demo(t, func(b *knowledge.Base) {
		twin := b.Boards[3]
		twin.ID = "twin"
		b.Boards = append(b.Boards, twin)
	})
	x := compare(t, s, advisor.Question{Chip: "v10"}, "gneiss", "twin").Exchanges[0]
	if len(x.Parts) != 0 || *x.PartsC != 0 || *x.TogetherC != 0 || math.Abs(*x.LearnedC-*x.TotalC) > 1e-9 {
		t.Errorf("%+v", x)
	}
}

func TestRefusals(t *testing.T) {
	s := demo(t, nil)
	for _, tt := range []struct {
		boards []string
		want   string
	}{
		{nil, "0 boards cannot be set side by side: name 2 to 6 boards"},
		{[]string{"slate"}, "one board alone cannot be compared: name 2 to 6 boards"},
		{strings.Fields("slate flint basalt gneiss quarry kiln anvil"), "7 boards cannot be set side by side: name 2 to 6 boards"},
		{[]string{"slate", "flint", "slate"}, `the board "slate" is named twice: name each board once`},
		{[]string{"slate", "nettle"}, `the knowledge holds no board "nettle": take one that it holds`},
		{[]string{"slate", "marl"}, "the Varnholt V10 does not fit the Gorsebank Marl: the chip needs socket VH3 and the board has TS5: choose a board with socket VH3 or a chip for TS5"},
	} {
		_, err := comparison.Compare(t.Context(), s, advisor.Question{Chip: "v10"}, tt.boards)
		if refusal, ok := errors.AsType[*advisor.Refusal](err); !ok || refusal.Error() != tt.want {
			t.Errorf("%v: got %v, want %s", tt.boards, err, tt.want)
		}
	}
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := comparison.Compare(ctx, s, advisor.Question{Chip: "v10"}, []string{"slate", "flint"}); !errors.Is(err, context.Canceled) {
		t.Errorf("interrupted: %v", err)
	}
}
