package chart

import (
	"slices"
	"strings"
)

// The rows of a round, px.
const (
	rowHeight   = 27.0
	lineHeight  = bodyPx * 1.25
	columnGap   = 16.0
	bulb        = 4.6 // radius of the hot spot
	nameShare   = 0.26
	outcomeWide = 112.0 // at most
	leastScale  = 130.0 // length of the scale
	manyRows    = 18    // from here on the scale stands at the foot too
)

// sheet is where the parts of a round stand, px.
type sheet struct {
	*sketch
	Round
	scale    ruler
	names    [][]string // each row's name in lines
	figures  []figure
	right    []float64 // right ends of the figures
	outcomes float64   // left end of the outcomes
}

// draw lays a tidy round out.
func (r Round) draw() *sketch {
	k := &sketch{width: size(r.Width, 900, 720), description: strings.Join(r.words(), " ")}
	p := r.sheet(k) // first: it may widen the picture
	top := p.head(k.key(k.heading(r.Title, r.Subtitle), r.samples()) + 6)
	y := top
	for i := range r.Rows {
		y = p.row(i, y)
	}
	p.guides(top, y)
	if len(r.Rows) >= manyRows {
		p.level(p.scale, y, false)
		y += longTick + smallPx + 4
	}
	k.notes(y+4, noteLines(slices.Concat(r.footnotes(), r.Notes), k.width-2*edge))
	return k
}

// sheet shares the width out: names, scale, figures, outcomes. It widens the
// picture when the scale would be left with too little.
func (r Round) sheet(k *sketch) sheet {
	p := sheet{sketch: k, Round: r, figures: r.figures()}
	widest := textWidth("board", smallPx, false)
	for _, row := range r.Rows {
		lines := atMost(3, row.Name, k.width*nameShare, px(bodyPx))
		for _, line := range lines {
			widest = max(widest, textWidth(line, bodyPx, false))
		}
		p.names = append(p.names, lines)
	}
	p.outcomes = k.width - edge - r.outcomeWidth()
	x := p.outcomes - columnGap
	p.right = make([]float64, len(p.figures))
	for i := len(p.figures) - 1; i >= 0; i-- {
		p.right[i] = x
		x -= p.figures[i].width() + columnGap
	}
	left := edge + widest + columnGap
	lay := horizontal(x-left-8, r.values()...)
	over := max(0, lay.ticksWide()/2-columnGap/2) // labels reach past both ends
	p.scale = ruler{lay, left + over, x - 8 - over}
	if short := leastScale - (p.scale.last - p.scale.first); short > 0 {
		k.width += 1 + short/(1-nameShare)
		return r.sheet(k)
	}
	return p
}

// width is the room that a column needs, px; its head wraps between words.
func (f figure) width() float64 {
	width := 38.0
	for _, cell := range f.cells {
		width = max(width, textWidth(cell, bodyPx, false))
	}
	for _, word := range strings.Fields(f.axis.Name) {
		width = max(width, textWidth(word, smallPx, false)-columnGap+6)
	}
	return min(width, 90)
}

// outcomeWidth is the room that the outcomes need, px.
func (r Round) outcomeWidth() float64 {
	width := textWidth("outcome", smallPx, false)
	for _, row := range r.Rows {
		width = max(width, textWidth(row.Outcome+r.mark(row), bodyPx, false))
	}
	return min(width, outcomeWide)
}

// head writes the names of the columns and the scale, and gives where the rows
// begin.
func (p sheet) head(top float64) float64 {
	var heads [][]string
	most := 2
	for _, f := range p.figures {
		room := f.width() + columnGap - 6
		lines := append(atMost(3, f.axis.Name, room, px(smallPx)), clipped(f.axis.Unit, room))
		heads = append(heads, lines)
		most = max(most, len(lines))
	}
	base := top + float64(most)*smallPx*leading
	for i, lines := range heads {
		for n, line := range lines {
			y := base - float64(len(lines)-1-n)*smallPx*leading
			p.write(point{p.right[i], y}, line, quiet, end)
		}
	}
	p.write(point{edge, base}, "board", quiet, start)
	p.write(point{p.outcomes, base}, "outcome", quiet, start)
	p.write(point{p.scale.first, base - longTick - 2*smallPx}, clipped(p.HotSpot.label(), p.scale.last-p.scale.first), text, start)
	p.level(p.scale, base+6, true)
	p.line(quiet, point{edge, base + 6}, point{p.width - edge, base + 6})
	return base + 6
}

