package root

import "math"

// Near gives what Find gives for an f that is nearly a straight line, and sooner:
// it follows the secant from two tries a and b whose values are at hand, and ends
// one step after a value of at most small. Where it is led out of lo to hi, or
// nowhere, it leaves the work to Find; NaN where f has the same sign at both ends.
func Near(f func(float64) float64, lo, hi, a, fa, b, fb, small, tolerance float64) float64 {
	const most = 8 // a line takes one, a curve like those of heat three or four
	for range most {
		next := b - fb*(b-a)/(fb-fa)
		if !(next > lo && next < hi) || math.IsInf(fa, 0) || math.IsInf(fb, 0) {
			break
		}
		if math.Abs(fb) <= small {
			return next
		}
		a, fa, b, fb = b, fb, next, f(next)
	}
	flo, fhi := f(lo), f(hi)
	if flo*fhi > 0 {
		return math.NaN()
	}
	return Find(f, lo, flo, hi, fhi, tolerance)
}
