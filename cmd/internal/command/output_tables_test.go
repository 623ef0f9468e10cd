package command

import (
	"strings"
	"testing"

	"hotroom/advisor"
	"hotroom/advisor/comparison"
	"hotroom/advisor/ranking"
	"hotroom/advisor/round"
	"hotroom/advisor/sweep"
	"hotroom/knowledge"
)

// surroundings is a knowledge that names what the tables speak of.
func namedBase() *knowledge.Base {
	return knowledge.New(knowledge.Base{
		Chips:  []knowledge.Chip{{ID: "v10", Name: "Varnholt V10"}},
		Boards: []knowledge.Board{{ID: "slate", Name: "Gorsebank Slate"}},
		Loads:  []knowledge.Load{{ID: "render", Name: "all-core render"}},
		Runs:   []knowledge.Run{{ID: "r-1", Board: "flint", GHz: n(4.4)}},
	})
}

func asked() advisor.Question {
	return advisor.Question{Chip: "v10", RoomC: n(32.5), Load: "render", Setup: advisor.SetupCustom, PowerW: n(150), GHz: n(4.4), GraphicsW: n(60), AltitudeM: n(900)}
}

func ranked() ranking.Ranking {
	row := func(place, name string, price *float64, verdict string, hot, kept *float64) ranking.Row {
		return ranking.Row{
			Place: place, Board: strings.ToLower(name), Name: name, Price: price, Currency: "EUR", Verdict: verdict, Evidence: advisor.Projected,
			HotSpot: advisor.HotSpot{ExpectedC: hot}, Margin: advisor.Margin{KeptC: kept}, Clock: advisor.Clock{SustainedGHz: 4.4},
		}
	}
	r := ranking.Ranking{Question: asked(), Rows: []ranking.Row{
		row("1=", "Gorsebank Slate", n(99.5), advisor.Yes, n(70.2), n(21.4)),
		row("1=", "Dunmarrow Quarry of the Very Long Name", n(139), advisor.Yes, n(71), n(20)),
		row("3", "Pikeley Anvil", nil, advisor.WithCare, n(95.5), n(-3.2)),
		row("4", "Wexholm Fen", n(300), advisor.No, nil, nil),
	}, Notes: []string{"2 boards are not shown: they cost more than the budget."}}
	r.Rows[0].Cheapest, r.Rows[0].Unbeaten = true, true
	r.Rows[1].HeldBack = "each phase makes 3.5 W of heat"
	r.Rows[1].BeatenBy = &ranking.Beaten{Board: "slate", Name: "Gorsebank Slate", Price: 39.5, MarginKeptC: n(1.4), SustainedGHz: 0.31}
	r.Rows[3].BeatenBy = &ranking.Beaten{Board: "slate", Name: "Gorsebank Slate", Price: 200.5}
	r.Rows[2].Evidence = advisor.Estimated
	return r
}

func compared() comparison.Comparison {
	column := func(id, name string, a advisor.Advice) comparison.Column {
		a.Question.Board = id
		return comparison.Column{Name: name, Price: n(99), Currency: "EUR", Advice: a, Build: comparison.Build{
			Phases: 6, DevicesPerPhase: 3, Stage: "one high, two low", SwitchingKHz: 350, Heatsink: "finned", HeatsinkMassG: n(175), LimitPowerW: n(150), Firmware: "2.04",
		}}
	}
	c := comparison.Comparison{Question: asked(), Rows: []comparison.Column{
		column("slate", "Gorsebank Slate", careful()), column("flint", "Gorsebank Flint", settled()), column("fen", "Wexholm Fen", unsettled()),
	}}
	c.Rows[2].Build = comparison.Build{Phases: 1, DevicesPerPhase: 1, Stage: "one", SwitchingKHz: 300, Heatsink: "none"}
	c.Pairs = []comparison.Pair{
		{A: "slate", B: "flint", CoolerProbability: n(0.034), DeltaC: n(-34.4), RunA: "r-1", RunB: "r-2", LikeForLike: true, MeasuredDeltaC: n(-29), Firmware: []string{"the run r-1 names no firmware; the board's record has 2.04"}},
		{A: "slate", B: "fen", Unlike: []string{"no two runs with the chip v10"}},
		{A: "flint", B: "fen", RunA: "r-2", RunB: "r-3", Unlike: []string{"rooms of 22.0 and 28.0 °C", "held clocks of 4.40 GHz and 4.13 GHz"}},
	}
	c.Exchanges = []advisor.Exchange{
		{From: "slate", To: "flint", Parts: []advisor.Exchanged{
			{Part: "phases", From: "4", To: "6", DeltaC: n(-3)}, {Part: "heatsink", From: "none", To: "finned, 175 g", DeltaC: n(-31)}, {Part: "board area", From: "90 cm²", To: "80 cm²", DeltaC: n(2.25)},
		}, PartsC: n(-30), TogetherC: n(1.75), LearnedC: n(-4.4), TotalC: n(-34.4)},
		{From: "slate", To: "fen", Parts: []advisor.Exchanged{{Part: "phases", From: "4", To: "1"}}},
	}
	return c
}

