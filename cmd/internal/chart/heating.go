package chart

import (
	"cmp"
	"io"
	"slices"
)

// Heating is a measured warming under load with the curve that was fitted to
// it, what the curve leaves, where it ends, and where the chip throttled.
type Heating struct {
	Title    string
	Subtitle string
	X        Axis // of HeatingPoint.X; "time under load, min" when empty
	Y        Axis // of the rise; "rise over the room, K" when empty
	Points   []HeatingPoint
	Final    *float64     // where the curve ends, in the unit of Y; nil: not known
	Events   [][2]float64 // stretches of throttling, from and to, in the unit of X
	Notes    []string     // lines below the picture
	Width    float64      // px; 760 when 0, at least 420
	Height   float64      // px; 520 when 0; the picture grows when its words need more
}

// HeatingPoint is one reading, or the mean of some.
type HeatingPoint struct {
	X        float64 // in the unit of Heating.X
	Measured float64 // in the unit of Heating.Y
	Fitted   float64 // the same on the curve; NaN: no curve there
}

// SVG writes the chart as a picture that needs nothing but itself.
func (h Heating) SVG(w io.Writer) error { return h.tidy().draw().writeSVG(w) }

// PNG writes the chart in its light colours, two dots a px.
func (h Heating) PNG(w io.Writer) error { return h.tidy().draw().writePNG(w) }

// tidy fills in names, orders the points and leaves out what has no place.
func (h Heating) tidy() Heating {
	h.X = h.X.or("time under load", "min")
	h.Y = h.Y.or("rise over the room", "K")
	h.Points = slices.DeleteFunc(slices.Clone(h.Points), func(p HeatingPoint) bool { return !there(p.X) || !there(p.Measured) })
	slices.SortStableFunc(h.Points, func(a, b HeatingPoint) int { return cmp.Compare(a.X, b.X) })
	h.Events = slices.DeleteFunc(slices.Clone(h.Events), func(e [2]float64) bool { return !there(e[0]) || !there(e[1]) || e[1] < e[0] })
	if h.Final != nil && !there(*h.Final) {
		h.Final = nil
	}
	return h
}

func (h Heating) along() []float64 {
	var list []float64
	for _, p := range h.Points {
		list = append(list, p.X)
	}
	return list
}

func (h Heating) across() []float64 {
	var list []float64
	for _, p := range h.Points {
		list = append(list, p.Measured, p.Fitted)
	}
	if h.Final != nil {
		list = append(list, *h.Final)
	}
	return present(list...)
}

func (p HeatingPoint) fitted() bool { return there(p.Fitted) }

// left gives what the curve leaves of a reading.
func (p HeatingPoint) left() float64 { return p.Measured - p.Fitted }

// fits gives the points with a curve at them.
func (h Heating) fits() []HeatingPoint {
	return slices.DeleteFunc(slices.Clone(h.Points), func(p HeatingPoint) bool { return !p.fitted() })
}

// residuals gives what the curve leaves, and 0, which must be seen.
func (h Heating) residuals() []float64 {
	list := []float64{0}
	for _, p := range h.fits() {
		list = append(list, p.left())
	}
	return list
}
