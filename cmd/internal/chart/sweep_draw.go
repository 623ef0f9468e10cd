package chart

import (
	"slices"
	"strconv"
	"strings"
)

// plot is the field that a sweep is drawn on.
type plot struct {
	*sketch
	x, y ruler
	placer
}

const clockPanel = 76.0 // height of the panel of held clocks, px

// draw lays a tidy sweep out.
func (s Sweep) draw() *sketch {
	k := &sketch{width: size(s.Width, 760, 420), description: strings.Join(s.words(), " ")}
	top := k.key(k.heading(s.Title, s.Subtitle), s.samples()) + smallPx + gutter + 6
	notes := noteLines(slices.Concat(s.someRuns(), s.beyond(), s.Notes), k.width-2*edge)
	below := longTick + 2*smallPx + gutter
	if len(s.clocks()) > 0 {
		below += clockPanel
	}
	bottom := max(top+180, size(s.Height, 500, 300)-notesHeight(notes)-below)
	p := s.field(k, top, bottom)
	s.drawField(p)
	foot := s.drawClock(p, bottom)
	k.level(p.x, foot, false)
	k.write(point{p.x.last, foot + longTick + 2*smallPx + 6}, clipped(s.X.label(), p.x.last-p.x.first), text, end)
	k.notes(foot+longTick+2*smallPx+6, notes)
	return k
}

// field sets the rulers up; labels decide where the field begins.
func (s Sweep) field(k *sketch, top, bottom float64) plot {
	values := s.across()
	if limits := s.limits(); len(limits) > 0 { // room for the limit's hatching and words
		highest := slices.Max(limits)
		values = append(values, highest+(highest-slices.Min(values))*0.08)
	}
	up := nice(int((bottom-top)/34), values...)
	left := edge + max(up.ticksWide(), nice(2, s.clocks()...).ticksWide()) + longTick + 4
	right := k.width - edge - 8
	return plot{
		sketch: k,
		y:      ruler{up, bottom, top},
		x:      ruler{horizontal(right-left, s.along()...), left, right},
		placer: placer{frame: box{left, top, right, bottom}},
	}
}

// drawField draws everything on the field, what lies behind first.
func (s Sweep) drawField(p plot) {
	s.drawGaps(p)
	s.drawBand(p)
	if len(s.across()) > 0 {
		p.upright(p.y, p.x.first, p.x.last)
	}
	p.write(point{edge, p.y.last - gutter}, clipped(s.Y.label(), p.x.last-edge), text, start)
	s.drawLimit(p)
	s.drawCourse(p)
	s.drawUsedUp(p)
	s.drawRuns(p)
}

func (p plot) at(x, y float64) point { return point{p.x.at(x), p.y.at(y)} }

// reach gives how far a stretch without values goes, halfway to its neighbours.
func (s Sweep) reach(p plot, r [2]int) (left, right float64) {
	left, right = p.x.at(s.Points[r[0]].X), p.x.at(s.Points[r[1]].X)
	if r[0] > 0 {
		left = (left + p.x.at(s.Points[r[0]-1].X)) / 2
	}
	if r[1] < len(s.Points)-1 {
		right = (right + p.x.at(s.Points[r[1]+1].X)) / 2
	}
	return left, max(right, left+3)
}

// drawGaps marks where the board cannot settle: another ground, a cross at each
// step, and the words where they fit.
func (s Sweep) drawGaps(p plot) {
	for _, r := range s.stretches(func(q SweepPoint) bool { return !there(q.Expected) }) {
		left, right := s.reach(p, r)
		p.add(area{box{left, p.y.last, right, p.y.first}.corners(), blank})
		for _, q := range s.Points[r[0] : r[1]+1] {
			p.cross(point{p.x.at(q.X), p.y.first - 9}, 3.2, alarm)
		}
		if textWidth(cannotSettle, smallPx, false) < right-left-8 {
			p.write(point{(left + right) / 2, p.y.first - 20}, cannotSettle, alarm, middle)
		}
	}
}

func (s Sweep) drawBand(p plot) {
	for _, r := range s.stretches(SweepPoint.banded) {
		var upper, lower []point
		for _, q := range s.Points[r[0] : r[1]+1] {
			upper = append(upper, p.at(q.X, q.High))
			lower = append(lower, p.at(q.X, q.Low))
		}
		slices.Reverse(lower)
		p.add(area{append(upper, lower...), spread90})
	}
}