func swept() sweep.Sweep {
	q := asked()
	q.Board = "slate"
	w := sweep.Sweep{Question: q, Over: sweep.OverRoom, UsedUpAt: n(33.5), Notes: []string{"A note."}, Points: []sweep.Point{
		{Run: "r-1", At: 22, HotC: 70, Alike: true}, {Run: "r-2", At: 30, HotC: 99},
	}}
	for _, room := range []float64{20, 30, 40} {
		w.Rows = append(w.Rows, sweep.Row{
			At: room, Verdict: advisor.Yes, Evidence: advisor.Measured, HotSpot: advisor.HotSpot{ExpectedC: n(room + 50), LowC: n(room + 44), HighC: n(room + 56)},
			Limit: advisor.Limit{ValueC: n(90)}, Margin: advisor.Margin{KeptC: n(34 - room)}, Clock: advisor.Clock{SustainedGHz: 4.4}, Power: advisor.Power{PackageW: 150},
		})
	}
	w.Rows = append(w.Rows, sweep.Row{At: 50, Verdict: advisor.No, Evidence: advisor.Measured, Limit: advisor.Limit{ValueC: n(90)}, Clock: advisor.Clock{SustainedGHz: 4.4}})
	return w
}

func rounded() round.Round {
	return round.Round{Chip: "v10", Setup: "open", Reference: "r-1", Notes: []string{"1 of 3 runs is not like for like with r-1; it is marked."}, Rows: []round.Row{
		{Run: "r-1", Date: "2026-03-01", Board: "slate", Name: "Gorsebank Slate", Price: n(79), Currency: "EUR", HotC: n(70), OverRoomC: n(48), LimitC: n(105), GHz: n(4.4), PackageW: n(188), RoomC: 22, Minutes: n(60), Firmware: "1.10", Outcome: knowledge.Settled},
		{Run: "r-2", Date: "2026-03-02", Board: "flint", Name: "Flint | <b>*new*</b>", Price: n(99.5), Currency: "EUR", HotC: n(85.5), OverRoomC: n(57.5), GHz: n(4.4), PackageW: n(188), RoomC: 28, Outcome: knowledge.Throttled, Unlike: []string{"rooms of 22.0 and 28.0 °C"}, BeatenBy: &round.Beaten{Board: "slate", Name: "Gorsebank Slate", Price: 20.5, HotC: n(15.5), GHz: n(0)}},
		{Run: "r-3", Date: "2026-03-02", Board: "fen", Name: "Wexholm Fen", RoomC: 22, Outcome: knowledge.Crashed, Note: "protection tripped", BeatenBy: &round.Beaten{Board: "slate", Name: "Gorsebank Slate", Price: 5}},
	}}
}

func testedAgain() (trial, []advisor.Prediction) {
	run := func(id string) *knowledge.Run { return &knowledge.Run{ID: id, Board: "slate"} }
	var all []advisor.Prediction
	for _, left := range []string{advisor.LeaveRun, advisor.LeaveBoard} {
		all = append(all,
			advisor.Prediction{Run: run("r-1"), Left: left, Evidence: advisor.Measured, Settles: true, MeasuredC: 70, ExpectedC: 72, LowC: 66, HighC: 78},
			advisor.Prediction{Run: run("r-2"), Left: left, Evidence: advisor.Projected, Settles: true, MeasuredC: 90, ExpectedC: 80, LowC: 74, HighC: 86},
			advisor.Prediction{Run: run("r-3"), Left: left, Evidence: advisor.Estimated, MeasuredC: 110, ExpectedC: nan(), LowC: nan(), HighC: nan()},
			advisor.Prediction{Run: run("r-4"), Left: left, Evidence: advisor.Measured, Settles: true, MeasuredC: 50, ExpectedC: 60, LowC: 54, HighC: 66})
	}
	return newTrial(all, []advisor.Outlier{{Run: run("r-2"), Residual: 3.9}, {Run: run("r-4"), Residual: -4.2}}), all
}

// tables are all the tables in one look.
func tables(st style) map[string]string {
	t, all := testedAgain()
	base := namedBase()
	return map[string]string{
		"rank": st.ranking(base, ranked()), "compare": st.comparison(base, compared()), "sweep": st.sweep(base, swept()),
		"round": st.round(base, rounded()), "backtest": st.trial(t, all),
	}
}

