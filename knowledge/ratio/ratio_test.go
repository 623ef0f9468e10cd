package ratio

import (
	"math"
	"testing"
)

// The same work done three times takes about three times as long; the bounds
// are wide, since the machine may be busy.
func TestOf(t *testing.T) {
	x := 0.0
	once := func() {
		for i := range 2000 {
			x += math.Sqrt(float64(i))
		}
	}
	thrice := func() { once(); once(); once() }
	if got := Of(thrice, once); got < 2 || got > 4.5 {
		t.Errorf("three times the work takes %.2f times as long", got)
	}
	if math.IsNaN(x) {
		t.Error("not a number")
	}
}