func (s Sweep) drawLimit(p plot) {
	stretches := s.stretches(func(q SweepPoint) bool { return there(q.Limit) })
	for i, r := range stretches {
		var line []point
		for _, q := range s.Points[r[0] : r[1]+1] {
			line = append(line, p.at(q.X, q.Limit))
		}
		if len(line) == 1 { // one step alone still shows
			line = []point{{line[0].x - 6, line[0].y}, {line[0].x + 6, line[0].y}}
		}
		p.limit(line)
		if i == 0 {
			at := point{p.x.first + 6, line[0].y - hatchUp - 5}
			p.plaque(label{at: at, text: clipped(s.limitWords(), p.x.last-at.x), px: smallPx, ink: wall})
		}
	}
}

func (s Sweep) drawCourse(p plot) {
	for _, r := range s.stretches(func(q SweepPoint) bool { return there(q.Expected) }) {
		var line []point
		for _, q := range s.Points[r[0] : r[1]+1] {
			line = append(line, p.at(q.X, q.Expected))
		}
		if len(line) == 1 {
			p.add(disc{line[0], 2.5, course})
			continue
		}
		p.add(stroke{points: line, ink: course, width: 2.2})
	}
}

// drawUsedUp marks the end of the kept margin with a line and a pointer at the
// foot; its words stand on the side with more room.
func (s Sweep) drawUsedUp(p plot) {
	if !s.marksUsedUp() {
		return
	}
	x := p.x.at(*s.UsedUp)
	p.add(stroke{points: []point{{x, p.y.last}, {x, p.y.first}}, ink: wall, width: 1.3, dash: dashDotted})
	p.add(area{[]point{{x, p.y.first - 8}, {x + 5, p.y.first}, {x - 5, p.y.first}}, wall})
	l := label{at: point{x - 8, p.y.first - 32}, px: smallPx, ink: wall, anchor: end}
	if x-p.x.first < p.x.last-x {
		l.at.x, l.anchor = x+8, start
	}
	width := max(x-p.x.first, p.x.last-x) - 8
	l.text = s.usedUpWords()
	if textWidth(l.text, smallPx, false) > width { // the key says what it is
		l.text = clipped("at "+s.usedUpAt(), width)
	}
	p.plaque(l)
}

func (s Sweep) drawRuns(p plot) {
	for _, r := range s.Runs {
		p.take(p.at(r.X, r.Y), 6)
	}
	s.keepClear(&p)
	for i, r := range s.Runs {
		at := p.at(r.X, r.Y)
		p.point(diamond, at, 4, text)
		if l, ok := p.beside(at, strconv.Itoa(i+1), 6); ok && i < listed {
			p.add(l)
		}
	}
}

// keepClear keeps labels off the expected line and the end of the margin.
func (s Sweep) keepClear(p *plot) {
	for i, b := range s.Points {
		if i == 0 || !there(b.Expected) || !there(s.Points[i-1].Expected) {
			continue
		}
		from, to := p.at(s.Points[i-1].X, s.Points[i-1].Expected), p.at(b.X, b.Expected)
		for part := range 8 {
			t := (float64(part) + 0.5) / 8
			p.take(point{from.x + (to.x-from.x)*t, from.y + (to.y-from.y)*t}, 2)
		}
	}
	if s.marksUsedUp() {
		x := p.x.at(*s.UsedUp)
		p.taken = append(p.taken, box{x - 2, p.y.last, x + 2, p.y.first})
	}
}

// drawClock draws the panel of held clocks and gives where the X axis goes.
func (s Sweep) drawClock(p plot, bottom float64) float64 {
	clocks := s.clocks()
	if len(clocks) == 0 {
		return bottom
	}
	foot := bottom + clockPanel
	r := ruler{nice(2, clocks...), foot, bottom + 34}
	p.line(quiet, point{p.x.first, bottom}, point{p.x.last, bottom})
	p.write(point{edge, bottom + 20}, clipped(s.Clock.label(), p.x.last-edge), text, start)
	p.upright(r, p.x.first, p.x.last)
	for _, part := range s.stretches(func(q SweepPoint) bool { return there(q.Clock) }) {
		var line []point
		for _, q := range s.Points[part[0] : part[1]+1] {
			at := point{p.x.at(q.X), r.at(q.Clock)}
			line = append(line, at)
			p.add(area{box{at.x - 1.8, at.y - 1.8, at.x + 1.8, at.y + 1.8}.corners(), text})
		}
		p.add(stroke{points: line, ink: text, width: 1.3, dash: dashed})
	}
	return foot
}
