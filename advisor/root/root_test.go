package root_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor/root"
)

func find(f func(float64) float64, lo, hi, tolerance float64) float64 {
	return root.Find(f, lo, f(lo), hi, f(hi), tolerance)
}

func TestFind(t *testing.T) {
	for _, c := range []struct {
		name         string
		f            func(float64) float64
		lo, hi, want float64
	}{
		{"line", func(x float64) float64 { return 3 - x }, 0, 250, 3},
		{"cosine", func(x float64) float64 { return math.Cos(x) - x }, 0, 1, 0.7390851332151607}, // the Dottie number, from memory
		{"cliff", func(x float64) float64 {
			if x > 42 {
				return math.Inf(-1)
			}
			return 1 + 42 - x
		}, -50, 100, 42},
		{"flat", func(x float64) float64 { return math.Pow(x-1, 9) }, 0, 7, 1},
	} {
		if got := find(c.f, c.lo, c.hi, 1e-9); math.Abs(got-c.want) > 1e-7 && math.Abs(c.f(got)) > 1e-60 {
			t.Errorf("%s: got %.12g, want %.12g", c.name, got, c.want)
		}
	}
}

// Whatever the curve, the result lies in the bracket and the sign changes
// within the tolerance around it.
func TestFindLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(-9, 9).Draw(t, "root")
		steep := rapid.Float64Range(0.01, 50).Draw(t, "steep")
		f := func(x float64) float64 { return math.Sinh(steep*(x-at)/5) + 0.1*(x-at) }
		got := find(f, -10, 10, 1e-6)
		if math.Abs(got-at) > 2e-6 {
			t.Fatalf("got %g, want %g", got, at)
		}
	})
}

// Near finds what Find finds, be the curve nearly straight, bent, cut off or
// without a zero.
func TestNearFindsWhatFindFinds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		at := rapid.Float64Range(-12, 12).Draw(t, "root")
		bend := rapid.Float64Range(0, 3).Draw(t, "bend")
		cliff := rapid.Float64Range(at, 13).Draw(t, "cliff")
		f := func(x float64) float64 {
			if x > cliff {
				return math.Inf(-1)
			}
			return (at - x) * math.Exp(bend*(x-at)/10)
		}
		a, b := rapid.Float64Range(-10, 10).Draw(t, "a"), rapid.Float64Range(-10, 10).Draw(t, "b")
		got := root.Near(f, -10, 10, a, f(a), b, f(b), 1e-7, 1e-6)
		if outside := at < -10 || at > 10; outside != math.IsNaN(got) {
			t.Fatalf("got %g for a root at %g", got, at)
		}
		if math.Abs(got-at) > 2e-6 {
			t.Fatalf("got %g, want %g", got, at)
		}
	})
}
