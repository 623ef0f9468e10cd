package rules

import (
	"math"
	"testing"

	"hotroom/rules/facts"

	"pgregory.net/rapid"
)

// Nothing speaks against a calm board.
func TestCalmIsCalm(t *testing.T) {
	j := defaultBook(t).Judge(facts.Calm())
	for _, f := range j.Fired {
		if f.Kind != Merit {
			t.Errorf("%s fires: %s", f.Rule, f.Text)
		}
	}
	want := "Yes: the Calm Board holds the Calm Chip at 4.50 GHz in a room of 21 °C, with 36.0 °C to spare."
	if j.Verdict != Yes || j.Say != want || j.Unjudged != nil || j.Faults != nil {
		t.Errorf("got %+v", j)
	}
}

func TestDefaultRulesAreDocumented(t *testing.T) {
	all := defaultBook(t).Rules()
	if len(all) < 28 {
		t.Errorf("only %d rules", len(all))
	}
	for _, r := range all {
		if r.Source == "" {
			t.Errorf("%s has no source", r.Name)
		}
	}
}

// Every rule shows both sides by example, and its text is short.
func TestDefaultExamples(t *testing.T) {
	b := defaultBook(t)
	file, src := Default()
	l := records(t, file, src)
	for i, r := range b.Rules() {
		x := l[i].Example
		if x == nil || !given(x.Fires) || !given(x.Silent) {
			t.Errorf("%s shows no example of both", r.Name)
			continue
		}
		f := exampleFacts(t, x.Fires)
		for _, fired := range b.Judge(f).Fired {
			if n := len([]rune(fired.Text)); fired.Rule == r.Name && n > 125 {
				t.Errorf("%s says %d characters: %s", r.Name, n, fired.Text)
			}
		}
	}
}

func TestDefaultVerdicts(t *testing.T) {
	unknown := math.NaN()
	tests := []struct {
		name   string
		change func(*facts.Facts)
		id     string
		say    string
	}{
		{"cannot settle", func(f *facts.Facts) {
			f.HotSpot = facts.HotSpot{ExpectedC: unknown, LowC: unknown, HighC: unknown, UncertaintyC: unknown, UnthrottledC: unknown, OverLocalC: unknown, LoopGain: unknown}
			f.Margin = facts.Margin{ExpectedC: unknown, KeptC: unknown, ExceedProbability: 1}
		}, No, "No: the Calm Board finds no steady temperature with the Calm Chip in a room of 21 °C."},
		{
			"first point", func(f *facts.Facts) { f.HotSpot.FirstPoint, f.Clock.SustainedGHz = true, 3 }, No,
			"No: the Calm Board would have to run the Calm Chip below 3.00 GHz, the lowest clock known for it.",
		},
		{
			"maker's ceiling", func(f *facts.Facts) { f.Board.ChipPowerW = 65 }, No,
			"No: the maker of the Calm Board allows chips up to 65 W, and the Calm Chip is rated at 125 W.",
		},
		{
			"past the limit", func(f *facts.Facts) { f.Margin.ExpectedC, f.Margin.KeptC = -4, -9 }, No,
			"No: the Calm Board with the Calm Chip is expected 4.0 °C past its limit of 105 °C in a room of 21 °C.",
		},
		{"throttled", func(f *facts.Facts) {
			f.Margin.ExpectedC, f.Margin.KeptC, f.Margin.ExceedProbability = -1e-7, -4, 0.5
			f.Clock.LimitedBy, f.Clock.LossPercent, f.Clock.SustainedGHz = "temperature", 3, 4.37
		}, WithCare, "With care: the Calm Board lowers the Calm Chip to 4.37 GHz for heat in a room of 21 °C."},
		{
			"throttled with a margin", func(f *facts.Facts) { f.Clock.LimitedBy = "temperature" }, WithCare,
			"With care: the Calm Board lowers the Calm Chip to 4.50 GHz for heat in a room of 21 °C.",
		},
		{"capped", func(f *facts.Facts) {
			f.Clock.LimitedBy, f.Clock.CapLossPercent, f.Clock.SustainedGHz = "power", 8, 4.14
		}, Yes, "Yes, at 4.14 GHz: the power cap holds the Calm Chip below 4.50 GHz on the Calm Board; in a room of 21 °C 36.0 °C are to spare."},
		{
			"margin not sure", func(f *facts.Facts) { f.Margin.ExpectedC, f.Margin.KeptC = 6, 1 }, WithCare,
			"With care: the Calm Board should hold the Calm Chip at 4.50 GHz in a room of 21 °C, but its margin is not sure.",
		},
		{
			"crashed", func(f *facts.Facts) { f.Evidence.Crashed, f.Evidence.CrashedNear = 2, 2 }, WithCare,
			"With care: the Calm Board keeps the Calm Chip cool enough at 4.50 GHz in a room of 21 °C, but mind the findings.",
		},
		{
			"unknown margin", func(f *facts.Facts) { f.Margin.ExpectedC, f.Margin.KeptC = unknown, unknown }, Unknown,
			"Unknown: too little is known to say whether the Calm Board holds the Calm Chip in a room of 21 °C.",
		},
	}
	for _, test := range tests {
		f := facts.Calm()
		test.change(&f)
		if j := defaultBook(t).Judge(f); j.Verdict != test.id || j.Say != test.say || len(j.Faults) > 0 {
			t.Errorf("%s: got %s, %q, score %v, faults %v", test.name, j.Verdict, j.Say, j.Score, j.Faults)
		}
	}
}

