package bench

import (
	"math"

	"hotroom/advisor/bench/fit"
)

// hiddenFactor is how much slower than what was found a hidden part is taken to
// be. Common practice, no source: a slower one is hidden better, a faster one is
// found.
const hiddenFactor = 2.0

// hiddenPart fits once more with a further, slower part and gives how far that
// lets the end of the curve be off, K: its shift and twice the standard error.
// A record that was broken off early fits one exponential well although a slow
// part is still to come.
func hiddenPart(h *Heating, d fit.Data) float64 {
	tau := hiddenFactor * h.slowest()
	last := h.Parts[len(h.Parts)-1]
	start := []float64{h.FinalK, last.AmplitudeK * 0.9, last.TimeConstantS * 0.9, last.AmplitudeK * 0.1}
	if len(h.Parts) == 2 {
		start = append(start, h.Parts[0].AmplitudeK, h.Parts[0].TimeConstantS)
	}
	wider := func(t float64, p, slope []float64) float64 {
		if p[2] <= 0 || len(p) > 4 && p[5] <= 0 {
			return math.NaN()
		}
		e, slow := math.Exp(-t/p[2]), math.Exp(-t/tau)
		slope[0], slope[1], slope[2], slope[3] = 1, -e, -p[1]*e*t/(p[2]*p[2]), -slow
		rise := p[0] - p[1]*e - p[3]*slow
		if len(p) > 4 {
			fast := math.Exp(-t / p[5])
			slope[4], slope[5] = -fast, -p[4]*fast*t/(p[5]*p[5])
			rise -= p[4] * fast
		}
		return rise
	}
	r, err := fit.Solve(wider, d, start)
	if err != nil {
		return math.Inf(1)
	}
	return math.Abs(r.Params[0]-h.FinalK) + 2*r.StandardError(0)
}
