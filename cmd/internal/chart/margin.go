package chart

import (
	"io"
	"math"
)

// Margin is one answer drawn to scale: the way from the room over the hot spot
// with its 90 % interval to the limit. Temperatures are in °C; NaN is a value
// that is not there, and without an expected one the board cannot settle.
type Margin struct {
	Title    string
	Subtitle string
	Room     float64
	Expected float64 // hot spot
	Low      float64 // lower end of the 90 % interval
	High     float64 // upper end of the 90 % interval
	Limit    float64
	From, To float64  // least that the scale covers, so that several have the same; both 0: no matter
	Notes    []string // lines below the picture
	Width    float64  // px; 640 when 0, at least 280
	Height   float64  // px; the picture grows when its words need more
}

// SVG writes the picture, which needs nothing but itself.
func (m Margin) SVG(w io.Writer) error { return m.draw().writeSVG(w) }

// PNG writes the picture in its light colours, two dots a px.
func (m Margin) PNG(w io.Writer) error { return m.draw().writePNG(w) }

// Inset writes the scale alone, to stand inside a page that carries StyleSheet.
func (m Margin) Inset(w io.Writer) error {
	k := m.sketch()
	k.height = m.scale(k, 0)
	return k.writeInset(w)
}

func (m Margin) sketch() *sketch {
	return &sketch{width: size(m.Width, 640, 280), description: m.words()}
}

func (m Margin) draw() *sketch {
	k := m.sketch()
	bottom := m.scale(k, k.heading(m.Title, m.Subtitle))
	lines := noteLines(m.Notes, k.width-2*edge)
	k.notes(max(bottom, min(size(m.Height, 0, 0), 4000)-notesHeight(lines)), lines)
	return k
}

// settles reports whether there is a hot spot to draw.
func (m Margin) settles() bool { return there(m.Expected) && there(m.Low) && there(m.High) }

// values are the temperatures that must be seen.
func (m Margin) values() []float64 {
	list := present(m.Room, m.Limit)
	if m.settles() {
		list = append(list, m.Low, m.Expected, m.High)
	}
	if m.From != m.To {
		list = append(list, present(m.From, m.To)...)
	}
	return list
}

// words says what the picture shows.
func (m Margin) words() string {
	text := ""
	if there(m.Room) {
		text = "The room is at " + degrees(m.Room) + ". "
	}
	if m.settles() {
		text += "The hot spot is expected at " + degrees(m.Expected) + ", 90 % between " + digits(m.Low, 0) + " and " + degrees(m.High) + ". "
	} else {
		text += "The board cannot settle: it gets hotter without end. "
	}
	if there(m.Limit) {
		text += "The limit is " + degrees(m.Limit) + ". "
		if m.settles() {
			text += "At 95 % confidence: " + m.kept() + "."
		}
	}
	return text
}

// kept says how much of the way to the limit can be counted on. The upper end
// of a 90 % interval is passed one time in twenty.
func (m Margin) kept() string {
	left := m.Limit - m.High
	if math.Round(left) < 0 {
		return "up to " + degrees(-left) + " over"
	}
	return degrees(left) + " kept"
}

func degrees(v float64) string { return join(digits(v, 0), "°C") }
