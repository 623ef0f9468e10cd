package bench

import (
	"math"

	"hotroom/advisor/evidence"
	"hotroom/advisor/uncertainty"
)

// budget gathers what makes a settled temperature in °C uncertain: thermometer,
// probe placement and room as for any run, what still drifted, and the fit.
func (r *reducer) budget(hotC float64, fit uncertainty.Source) uncertainty.Budget {
	b := evidence.MeasurementBudget(r.options.Thermometer, hotC)
	return append(b, uncertainty.Within("drift", r.unfollowed()), fit)
}

// unfollowed gives what drifting may have hidden, ± K: half of what the rise
// still moved over the last stretch, or what the room moved within one time
// constant, since a board follows its room with that delay; the greater.
func (r *reducer) unfollowed() float64 {
	half := math.Abs(r.final.driftK) / 2
	if r.out.Heating == nil || r.span <= 0 || r.out.Quality.RoomDriftC == nil {
		return half
	}
	lag := math.Min(1, r.out.Heating.Main().TimeConstantS/r.span)
	return math.Max(half, lag*math.Abs(*r.out.Quality.RoomDriftC))
}
