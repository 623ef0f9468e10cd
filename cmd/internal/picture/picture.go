// Package picture turns answers into charts: it gives the numbers their names,
// titles and notes. The chart package draws them and knows nothing of answers.
package picture

import (
	"math"

	"hotroom/advisor"
	"hotroom/advisor/round"
	"hotroom/advisor/sweep"
	"hotroom/cmd/internal/chart"
	"hotroom/knowledge"
)

// makersWin stands below every picture of answers.
const makersWin = "The limits and instructions of the makers win over this chart."

// Sweep pictures one board over room temperatures or package powers.
func Sweep(base *knowledge.Base, w sweep.Sweep) chart.Sweep {
	c := chart.Sweep{
		Title: "Hot spot of " + BoardName(base, w.Question.Board) + " with " + ChipName(base, w.Question.Chip), Subtitle: Conditions(base, held(w)),
		X: chart.Axis{Name: "room temperature", Unit: "°C"}, UsedUp: w.UsedUpAt, Notes: append(append([]string{}, w.Notes...), makersWin),
	}
	if w.Over == sweep.OverPower {
		c.X = chart.Axis{Name: "package power cap", Unit: "W"}
	}
	for _, r := range w.Rows {
		c.Points = append(c.Points, chart.SweepPoint{
			X: r.At, Expected: number(r.HotSpot.ExpectedC), Low: number(r.HotSpot.LowC), High: number(r.HotSpot.HighC),
			Limit: number(r.Limit.ValueC), Clock: r.Clock.SustainedGHz,
		})
	}
	for _, p := range w.Points {
		if p.Alike {
			c.Runs = append(c.Runs, chart.SweepRun{Label: p.Run, X: p.At, Y: p.HotC})
		}
	}
	return c
}

// held is what a sweep holds: the question without what it goes over.
func held(w sweep.Sweep) advisor.Question {
	q := w.Question
	if w.Over == sweep.OverRoom {
		q.RoomC = nil
		return q
	}
	q.Setup, q.PowerW = "", nil
	return q
}

// Round pictures a round of testing.
func Round(base *knowledge.Base, r round.Round) chart.Round {
	c := chart.Round{Title: "Round with " + ChipName(base, r.Chip), Subtitle: "power limits as each run had them", Notes: r.Notes}
	if r.Setup != "" {
		c.Subtitle = setupWords(advisor.Question{Setup: r.Setup})
	}
	for i := range r.Rows {
		row := &r.Rows[i]
		name := row.Name
		if repeated(r.Rows, row.Board) {
			name += ", " + row.Date
		}
		c.Rows = append(c.Rows, chart.RoundRow{
			Name: name, HotSpot: number(row.HotC), Limit: number(row.LimitC), Room: row.RoomC,
			Clock: number(row.GHz), Package: number(row.PackageW), Outcome: row.Outcome, Unlike: joined(row.Unlike),
		})
	}
	return c
}

func repeated(rows []round.Row, board string) bool {
	n := 0
	for i := range rows {
		if rows[i].Board == board {
			n++
		}
	}
	return n > 1
}

// Backtest pictures measured against predicted temperatures, each run predicted
// without itself.
func Backtest(predictions []advisor.Prediction) chart.Scatter {
	c := chart.Scatter{Title: "Each run predicted from all the others", Subtitle: "a point off its bar is a run that the 90 % interval missed"}
	for i := range predictions {
		if p := &predictions[i]; p.Left == advisor.LeaveRun {
			c.Points = append(c.Points, chart.ScatterPoint{
				Label: p.Run.ID, Predicted: p.ExpectedC, Low: p.LowC, High: p.HighC, Measured: p.MeasuredC, Evidence: p.Evidence,
			})
		}
	}
	return c
}

// number gives a number of an answer, NaN where it has none.
func number(v *float64) float64 {
	if v == nil {
		return math.NaN()
	}
	return *v
}
