package command

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/clipperhouse/displaywidth"

	"hotroom/advisor"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", "golden", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v: write it with go test -update", err)
	}
	if got != string(want) {
		t.Errorf("%s\n--- got\n%s--- want\n%s", path, got, want)
	}
}

func n(v float64) *float64 { return &v }
func w(s string) *string   { return &s }

// careful is an answer with a bit of everything, made up by hand.
func careful() advisor.Advice {
	board := advisor.Limit{ValueC: n(105), StatedBy: "Gorsebank", Kind: "board", Source: "manual, page 12"}
	return advisor.Advice{
		Question: advisor.Question{Board: "slate", Chip: "v10", RoomC: n(32), Setup: "shipped"},
		Verdict:  advisor.WithCare,
		Headline: "the Gorsebank Slate carries the Varnholt V10 at 4.30 GHz in a 32 °C room, but the margin is thin.",
		Score:    61.4, Evidence: advisor.Projected, Runs: []string{"r-004", "r-011"},
		HotSpot: advisor.HotSpot{ExpectedC: n(90.6), LowC: n(83.2), HighC: n(98.1), UncertaintyC: n(4.5), UnthrottledC: n(90.6)},
		Limit:   board,
		Limits:  []advisor.Limit{board, {ValueC: n(118.4), StatedBy: "the stage's maker", Kind: "stage"}, {ValueC: n(130), StatedBy: "the model's default", Kind: "laminate"}},
		Margin:  advisor.Margin{ExpectedC: n(14.4), KeptC: n(6.9), ExceedProbability: n(0.0007)},
		Ceiling: advisor.Ceiling{RoomC: n(38.6), PackageW: n(201.7)},
		Clock:   advisor.Clock{SustainedGHz: 4.3, TargetGHz: 4.6, LimitedBy: "power"},
		Power:   advisor.Power{PackageW: 182.2, CoreA: 151.3, Volts: 1.108, RegulatorLossW: n(21.63), RegulatorEfficiency: n(0.8857)},
		Air:     advisor.Air{LocalC: n(39.5), CaseRiseC: n(7.5), AirspeedMS: 0.8},
		Time:    advisor.Time{To95PercentMin: n(23.4)},
		Capacitor: advisor.Capacitor{
			Kind: w("polymer"), TemperatureC: n(65), LifeH: n(50000), LifeYears: n(5.7),
		},
		EvidenceDetail: advisor.EvidenceDetail{NearestRun: w("r-011"), PackageGapPercent: n(14.2), RoomGapC: n(10.5), UncertaintyRemovedPercent: n(48.3)},
		Changes:        []advisor.Change{{Text: "a cap of 150 W", Verdict: advisor.Yes, MarginKeptC: n(19.2)}},
		Findings: []advisor.Finding{
			{Rule: "margin-thin", Kind: "concern", Points: -15, Text: "less than 10 °C of margin can be counted on"},
			{Rule: "sink-large", Kind: "merit", Points: 6.5, Text: "the heatsink is large for the heat it sheds"},
			{Rule: "cap", Kind: "caution", Text: "the power cap costs 6 % of the clock, which shows in long renders more than in games"},
		},
		Cautions:  []string{"The limits and instructions of the makers win over this answer."},
		Defaults:  []string{"load: all-core render, the knowledge's default", "graphics: 0 W"},
		Estimated: []string{"regulator.switching_khz of the Gorsebank Slate"},
		Versions:  advisor.Versions{Knowledge: strings.Repeat("ab12", 16), Rules: strings.Repeat("cd34", 16), Program: "devel"},
	}
}

// settled is an easy yes with no doubts.
func settled() advisor.Advice {
	a := careful()
	a.Verdict, a.Headline, a.Score, a.Evidence = advisor.Yes, "Yes: the Slate carries the V4 with ease.", 96, advisor.Measured
	a.HotSpot = advisor.HotSpot{ExpectedC: n(56.2), LowC: n(53), HighC: n(59.4), UncertaintyC: n(2), UnthrottledC: n(56.2)}
	a.Margin = advisor.Margin{ExpectedC: n(48.8), KeptC: n(45.6), ExceedProbability: n(0)}
	a.Ceiling = advisor.Ceiling{PackageW: n(96), PackageAtLeast: true}
	a.Clock = advisor.Clock{SustainedGHz: 4.6, TargetGHz: 4.6, LimitedBy: "chip"}
	a.Capacitor.LifeYears = n(15)
	a.Changes, a.Findings, a.Defaults, a.Estimated = nil, nil, nil, nil
	return a
}