// worse are the figures that move one way when conditions get worse, with the
// way they move. Whatever else the catalogue reads may move either way and
// carries no points.
var worse = map[string]float64{
	"margin.kept_c": -1, "margin.expected_c": -1, "hot_spot.expected_c": 1, "ceiling.package_spare_w": -1,
	"power.package_w": 1, "power.core_a": 1, "board.phase_a": 1, "power.loss_per_phase_w": 1, "power.loss_per_100cm2_w": 1,
	"clock.cap_loss_percent": 1, "air.case_rise_c": 1, "capacitor.life_years": -1, "evidence.crashed_near": 1, "evidence.throttled_near": 1,
	"asked.altitude_m": 1, "asked.room_c": 1, "clock.loss_percent": 1,
}

// Taking any of these figures further the wrong way never gains a point nor a
// better verdict.
func TestDefaultIsMonotone(t *testing.T) {
	b := defaultBook(t)
	byName := map[string]facts.Fact{}
	var names []string
	for _, f := range facts.List() {
		byName[f.Name] = f
		if worse[f.Name] != 0 {
			names = append(names, f.Name)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		f := facts.Calm()
		f.Clock.LimitedBy = rapid.SampledFrom([]string{"chip", "power", "current", "temperature"}).Draw(t, "bound")
		f.Evidence.Crashed = 3
		for _, name := range names {
			byName[name].Set(&f, rapid.Float64Range(-5, 60).Draw(t, name))
		}
		f.Evidence.CrashedNear = math.Trunc(max(f.Evidence.CrashedNear, 0) / 20)
		before := b.Judge(f)
		moved := byName[rapid.SampledFrom(names).Draw(t, "moved")]
		step := rapid.Float64Range(0, 60).Draw(t, "step")
		moved.Set(&f, moved.Number(&f)+worse[moved.Name]*step)
		after := b.Judge(f)
		if after.Score > before.Score || rank(after.Verdict) > rank(before.Verdict) {
			t.Errorf("%s by %v: score %v to %v, %s to %s", moved.Name, step, before.Score, after.Score, before.Verdict, after.Verdict)
		}
	})
}

// Taking the heatsink away never gains a point, however small it was.
func TestNoHeatsinkIsNoBetter(t *testing.T) {
	b := defaultBook(t)
	rapid.Check(t, func(t *rapid.T) {
		f := facts.Calm()
		f.Power.LossDensity = rapid.Float64Range(0, 200).Draw(t, "density")
		before := b.Judge(f).Score
		f.Board.HeatsinkShape, f.Power.LossDensity = "none", math.NaN()
		if after := b.Judge(f).Score; after > before {
			t.Errorf("score %v to %v", before, after)
		}
	})
}

// Points depend on nothing but the figures that move one way, on what is
// fixed by board, chip and evidence, and on what the asker sets.
func TestPointsReadOnlyMonotoneFacts(t *testing.T) {
	fixed := map[string]bool{
		"hot_spot.settles": true, "hot_spot.first_point": true, "margin.exceed_probability": true, "clock.limited_by": true, "asked.tuned": true,
		"board.chip_power_w": true, "board.limit_power_w": true, "board.limit_current_a": true, "board.tunable": true, "asked.setup": true,
		"board.heatsink_shape": true, "chip.current_max_a": true, "chip.rated_power_w": true, "evidence.word": true, "evidence.crashed": true,
		"power.table_exceeded": true,
	}
	all := defaultBook(t).rules
	for i := range all {
		r := &all[i]
		points := r.points.expression()
		if points == nil {
			continue
		}
		for _, f := range append(r.when.Mentions, points.Mentions...) {
			if worse[f.Name] == 0 && !fixed[f.Name] {
				t.Errorf("%s gives points and reads %s", r.Name, f.Name)
			}
		}
	}
}
