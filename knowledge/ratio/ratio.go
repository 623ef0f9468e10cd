// Package ratio says how many times as long one piece of work takes as another,
// for tests: times differ from machine to machine, ratios hardly do.
package ratio

import (
	"os"
	"slices"
	"testing"
	"time"
)

// Asked is the environment variable that must be set for ratios to be measured:
// it takes a while, and a machine with little else to do.
const Asked = "HOTROOM_RATIOS"

// Skip skips a test that measures ratios unless they are asked for.
func Skip(t *testing.T) {
	t.Helper()
	if os.Getenv(Asked) == "" {
		t.Skip("SKIPPED, NOT MEASURED: it needs a quiet processor; set " + Asked + "=1")
	}
}

// The runs of each work are as long as this, and as many.
const (
	span   = 20 * time.Millisecond
	rounds = 15
)

// Of gives the time of a over that of b: the median of paired runs.
func Of(a, b func()) float64 {
	times := func(work func()) int {
		for n := 1; ; n *= 2 {
			if took(n, work) >= span {
				return n
			}
		}
	}
	na, nb := times(a), times(b)
	ratios := make([]float64, rounds)
	for i := range ratios {
		ratios[i] = took(na, a).Seconds() / float64(na) / (took(nb, b).Seconds() / float64(nb))
	}
	slices.Sort(ratios)
	return ratios[rounds/2]
}

func took(n int, work func()) time.Duration {
	began := time.Now()
	for range n {
		work()
	}
	return time.Since(began)
}

// AtMost fails the test where a ratio is above a bound, and says it in any case.
func AtMost(t *testing.T, what string, got, bound float64) {
	t.Helper()
	t.Logf("%-60s %8.2f (at most %g)", what, got, bound)
	if got > bound {
		t.Errorf("%s: %.2f, and at most %g is wanted", what, got, bound)
	}
}

// AtLeast fails the test where a ratio is below a bound, and says it in any
// case.
func AtLeast(t *testing.T, what string, got, bound float64) {
	t.Helper()
	t.Logf("%-60s %8.2f (at least %g)", what, got, bound)
	if got < bound {
		t.Errorf("%s: %.2f, and at least %g is wanted", what, got, bound)
	}
}
