package evidence

import (
	"math"

	"hotroom/advisor/uncertainty"
	"hotroom/knowledge"
)

// Observation is what one counted run says: y = b + θ1·x1 + θ2·x2 + noise.
type Observation struct {
	X     Vector  // (1, x1, x2)
	Y     float64 // hot spot over local air, K
	Noise float64 // variance of thermometer, placement and room, K²; the discrepancy is not in it
}

// Spread of what a run's measurement adds, K (standard deviations).
const (
	placementK = 1.0 // probe placement, common practice, no source
	roomK      = 0.5 // room temperature, common practice, no source
	// class2C is the tolerance that is assumed when a run names no
	// thermometer: IEC 60584-1 class 2, K.
	class2C = 2.5
)

// MeasurementBudget lists what makes a hot spot in °C uncertain that was read by
// a thermometer, nil for none named: its tolerance as a rectangular
// distribution (GUM 4.3.7: tolerance/√3), probe placement and room, K.
func MeasurementBudget(t *knowledge.Thermometer, hotC float64) uncertainty.Budget {
	tolerance := class2C
	if t != nil {
		tolerance = max(t.ClassC, t.ClassPercent/100*math.Abs(hotC))
	}
	return uncertainty.Budget{
		uncertainty.Within("thermometer class", tolerance),
		uncertainty.Deviation("placement", placementK),
		uncertainty.Deviation("room", roomK),
	}
}

// MeasurementNoise gives the variance in K² of a hot spot in °C read by a
// thermometer, nil for none named.
func MeasurementNoise(t *knowledge.Thermometer, hotC float64) float64 {
	return MeasurementBudget(t, hotC).Variance()
}

// Posterior gives the belief about a board after its observations.
func Posterior(prior Belief, runs []Observation) Belief {
	b := prior
	for _, o := range runs {
		b.observe(o.X, o.Y, o.Noise+b.DiscrepancyK*b.DiscrepancyK)
	}
	return b
}
