package chart

import (
	"cmp"
	"io"
	"slices"
)

// Sweep is a line of the expected hot spot along an axis such as the room
// temperature or the package power, with its 90 % interval, its limit, and the
// clock that is held.
type Sweep struct {
	Title    string
	Subtitle string
	X        Axis // of SweepPoint.X
	Y        Axis // of the hot spot and its limit; "hot spot, °C" when empty
	Clock    Axis // of SweepPoint.Clock; "held clock, GHz" when empty
	Points   []SweepPoint
	Runs     []SweepRun
	UsedUp   *float64 // where on X no margin is kept any more, in its unit; nil: nowhere
	Notes    []string // lines below the picture
	Width    float64  // px; 760 when 0, at least 420
	Height   float64  // px; 500 when 0; the picture grows when its words need more
}

// SweepPoint is one step of a sweep. Expected is NaN where the board cannot
// settle; the chart says so.
type SweepPoint struct {
	X        float64 // in the unit of Sweep.X
	Expected float64 // hot spot, in the unit of Sweep.Y
	Low      float64 // lower end of the 90 % interval
	High     float64 // upper end of the 90 % interval
	Limit    float64 // NaN: none is known
	Clock    float64 // in the unit of Sweep.Clock; NaN: not known
}

// SweepRun is a measured run on the same board.
type SweepRun struct {
	Label string
	X     float64 // in the unit of Sweep.X
	Y     float64 // measured hot spot, in the unit of Sweep.Y
}

// SVG writes the chart as a picture that needs nothing but itself.
func (s Sweep) SVG(w io.Writer) error { return s.tidy().draw().writeSVG(w) }

// PNG writes the chart in its light colours, two dots a px.
func (s Sweep) PNG(w io.Writer) error { return s.tidy().draw().writePNG(w) }

// tidy fills in names, orders the points and leaves out what has no place.
func (s Sweep) tidy() Sweep {
	s.X = s.X.or("x", "")
	s.Y = s.Y.or("hot spot", "°C")
	s.Clock = s.Clock.or("held clock", "GHz")
	s.Points = slices.DeleteFunc(slices.Clone(s.Points), func(p SweepPoint) bool { return !there(p.X) })
	slices.SortStableFunc(s.Points, func(a, b SweepPoint) int { return cmp.Compare(a.X, b.X) })
	s.Runs = slices.DeleteFunc(slices.Clone(s.Runs), func(r SweepRun) bool { return !there(r.X) || !there(r.Y) })
	if s.UsedUp != nil && !there(*s.UsedUp) {
		s.UsedUp = nil
	}
	return s
}

// along gives the values of the X axis that must be seen.
func (s Sweep) along() []float64 {
	var list []float64
	for _, p := range s.Points {
		list = append(list, p.X)
	}
	for _, r := range s.Runs {
		list = append(list, r.X)
	}
	return list
}

// across gives the values of the Y axis that must be seen.
func (s Sweep) across() []float64 {
	var list []float64
	for _, p := range s.Points {
		list = append(list, p.Expected, p.Limit)
		if p.banded() {
			list = append(list, p.Low, p.High)
		}
	}
	for _, r := range s.Runs {
		list = append(list, r.Y)
	}
	return present(list...)
}

// clocks gives the held clocks.
func (s Sweep) clocks() []float64 {
	var list []float64
	for _, p := range s.Points {
		list = append(list, p.Clock)
	}
	return present(list...)
}

// limits gives the limits.
func (s Sweep) limits() []float64 {
	var list []float64
	for _, p := range s.Points {
		list = append(list, p.Limit)
	}
	return present(list...)
}

// marksUsedUp reports whether the end of the margin lies among the steps.
func (s Sweep) marksUsedUp() bool {
	along := s.along()
	return s.UsedUp != nil && len(along) > 0 && *s.UsedUp >= slices.Min(along) && *s.UsedUp <= slices.Max(along)
}

// banded reports whether a step has an expected value with an interval.
func (p SweepPoint) banded() bool { return there(p.Expected) && there(p.Low) && there(p.High) }

// unsettled counts the steps without a value.
func (s Sweep) unsettled() int {
	n := 0
	for _, p := range s.Points {
		if !there(p.Expected) {
			n++
		}
	}
	return n
}

// stretches gives the runs of neighbouring steps that fulfil a condition, as
// index ranges from first to last.
func (s Sweep) stretches(of func(SweepPoint) bool) [][2]int {
	var list [][2]int
	for i, p := range s.Points {
		switch n := len(list); {
		case !of(p):
		case n > 0 && list[n-1][1] == i-1:
			list[n-1][1] = i
		default:
			list = append(list, [2]int{i, i})
		}
	}
	return list
}