// throttled is a board that lowers the clock.
func throttled() advisor.Advice {
	a := careful()
	a.Verdict, a.Headline, a.Evidence, a.Runs = advisor.No, "The Slate cannot hold the V10's clock in a 41 °C room.", advisor.Estimated, nil
	a.Question.RoomC = n(41)
	a.HotSpot = advisor.HotSpot{ExpectedC: n(105), LowC: n(91.2), HighC: n(118.8), UncertaintyC: n(8.4), UnthrottledC: n(121.3)}
	a.Margin = advisor.Margin{ExpectedC: n(0), KeptC: n(-13.8), ExceedProbability: n(0.5)}
	a.Ceiling = advisor.Ceiling{RoomC: n(24.6)}
	a.Clock = advisor.Clock{SustainedGHz: 3.81, TargetGHz: 4.6, LimitedBy: "temperature", LossPercent: 11.4}
	a.Time.ToLimitMin = n(6.4)
	a.Findings = []advisor.Finding{{Rule: "throttles", Kind: "veto", Text: "the clock falls to keep the board within its limit"}}
	return a
}

// unsettled never finds a temperature.
func unsettled() advisor.Advice {
	a := throttled()
	a.Headline = "No: the Slate cannot settle with the V10."
	a.HotSpot = advisor.HotSpot{}
	a.Margin = advisor.Margin{ExceedProbability: n(1)}
	a.Ceiling = advisor.Ceiling{}
	a.Power.RegulatorLossW, a.Power.RegulatorEfficiency = nil, nil
	a.Air = advisor.Air{AirspeedMS: 0.8}
	a.Time = advisor.Time{}
	a.Clock.LimitedBy, a.Clock.LossPercent = "power", 0
	a.Capacitor = advisor.Capacitor{Kind: w("liquid")}
	return a
}

func TestAnswer(t *testing.T) {
	for _, tt := range []struct {
		name   string
		advice advisor.Advice
		style  style
	}{
		{"care-80.txt", careful(), style{width: 80}},
		{"care-60.txt", careful(), style{width: 60}},
		{"care-40.txt", careful(), style{width: 40}},
		{"care-plain.txt", careful(), style{width: 80, plain: true}},
		{"care-colour.txt", careful(), style{width: 80, colour: true}},
		{"yes-80.txt", settled(), style{width: 80}},
		{"throttled-80.txt", throttled(), style{width: 80}},
		{"throttled-plain.txt", throttled(), style{width: 80, plain: true}},
		{"unsettled-80.txt", unsettled(), style{width: 80}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := tt.style.advice(tt.advice)
			golden(t, tt.name, got)
			for _, bad := range []string{"NaN", "null", "<nil>", "%!"} {
				if strings.Contains(got, bad) {
					t.Errorf("the answer says %q", bad)
				}
			}
			for line := range strings.Lines(got) {
				if w := columnsOf(strings.TrimRight(line, "\n")); !tt.style.plain && w > tt.style.width {
					t.Errorf("%d columns: %s", w, line)
				}
			}
			if !tt.style.colour && strings.Contains(got, "\x1b") {
				t.Error("escape codes without colour")
			}
		})
	}
}

func TestAnswerFromHostileFiles(t *testing.T) {
	a := careful()
	evil := "a\x1b[2J\x07\u202eb\nc\x9b\xff"
	a.Headline, a.Limit.StatedBy, a.Runs = evil, evil, []string{evil}
	a.Cautions, a.Defaults, a.Estimated = []string{evil}, []string{evil}, []string{evil}
	a.Findings[0].Text, a.Changes[0].Text, a.Capacitor.Kind = evil, evil, &evil
	a.Evidence, a.Verdict, a.Clock.LimitedBy, a.EvidenceDetail.NearestRun = evil, evil, evil, &evil
	a.Versions = advisor.Versions{Knowledge: evil, Rules: evil, Program: evil}
	a.Findings[0].Kind, a.Limits[1].Kind = evil, evil
	for _, st := range []style{{width: 80}, {width: 80, plain: true}} {
		if got := strings.ReplaceAll(st.advice(a), "\n", " "); safe(got) != got {
			t.Errorf("unsafe: %q", got)
		}
	}
}

func TestParagraph(t *testing.T) {
	got := style{width: 20}.hanging("Label  ", "one two three 日本語 four", 7)
	want := "Label  one two three\n       日本語 four\n"
	if got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	for line := range strings.Lines(got) {
		if w := displaywidth.String(strings.TrimSpace(line)); w > 20 {
			t.Errorf("%d columns: %q", w, line)
		}
	}
}

func TestNumbers(t *testing.T) {
	for _, tt := range []struct{ got, want string }{
		{celsius(-0.4), "0 °C"},
		{celsius(99.5), "100 °C"},
		{percent(0), "below 0.1 %"},
		{percent(0.034), "3.4 %"},
		{percent(0.0996), "10 %"},
		{percent(0.5), "50 %"},
		{percent(1), "above 99.9 %"},
		{minutes(0.3), "less than a minute"},
		{minutes(119.4), "119 min"},
		{minutes(150), "2.5 h"},
		{years(0.01), "less than a month"},
		{years(1), "12 months"},
		{years(5.71), "5.7 years"},
		{sign(6.5), "+6.5"},
		{sign(-15), "-15"},
		{sign(0), "0"},
		{sign(-0.01), "0"},
	} {
		if tt.got != tt.want {
			t.Errorf("got %q, want %q", tt.got, tt.want)
		}
	}
}
