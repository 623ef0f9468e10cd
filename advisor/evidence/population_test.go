package evidence

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// Wherever the longer steps lead, the result is EM's own fixed point: one more
// plain round leaves it where it is.
func TestPopulationIsAFixedPoint(t *testing.T) {
	observation := rapid.Custom(func(t *rapid.T) Observation {
		return Observation{
			X:     Vector{1, rapid.Float64Range(2, 90).Draw(t, "x1"), rapid.Float64Range(2, 25).Draw(t, "x2")},
			Y:     rapid.Float64Range(0, 110).Draw(t, "y"),
			Noise: rapid.Float64Range(1, 6).Draw(t, "noise"),
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		boards := rapid.SliceOfN(rapid.SliceOfN(observation, 1, 5), Fewest, 20).Draw(t, "boards")
		got := pack(Learned(boards))
		again := pack(round(boards, got.belief(), PartsOnly(), usualWeights()))
		for i := range got {
			if !(math.Abs(got[i]-again[i]) <= 1e-5*(1+math.Abs(got[i]))) {
				t.Fatalf("number %d moves from %g to %g", i, got[i], again[i])
			}
		}
	})
}
