package chart

import "math"

func number(v float64) *float64 { return &v }

// risingSweep is invented: a board that gets too hot and then cannot settle.
func risingSweep() Sweep {
	s := Sweep{
		Title:    "Gorsebank Flint with Varnholt V10",
		Subtitle: "all-core render, quiet tower, tower air cooler, as shipped",
		X:        Axis{"room temperature", "°C"},
		UsedUp:   number(31.6),
		Notes:    []string{"The maker's stated limits win over this chart."},
		Runs: []SweepRun{
			{"2025-02-03-flint-v10", 21.8, 83.1},
			{"2025-02-04-flint-v10 (a second day, after a new firmware)", 22.1, 84.6},
			{"2025-06-30-flint-v10 in a warm room", 30.4, 92},
		},
	}
	for x := 10.0; x <= 60; x += 2.5 {
		p := SweepPoint{X: x, Expected: 70 + (x-10)*1.05 + math.Pow(x/40, 6)*2, Limit: 105 - x/12, Clock: 4.4}
		if x > 40 {
			p.Clock = 4.4 - (x-40)*0.04
		}
		p.Low, p.High = p.Expected-7-x/20, p.Expected+7+x/20
		if x > 52 {
			p.Expected, p.Low, p.High, p.Clock = math.NaN(), math.NaN(), math.NaN(), math.NaN()
		}
		s.Points = append(s.Points, p)
	}
	return s
}

// emptySweep has steps but nothing known at them.
func emptySweep() Sweep {
	none := math.NaN()
	return Sweep{
		Title:  "Pikeley Rivet over package power",
		X:      Axis{"package power", "W"},
		Points: []SweepPoint{{50, none, none, none, none, none}, {100, none, none, none, none, none}},
	}
}

// testRound is invented: each outcome, a long name, a run unlike the others.
func testRound() Round {
	none := math.NaN()
	return Round{
		Title:    "Spring round with the Varnholt V10",
		Subtitle: "all-core render, an hour each, open bench",
		Notes:    []string{"Boards tested at different power limits are not compared by temperature alone."},
		Rows: []RoundRow{
			{Name: "Gorsebank Basalt", HotSpot: 77.4, Limit: 110, Room: 22.3, Clock: 4.13, Package: 150, Outcome: Settled},
			{Name: "Dunmarrow Quarry", HotSpot: 84, Limit: 105, Room: 21.8, Clock: 4.4, Package: 188, Outcome: Settled},
			{Name: "Pikeley Anvil Special Edition with Integrated Wireless and a Second Heatsink", HotSpot: 91.2, Limit: none, Room: 22, Clock: 4.4, Package: 188, Outcome: Settled, Unlike: "power limit 253 W, the others 150 W"},
			{Name: "Wexholm-Brook-Ultra-Long-Unbroken-Model-Name-0123456789", HotSpot: 99.6, Limit: 100, Room: 30.1, Clock: 4.2, Package: 170, Outcome: Unsettled, Unlike: "warm room"},
			{Name: "Gorsebank Flint", HotSpot: 103.1, Limit: 103, Room: 21.8, Clock: 3.45, Package: 86, Outcome: Throttled},
			{Name: "Pikeley Tongs", HotSpot: none, Limit: 95, Room: 22, Clock: none, Package: none, Outcome: Crashed},
		},
	}
}

// testScatter is invented: inside, outside above and below, one without a bar
// and one that was never measured.
func testScatter() Scatter {
	none := math.NaN()
	s := Scatter{
		Title:    "Every run predicted from the others",
		Subtitle: "16 boards, 90 % intervals",
		Points: []ScatterPoint{
			{"2025-02-03-flint-v10", 91.5, 85, 98, 103.1, "estimated"},
			{"2025-02-03-slate-v6", 66, 60, 72, 57.8, "projected"},
			{"2025-03-01-brook-q8", 74, none, none, 76, "measured"},
			{"2025-03-02-fen-q8", 80, 72, 88, none, "projected"},
			{"2025-02-04-flint-v10", 92, 86, 98, 100.2, "estimated"},
		},
	}
	words := []string{"measured", "projected", "estimated"}
	for i := range 24 {
		x := 48 + float64(i)*2.3
		wide := 3 + 3*float64(i%3)
		s.Points = append(s.Points, ScatterPoint{
			"run", x, x - wide, x + wide, x + math.Sin(float64(i)*2.1)*wide*0.9, words[i%3],
		})
	}
	return s
}
