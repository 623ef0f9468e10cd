package chart

import "strings"

// Text gives the chart for a terminal of so many columns (40 to 200); plain,
// it says everything in words, a line a point.
func (s Scatter) Text(width int, plain bool) string {
	s = s.tidy()
	p := titled(width, s.Title, s.Subtitle)
	if plain || len(s.drawn()) == 0 {
		p.say(s.words()...)
		return p.String()
	}
	p.gap()
	p.put(fitted("measured "+s.Value.label(), p.width))
	a, g := s.cells(p.width)
	s.fill(a, g)
	a.write(p, g)
	p.put(flushed("predicted "+s.Value.label(), p.width))
	p.gap()
	p.say(s.legend())
	p.say(s.summary()[0])
	p.say(s.outsideNotes()...)
	p.say(s.Notes...)
	return p.String()
}

// cells lays a grid out that looks about square: a cell is twice as high as
// wide.
func (s Scatter) cells(width int) (axes, *grid) {
	high := min(max(width/3, 15), 30)
	both := spaced(width-10, s.values()...)
	margin := both.widest() + 2
	wide := min(width-margin, high*5/2)
	return axes{
		margin: margin,
		y:      ruler{both, float64(high - 1), 0},
		x:      ruler{both, 0, float64(wide - 1)},
	}, newGrid(wide, high)
}

// fill draws points over bars over the diagonal.
func (s Scatter) fill(a axes, g *grid) {
	words := s.evidence()
	for _, missed := range []bool{true, false} { // a miss is never hidden
		for _, q := range s.drawn() {
			if q.outside() == missed {
				g.under(a.x.cell(q.Predicted), a.y.cell(q.Measured), shapeOf(words, q.Evidence).glyph(q.outside()))
			}
		}
	}
	for _, q := range s.drawn() {
		if q.barred() {
			for y := a.y.cell(q.High); y <= a.y.cell(q.Low); y++ {
				g.under(a.x.cell(q.Predicted), y, '│')
			}
		}
	}
	g.trace(a.at(a.x.from, a.y.from), a.at(a.x.to, a.y.to), 2)
}

// legend names the signs that were drawn.
func (s Scatter) legend() string {
	var list []string
	words := s.evidence()
	for _, word := range words {
		list = append(list, sign(string(shapeOf(words, word).glyph(false)), word))
	}
	if s.judged() > 0 {
		list = append(list, sign("│", "90 % interval"))
	}
	if len(s.outside()) > 0 {
		list = append(list, sign("○□△◇", "outside its interval"))
	}
	return strings.Join(append(list, sign("⠔", "measured as predicted")), "  ")
}
