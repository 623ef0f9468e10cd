package picture

import (
	"hotroom/advisor"
	"hotroom/advisor/bench"
	"hotroom/cmd/internal/chart"
	"hotroom/knowledge"
)

// mostReadings is how many points of a record are drawn.
const mostReadings = 400

// Heating pictures a log worked up: the rise under load, the curve and what it
// leaves.
func Heating(base *knowledge.Base, run *knowledge.Run, r *bench.Reduction) chart.Heating {
	c := chart.Heating{
		Title: "Warming of " + BoardName(base, run.Board) + " with " + ChipName(base, run.Chip), Subtitle: Conditions(base, runConditions(run)),
		X: chart.Axis{Name: "time under load", Unit: "min"}, Y: chart.Axis{Name: "rise over the room", Unit: "K"}, Notes: []string{makersWin},
	}
	step := 1 + len(r.Points)/mostReadings
	for i := 0; i < len(r.Points); i += step {
		p := r.Points[i]
		c.Points = append(c.Points, chart.HeatingPoint{X: p.TimeS / 60, Measured: p.RiseK, Fitted: fittedAt(r.Heating, p.TimeS)})
	}
	if q := &r.Quality; q.SettleC != nil && q.RoomMeanC != nil {
		final := *q.SettleC - *q.RoomMeanC
		c.Final = &final
	}
	for _, e := range r.Quality.ThrottleEvents {
		c.Events = append(c.Events, [2]float64{e.StartS / 60, e.EndS / 60})
	}
	return c
}

// fittedAt gives the curve's rise, and no number where there is no curve.
func fittedAt(h *bench.Heating, t float64) float64 {
	if h == nil || t < h.FromS {
		return number(nil)
	}
	return h.At(t)
}

// runConditions are a run's as a question has them.
func runConditions(run *knowledge.Run) advisor.Question {
	room := run.RoomC
	return advisor.Question{
		RoomC: &room, Enclosure: run.Enclosure, Cooler: run.Cooler, Load: run.Load, Setup: run.Setup,
		PowerW: run.PowerLimitW, CurrentA: run.CurrentLimitA, GraphicsW: &run.GraphicsW, AltitudeM: &run.AltitudeM,
	}
}
