// Package root finds where a function of one number crosses zero.
package root

import "math"

// Find gives an x between lo and hi, to within tolerance, at which f crosses
// zero; f(lo) and f(hi) must have different signs, and are passed so that they
// are not worked out twice. Values may be infinite. The method is
// Chandrupatla's (Advances in Engineering Software 28, 1997): inverse quadratic
// interpolation where it is safe, halving elsewhere; it never leaves the
// bracket.
func Find(f func(float64) float64, lo, flo, hi, fhi, tolerance float64) float64 {
	if flo == 0 {
		return lo
	}
	if fhi == 0 {
		return hi
	}
	a, fa := hi, fhi // newest
	b, fb := lo, flo // on the other side of zero
	c, fc := a, fa   // the one before
	t := 0.5
	for range 200 {
		x := a + t*(b-a)
		fx := f(x)
		if math.Signbit(fx) == math.Signbit(fa) {
			c, fc = a, fa
		} else {
			c, fc = b, fb
			b, fb = a, fa
		}
		a, fa = x, fx
		best, fbest := a, fa
		if math.Abs(fb) < math.Abs(fa) {
			best, fbest = b, fb
		}
		least := (tolerance + 4e-16*math.Abs(best)) / math.Abs(b-a)
		if least > 0.5 || fbest == 0 {
			return best
		}
		t = min(max(fraction(a, fa, b, fb, c, fc), least), 1-least)
	}
	return a
}

// fraction says how far from a towards b the next try should be: by inverse
// quadratic interpolation where Chandrupatla's criterion allows it, otherwise
// half way.
func fraction(a, fa, b, fb, c, fc float64) float64 {
	xi := (a - b) / (c - b)
	phi := (fa - fb) / (fc - fb)
	if phi*phi < xi && (1-phi)*(1-phi) < 1-xi {
		t := fa/(fb-fa)*fc/(fb-fc) + (c-a)/(b-a)*fa/(fc-fa)*fb/(fc-fb)
		if !math.IsNaN(t) {
			return t
		}
	}
	return 0.5
}
