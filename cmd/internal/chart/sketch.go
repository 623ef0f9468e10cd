package chart

// point is a place on the picture, px, from the top left.
type point struct{ x, y float64 }

// box is a rectangle on the picture, px.
type box struct{ left, top, right, bottom float64 }

func (b box) corners() []point {
	return []point{{b.left, b.top}, {b.right, b.top}, {b.right, b.bottom}, {b.left, b.bottom}}
}

func (b box) touches(o box) bool {
	return b.left < o.right && o.left < b.right && b.top < o.bottom && o.top < b.bottom
}

// within reports whether a box lies inside another one.
func (b box) within(o box) bool {
	return b.left >= o.left && b.right <= o.right && b.top >= o.top && b.bottom <= o.bottom
}

// mark is anything drawn; SVG and PNG draw the same marks.
type mark interface {
	svg(*svgWriter)
	paint(*painter)
}

// sketch is a picture before it becomes SVG or PNG.
type sketch struct {
	title, description string
	width, height      float64 // px
	marks              []mark
}

func (s *sketch) add(marks ...mark) { s.marks = append(s.marks, marks...) }

// stroke is a line through points.
type stroke struct {
	points []point
	ink    ink
	width  float64 // px
	dash   dash
}

// area is a filled polygon.
type area struct {
	points []point
	ink    ink
}

// disc is a filled circle.
type disc struct {
	centre point
	radius float64 // px
	ink    ink
}

// label is one line of text; at is the start, middle or end of its base line.
type label struct {
	at     point
	text   string
	px     float64 // size
	ink    ink
	bold   bool
	anchor anchor
}

type anchor int

const (
	start anchor = iota
	middle
	end
)

// The part of a line of text above and below its base line, in em.
const (
	ascent  = 0.8
	descent = 0.25
)

// bounds gives the room that a label may take.
func (l label) bounds() box {
	width := textWidth(l.text, l.px, l.bold)
	left := l.at.x - width*float64(l.anchor)/2
	return box{left, l.at.y - ascent*l.px, left + width, l.at.y + descent*l.px}
}

// line draws a thin unbroken line.
func (s *sketch) line(i ink, points ...point) {
	s.add(stroke{points: points, ink: i, width: 1})
}

// The sizes of letters, px.
const (
	titlePx = 17
	bodyPx  = 12.5
	smallPx = 11
)

// write writes small text.
func (s *sketch) write(at point, text string, i ink, a anchor) {
	s.add(label{at: at, text: text, px: smallPx, ink: i, anchor: a})
}

// plaque writes small text on a piece of ground of its own, over other marks.
func (s *sketch) plaque(l label) {
	b := l.bounds()
	s.add(area{box{b.left - 2, b.top - 1, b.right + 2, b.bottom + 1}.corners(), paper}, l)
}