// The key of a ranking explains no word of a column that had no room.
func TestRankingExplainsWhatItShows(t *testing.T) {
	base := namedBase()
	with, without := 0, 0
	for width := 40; width <= 100; width++ {
		table, key, ok := strings.Cut(style{width: width}.ranking(base, ranked()), "\n\n  *")
		if !ok {
			continue // too narrow for a table
		}
		for _, word := range []string{advisor.Measured, advisor.Projected, advisor.Estimated} {
			shown := strings.Contains(table, word)
			if strings.Contains(key, word+"  ") != shown {
				t.Errorf("%d columns, %s:\n%s\n  *%s", width, word, table, key)
			}
			if shown {
				with++
			} else {
				without++
			}
		}
	}
	if with == 0 || without == 0 {
		t.Errorf("%d words were shown and %d not: both are to be tried", with, without)
	}
}

func TestTables(t *testing.T) {
	for suffix, st := range map[string]style{
		"80": {width: 80}, "60": {width: 60}, "40": {width: 40}, "plain": {width: 80, plain: true}, "colour": {width: 80, colour: true},
	} {
		for name, got := range tables(st) {
			t.Run(name+"-"+suffix, func(t *testing.T) {
				if suffix == "80" || suffix == "plain" {
					golden(t, name+"-"+suffix+".txt", got)
				}
				for _, bad := range []string{"NaN", "null", "<nil>", "%!", "\n\n\n"} {
					if strings.Contains(got, bad) {
						t.Errorf("it says %q", bad)
					}
				}
				for line := range strings.Lines(got) {
					if w := columnsOf(strings.TrimRight(line, "\n")); !st.plain && w > st.width {
						t.Errorf("%d columns: %s", w, line)
					}
				}
				if !st.colour && strings.Contains(got, "\x1b") {
					t.Error("escape codes without colour")
				}
			})
		}
	}
}

func TestRoundSheets(t *testing.T) {
	csv, err := roundCSV(rounded())
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "round.csv", csv)
	golden(t, "round.md", roundMarkdown(namedBase(), rounded()))
}

// Nothing out of files disturbs a terminal.
func TestTablesFromHostileFiles(t *testing.T) {
	evil := "a\x1b[2J\x07\u202eb\nc\x9b\xff"
	base := knowledge.New(knowledge.Base{
		Chips: []knowledge.Chip{{ID: "v10", Name: evil}}, Boards: []knowledge.Board{{ID: "slate", Name: evil}}, Loads: []knowledge.Load{{ID: "render", Name: evil}},
	})
	r := ranked()
	r.Notes[0] = evil
	for i := range r.Rows {
		r.Rows[i].Name, r.Rows[i].Currency, r.Rows[i].HeldBack, r.Rows[i].Evidence, r.Rows[i].Verdict = evil, evil, evil, evil, evil
	}
	r.Rows[1].BeatenBy.Name = evil
	c := compared()
	for i := range c.Rows {
		c.Rows[i].Name, c.Rows[i].Currency, c.Rows[i].Build.Stage, c.Rows[i].Build.Firmware, c.Rows[i].Build.Heatsink = evil, evil, evil, evil, evil
	}
	c.Pairs[0].RunA, c.Pairs[0].Firmware[0], c.Pairs[1].Unlike[0] = evil, evil, evil
	c.Exchanges[0].Parts[0].From = evil
	w := swept()
	w.Points[0].Run, w.Rows[0].Evidence, w.Notes[0] = evil, evil, evil
	d := rounded()
	for i := range d.Rows {
		d.Rows[i].Name, d.Rows[i].Note, d.Rows[i].Firmware, d.Rows[i].Outcome, d.Rows[i].Run, d.Rows[i].Currency = evil, evil, evil, evil, evil, evil
	}
	d.Rows[1].Unlike[0], d.Rows[1].BeatenBy.Name = evil, evil
	tr, all := testedAgain()
	all[1].Run.ID, tr.Outliers[0].Run, all[5].Run.ID = evil, evil, evil
	csv, err := roundCSV(d)
	if err != nil {
		t.Fatal(err)
	}
	for _, st := range []style{{width: 80}, {width: 40}, {width: 80, plain: true}} {
		for _, got := range []string{st.ranking(base, r), st.comparison(base, c), st.sweep(base, w), st.round(base, d), st.trial(tr, all), roundMarkdown(base, d), csv} {
			flat := strings.ReplaceAll(got, "\n", " ")
			if safe(flat) != flat {
				t.Errorf("unsafe: %q", flat)
			}
		}
	}
}
