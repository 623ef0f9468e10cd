package chart

import (
	"cmp"
	"io"
	"slices"

	"hotroom/cmd/internal/harmless"
)

// Scatter holds measured against predicted values: each point stands at what
// was measured, over a bar from the lower to the upper end of the 90 % interval
// that was predicted, so that a point off its bar is one that the prediction
// missed.
type Scatter struct {
	Title    string
	Subtitle string
	Value    Axis // of all numbers; "hot spot, °C" when empty
	Points   []ScatterPoint
	Notes    []string // lines below the picture
	Width    float64  // px; 620 when 0, at least 420; the field is a square
}

// ScatterPoint is one prediction and what was measured, in the unit of
// Scatter.Value. A point without either number is counted and not drawn.
type ScatterPoint struct {
	Label     string
	Predicted float64
	Low       float64 // lower end of the 90 % interval; NaN: none was given
	High      float64 // upper end of the 90 % interval; NaN: none was given
	Measured  float64
	Evidence  string // the word for what the prediction rested on; each has its shape
}

// SVG writes the chart as a picture that needs nothing but itself.
func (s Scatter) SVG(w io.Writer) error { return s.tidy().draw().writeSVG(w) }

// PNG writes the chart in its light colours, two dots a px.
func (s Scatter) PNG(w io.Writer) error { return s.tidy().draw().writePNG(w) }

// tidy fills in names and makes the points' texts harmless.
func (s Scatter) tidy() Scatter {
	s.Value = s.Value.or("hot spot", "°C")
	s.Points = slices.Clone(s.Points)
	for i := range s.Points {
		p := &s.Points[i]
		p.Label = cmp.Or(harmless.Text(p.Label), "unnamed")
		p.Evidence = cmp.Or(harmless.Text(p.Evidence), "prediction")
	}
	return s
}

func (p ScatterPoint) drawn() bool  { return there(p.Predicted) && there(p.Measured) }
func (p ScatterPoint) barred() bool { return there(p.Low) && there(p.High) }

// outside reports whether a measured value is off its interval.
func (p ScatterPoint) outside() bool {
	return p.drawn() && p.barred() && (p.Measured < p.Low || p.Measured > p.High)
}

// drawn gives the points that have a place.
func (s Scatter) drawn() []ScatterPoint {
	return slices.DeleteFunc(slices.Clone(s.Points), func(p ScatterPoint) bool { return !p.drawn() })
}

// outside gives the points off their intervals, in the caller's order.
func (s Scatter) outside() []ScatterPoint {
	return slices.DeleteFunc(s.drawn(), func(p ScatterPoint) bool { return !p.outside() })
}

// judged counts the points that have an interval to be judged by.
func (s Scatter) judged() int {
	n := 0
	for _, p := range s.drawn() {
		if p.barred() {
			n++
		}
	}
	return n
}

// evidence lists the words in the order of their shapes: the alphabet's.
func (s Scatter) evidence() []string {
	var list []string
	for _, p := range s.drawn() {
		list = append(list, p.Evidence)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// values gives everything that must be seen.
func (s Scatter) values() []float64 {
	var list []float64
	for _, p := range s.drawn() {
		list = append(list, p.Predicted, p.Measured)
		if p.barred() {
			list = append(list, p.Low, p.High)
		}
	}
	return list
}

func shapeOf(words []string, word string) shape {
	return shape(slices.Index(words, word)) % shapes
}
