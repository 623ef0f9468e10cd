package chart

import "math"

// shape is the form of a point, so that no point is told by its colour alone.
type shape int

const (
	bullet shape = iota
	square
	triangle
	diamond
	shapes
)

// glyphs are the shapes on a terminal, full and hollow.
func (f shape) glyph(hollow bool) rune {
	if hollow {
		return [...]rune{'○', '□', '△', '◇'}[f%shapes]
	}
	return [...]rune{'●', '■', '▲', '◆'}[f%shapes]
}

// polygon gives the shape's corners; all shapes cover about the same area.
func (f shape) polygon(at point, r float64) []point {
	switch f % shapes {
	case square:
		s := r * 0.89
		return box{at.x - s, at.y - s, at.x + s, at.y + s}.corners()
	case triangle:
		h := r * 1.25
		return []point{{at.x, at.y - h}, {at.x + h*0.95, at.y + h*0.7}, {at.x - h*0.95, at.y + h*0.7}}
	case diamond:
		d := r * 1.28
		return []point{{at.x, at.y - d}, {at.x + d, at.y}, {at.x, at.y + d}, {at.x - d, at.y}}
	}
	return nil
}

// point draws a full shape with a thin edge of the ground round it.
func (s *sketch) point(f shape, at point, r float64, i ink) {
	s.form(f, at, r+1.3, paper)
	s.form(f, at, r, i)
}

// hollow draws the shape's edge only.
func (s *sketch) hollow(f shape, at point, r float64, i ink) {
	s.form(f, at, r+1, i)
	s.form(f, at, r-1, paper)
}

func (s *sketch) form(f shape, at point, r float64, i ink) {
	if polygon := f.polygon(at, r); polygon != nil {
		s.add(area{polygon, i})
		return
	}
	s.add(disc{at, r, i})
}

// cross draws an X.
func (s *sketch) cross(at point, r float64, i ink) {
	s.add(stroke{points: []point{{at.x - r, at.y - r}, {at.x + r, at.y + r}}, ink: i, width: 1.8})
	s.add(stroke{points: []point{{at.x - r, at.y + r}, {at.x + r, at.y - r}}, ink: i, width: 1.8})
}

// The hatching on the far side of a limit, px: as a section is hatched in a
// workshop drawing.
const (
	hatchEvery  = 9.0
	hatchAcross = 5.0
	hatchUp     = 6.0
)

// limit draws a limit from left to right, hatched above.
func (s *sketch) limit(points []point) {
	s.add(stroke{points: points, ink: wall, width: 1.8})
	next := hatchEvery / 2
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		long := math.Hypot(b.x-a.x, b.y-a.y)
		for ; next < long; next += hatchEvery {
			x, y := a.x+(b.x-a.x)*next/long, a.y+(b.y-a.y)*next/long
			s.line(wall, point{x, y}, point{x + hatchAcross, y - hatchUp})
		}
		next -= long
	}
}

// stop draws a limit across a row, hatched to the right.
func (s *sketch) stop(x, top, bottom float64) {
	s.add(stroke{points: []point{{x, top}, {x, bottom}}, ink: wall, width: 1.8})
	for y := top + 4; y <= bottom; y += 5 {
		s.line(wall, point{x, y}, point{x + 4, y - 4})
	}
}
