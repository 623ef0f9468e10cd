package chart

import "strings"

const residualPanel = 96.0 // height of the panel of what the curve leaves, px

// draw lays a tidy heating out.
func (h Heating) draw() *sketch {
	k := &sketch{width: size(h.Width, 760, 420), description: strings.Join(h.words(), " ")}
	top := k.key(k.heading(h.Title, h.Subtitle), h.samples()) + smallPx + gutter + 6
	notes := noteLines(h.Notes, k.width-2*edge)
	below := longTick + 2*smallPx + gutter
	if len(h.fits()) > 0 {
		below += residualPanel
	}
	bottom := max(top+180, size(h.Height, 520, 300)-notesHeight(notes)-below)
	p := h.field(k, top, bottom)
	h.drawField(p)
	foot := h.drawResiduals(p, bottom)
	k.level(p.x, foot, false)
	k.write(point{p.x.last, foot + longTick + 2*smallPx + 6}, clipped(h.X.label(), p.x.last-p.x.first), text, end)
	k.notes(foot+longTick+2*smallPx+6, notes)
	return k
}

func (h Heating) field(k *sketch, top, bottom float64) plot {
	up := nice(int((bottom-top)/34), h.across()...)
	left := edge + max(up.ticksWide(), nice(3, h.residuals()...).ticksWide()) + longTick + 4
	right := k.width - edge - 8
	return plot{
		sketch: k,
		y:      ruler{up, bottom, top},
		x:      ruler{horizontal(right-left, h.along()...), left, right},
		placer: placer{frame: box{left, top, right, bottom}},
	}
}

func (h Heating) drawField(p plot) {
	h.drawEvents(p)
	if len(h.across()) > 0 {
		p.upright(p.y, p.x.first, p.x.last)
	}
	p.write(point{edge, p.y.last - gutter}, clipped(h.Y.label(), p.x.last-edge), text, start)
	if h.Final != nil {
		y := p.y.at(*h.Final)
		p.add(stroke{points: []point{{p.x.first, y}, {p.x.last, y}}, ink: wall, width: 1.3, dash: dashDotted})
	}
	var readings []point
	for _, q := range h.Points {
		readings = append(readings, p.at(q.X, q.Measured))
	}
	if len(readings) == 1 {
		p.add(disc{readings[0], 2.5, quiet})
	} else if len(readings) > 0 {
		p.add(stroke{points: readings, ink: quiet, width: 3})
	}
	var curve []point
	for _, q := range h.fits() {
		curve = append(curve, p.at(q.X, q.Fitted))
	}
	if len(curve) > 1 {
		p.add(stroke{points: curve, ink: course, width: 1.6})
	}
}

// drawEvents grounds the stretches of throttling, as far as they lie on the
// field, with a mark at the foot for each.
func (h Heating) drawEvents(p plot) {
	for _, e := range h.Events {
		left, right := max(p.x.at(e[0]), p.x.first), min(p.x.at(e[1]), p.x.last)
		if right < left {
			continue
		}
		right = max(right, left+1.5)
		p.add(area{box{left, p.y.last, right, p.y.first}.corners(), blank})
		p.add(area{box{left, p.y.first - 4, right, p.y.first}.corners(), alarm})
	}
}

// drawResiduals draws the panel of what the curve leaves and gives where the X
// axis goes.
func (h Heating) drawResiduals(p plot, bottom float64) float64 {
	fits := h.fits()
	if len(fits) == 0 {
		return bottom
	}
	foot := bottom + residualPanel
	r := ruler{nice(3, h.residuals()...), foot, bottom + 34}
	p.line(quiet, point{p.x.first, bottom}, point{p.x.last, bottom})
	p.write(point{edge, bottom + 20}, clipped("measured less curve, "+h.Y.Unit, p.x.last-edge), text, start)
	p.upright(r, p.x.first, p.x.last)
	p.line(quiet, point{p.x.first, r.at(0)}, point{p.x.last, r.at(0)})
	for _, q := range fits {
		at := point{p.x.at(q.X), r.at(q.left())}
		p.add(area{box{at.x - 0.9, at.y - 0.9, at.x + 0.9, at.y + 0.9}.corners(), course})
	}
	return foot
}

// samples gives the key to what the chart holds.
func (h Heating) samples() []sample {
	list := []sample{{func(s *sketch, at point) {
		s.add(stroke{points: []point{at, {at.x + sampleWidth, at.y}}, ink: quiet, width: 3})
	}, "measured"}}
	if len(h.fits()) > 0 {
		list = append(list, sample{func(s *sketch, at point) {
			s.add(stroke{points: []point{at, {at.x + sampleWidth, at.y}}, ink: course, width: 1.6})
		}, "fitted curve"})
	}
	if h.Final != nil {
		list = append(list, sample{func(s *sketch, at point) {
			s.add(stroke{points: []point{at, {at.x + sampleWidth, at.y}}, ink: wall, width: 1.3, dash: dashDotted})
		}, h.finalWords()})
	}
	if len(h.Events) > 0 {
		list = append(list, sample{func(s *sketch, at point) {
			s.add(area{box{at.x, at.y - 5, at.x + sampleWidth, at.y + 5}.corners(), blank})
			s.add(area{box{at.x, at.y + 2, at.x + sampleWidth, at.y + 5}.corners(), alarm})
		}, "throttled"})
	}
	return list
}
