package chart

import "hotroom/cmd/internal/harmless"

// The room round a picture and between its parts, px.
const (
	edge    = 20.0
	gutter  = 14.0
	leading = 1.35 // from base line to base line, in em
)

// paragraph writes lines of text down from top and gives where they end.
func (s *sketch) paragraph(left, top float64, lines []string, like label) float64 {
	for _, line := range lines {
		top += like.px * leading
		like.at, like.text = point{left, top - like.px*(leading-1)}, line
		s.add(like)
	}
	return top
}

// heading writes title and subtitle and gives where they end.
func (s *sketch) heading(title, subtitle string) float64 {
	s.title = harmless.Text(title)
	width, y := s.width-2*edge, edge-4
	if s.title != "" {
		bold := func(text string) float64 { return textWidth(text, titlePx, true) }
		y = s.paragraph(edge, y, atMost(3, s.title, width, bold), label{px: titlePx, ink: text, bold: true})
	}
	if subtitle != "" {
		y = s.paragraph(edge, y+2, atMost(4, harmless.Text(subtitle), width, px(bodyPx)), label{px: bodyPx, ink: quiet})
	}
	return y + 6
}

// sample is one entry of the key: what is drawn, and what it means.
type sample struct {
	draw func(s *sketch, at point) // 26 px from at to the right, at mid height
	text string
}

const sampleWidth = 26.0

// key lays the samples out in rows and gives where they end.
func (s *sketch) key(top float64, samples []sample) float64 {
	x, y := edge, top+smallPx
	for _, entry := range samples {
		width := sampleWidth + 6 + textWidth(entry.text, smallPx, false)
		if x > edge && x+width > s.width-edge {
			x, y = edge, y+smallPx*1.6
		}
		entry.draw(s, point{x, y - smallPx*0.35})
		s.write(point{x + sampleWidth + 6, y}, entry.text, quiet, start)
		x += width + gutter
	}
	if len(samples) == 0 {
		return top
	}
	return y + 8
}

// noteLines wraps the notes under a picture; each begins on a line of its own.
func noteLines(notes []string, width float64) []string {
	var lines []string
	for _, note := range notes {
		lines = append(lines, wrap(harmless.Text(note), width, px(smallPx))...)
	}
	return lines
}

// notesHeight is the room that notes need, px.
func notesHeight(lines []string) float64 {
	if len(lines) == 0 {
		return edge * 0.6
	}
	return float64(len(lines))*smallPx*leading + gutter + edge*0.6
}

// notes writes the notes under a thin rule and ends the picture.
func (s *sketch) notes(top float64, lines []string) {
	s.height = top + notesHeight(lines)
	if len(lines) == 0 {
		return
	}
	s.line(faint, point{edge, top + gutter/2}, point{s.width - edge, top + gutter/2})
	s.paragraph(edge, top+gutter-2, lines, label{px: smallPx, ink: quiet})
}

// The lengths of ticks, px.
const (
	longTick  = 7.0
	shortTick = 4.0
)

// upright draws a ruler at x with its ticks to the left and guide lines to
// right.
func (s *sketch) upright(r ruler, x, right float64) {
	for _, v := range r.ticks() {
		y := r.at(v)
		s.line(faint, point{x, y}, point{right, y})
		s.line(quiet, point{x - longTick, y}, point{x, y})
		s.write(point{x - longTick - 4, y + smallPx*0.35}, r.label(v), quiet, end)
	}
	r.small(func(y float64) { s.line(quiet, point{x - shortTick, y}, point{x, y}) })
	s.line(quiet, point{x, r.first}, point{x, r.last})
}

// level draws a ruler at y with its ticks below, or above.
func (s *sketch) level(r ruler, y float64, above bool) {
	side, base := 1.0, longTick+smallPx+1
	if above {
		side, base = -1, -longTick-4
	}
	clear := 0.0
	for _, v := range r.ticks() {
		x := r.at(v)
		s.line(quiet, point{x, y}, point{x, y + side*longTick})
		l := label{at: point{x, y + base}, text: r.label(v), px: smallPx, ink: quiet, anchor: middle}
		half := textWidth(l.text, smallPx, false) / 2
		l.at.x = max(min(x, s.width-half-2), half+2)
		if l.bounds().left >= clear { // a label without room is left out
			s.add(l)
			clear = l.bounds().right + 2
		}
	}
	r.small(func(x float64) { s.line(quiet, point{x, y}, point{x, y + side*shortTick}) })
	s.line(quiet, point{r.first, y}, point{r.last, y})
}

// small visits the places of the short ticks, where they have room.
func (r ruler) small(visit func(place float64)) {
	n := int((r.to-r.from)/r.step+0.5) * r.parts
	gap := (r.last - r.first) / float64(n)
	if gap < 4 && gap > -4 {
		return
	}
	for i := range n {
		if i%r.parts != 0 {
			visit(r.first + gap*float64(i))
		}
	}
}

// ticksWide is the width of the widest label of a scale, px.
func (s scale) ticksWide() float64 {
	width := 0.0
	for _, v := range s.ticks() {
		width = max(width, textWidth(s.label(v), smallPx, false))
	}
	return width
}

// horizontal makes a scale whose labels keep apart on a length in px.
func horizontal(length float64, values ...float64) scale {
	for steps := int(length / 32); ; steps-- {
		s := nice(steps, values...)
		n := (s.to - s.from) / s.step
		if steps <= 2 || (s.ticksWide()+10)*n <= length {
			return s
		}
	}
}