// clipped shortens a small text to a width in px.
func clipped(words string, width float64) string { return atMost(1, words, width, px(smallPx))[0] }

// guides draws the scale's lines through the rows.
func (p sheet) guides(top, bottom float64) {
	var lines []mark
	for _, v := range p.scale.ticks() {
		x := p.scale.at(v)
		lines = append(lines, stroke{points: []point{{x, top}, {x, bottom}}, ink: faint, width: 1})
	}
	p.marks = append(lines, p.marks...)
}

// row draws one board and gives where its row ends.
func (p sheet) row(i int, top float64) float64 {
	row := p.Rows[i]
	outcome := atMost(3, row.Outcome+p.mark(row), outcomeWide, px(bodyPx))
	lines := max(len(p.names[i]), len(outcome))
	bottom := top + rowHeight + float64(lines-1)*lineHeight
	centre := (top + bottom) / 2
	p.stack(point{edge, centre}, p.names[i], text, start)
	p.stack(point{p.outcomes, centre}, outcome, outcomeInk(row), start)
	for n, f := range p.figures {
		p.stack(point{p.right[n], centre}, []string{f.cells[i]}, text, end)
	}
	p.way(row, centre)
	p.line(faint, point{edge, bottom}, point{p.width - edge, bottom})
	return bottom
}

// stack writes lines round a middle.
func (p sheet) stack(at point, lines []string, i ink, a anchor) {
	y := at.y - float64(len(lines)-1)*lineHeight/2 + bodyPx*0.36
	for n, line := range lines {
		p.add(label{at: point{at.x, y + float64(n)*lineHeight}, text: line, px: bodyPx, ink: i, anchor: a})
	}
}

func outcomeInk(row RoundRow) ink {
	if row.Outcome == Settled {
		return text
	}
	return alarm
}

// way draws the line from the room to the hot spot, and the limit.
func (p sheet) way(row RoundRow, y float64) {
	if there(row.Limit) {
		p.stop(p.scale.at(row.Limit), y-9, y+9)
	}
	if !there(row.HotSpot) {
		p.absent(row, y)
		return
	}
	hot := point{p.scale.at(row.HotSpot), y}
	if there(row.Room) {
		room := point{p.scale.at(row.Room), y}
		p.add(stroke{points: []point{room, hot}, ink: course, width: 3, dash: stemDash(row.Outcome)})
		p.line(course, point{room.x, y - 5}, point{room.x, y + 5})
	}
	p.end(row.Outcome, hot)
}

// absent marks a row without a temperature; the words stand on the side of the
// limit that has room for them.
func (p sheet) absent(row RoundRow, y float64) {
	const words = "no temperature"
	p.cross(point{p.scale.first + 6, y}, 3.6, alarm)
	left, right := p.scale.first+14, p.scale.last
	if there(row.Limit) {
		limit := p.scale.at(row.Limit)
		if limit-left > right-limit {
			right = limit - 4
		} else {
			left = limit + 8
		}
	}
	if textWidth(words, smallPx, false) <= right-left {
		p.write(point{left, y + smallPx*0.36}, words, alarm, start)
	}
}

// stemDash breaks the line of a run that did not hold its clock.
func stemDash(outcome string) dash {
	if outcome == Settled {
		return unbroken
	}
	return dashed
}

// end draws the hot spot in the form of its outcome.
func (s *sketch) end(outcome string, at point) {
	switch outcome {
	case Settled:
		s.point(bullet, at, bulb, course)
	case Throttled:
		s.point(diamond, at, bulb, alarm)
	case Crashed:
		s.cross(at, bulb, alarm)
	default:
		s.hollow(bullet, at, bulb, alarm)
	}
}
