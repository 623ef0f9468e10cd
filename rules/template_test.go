package rules

import (
	"math"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// Numbers are written as strconv writes them.
func TestAppendFixed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		decimals := rapid.IntRange(0, mostDecimals).Draw(t, "decimals")
		v := rapid.OneOf(
			rapid.Float64Range(-1e10, 1e10), rapid.Float64Range(-200, 200), rapid.SampledFrom([]float64{0, math.Copysign(0, -1), 0.5, 2.5, -0.05, 0.25, 1e9, 999999.95}),
			rapid.Custom(func(t *rapid.T) float64 { return float64(rapid.IntRange(-99_999, 99_999).Draw(t, "halves")) / 20 }),
		).Draw(t, "v")
		if got, want := string(appendFixed(nil, v, decimals)), strconv.FormatFloat(v, 'f', decimals, 64); got != want {
			t.Fatalf("%v with %d decimals: got %s, want %s", v, decimals, got, want)
		}
	})
}
