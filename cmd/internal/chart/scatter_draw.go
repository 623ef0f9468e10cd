package chart

import (
	"slices"
	"strconv"
	"strings"
)

// draw lays a tidy scatter out.
func (s Scatter) draw() *sketch {
	k := &sketch{width: size(s.Width, 620, 420), description: strings.Join(s.words(), " ")}
	top := k.key(k.heading(s.Title, s.Subtitle), s.samples()) + smallPx + gutter + 6
	p := s.field(k, top)
	k.upright(p.y, p.x.first, p.x.last)
	k.level(p.x, p.y.first, false)
	k.write(point{edge, top - gutter}, clipped("measured "+s.Value.label(), p.x.last-edge), text, start)
	k.write(point{p.x.last, p.y.first + longTick + 2*smallPx + 6}, clipped("predicted "+s.Value.label(), p.x.last-p.x.first), text, end)
	k.add(stroke{points: []point{p.at(p.x.from, p.y.from), p.at(p.x.to, p.y.to)}, ink: quiet, width: 1.2, dash: dashed})
	s.drawBars(p)
	s.drawPoints(p)
	k.notes(p.y.first+longTick+2*smallPx+6, noteLines(slices.Concat(s.outsideNotes(), s.Notes), k.width-2*edge))
	return k
}

// field sets up a square with the same scale both ways.
func (s Scatter) field(k *sketch, top float64) plot {
	both := nice(12, s.values()...)
	left, right := edge+both.ticksWide()+longTick+4, k.width-edge-8
	both = horizontal(right-left, s.values()...)
	bottom := top + right - left
	return plot{
		sketch: k,
		x:      ruler{both, left, right},
		y:      ruler{both, bottom, top},
		placer: placer{frame: box{left, top, right, bottom}},
	}
}

// barEnd is half the width of the mark at the end of a bar, px.
const barEnd = 3.0

func (s Scatter) drawBars(p plot) {
	for _, q := range s.drawn() {
		if !q.barred() {
			continue
		}
		low, high := p.at(q.Predicted, q.Low), p.at(q.Predicted, q.High)
		p.add(stroke{points: []point{low, high}, ink: course, width: 1.4})
		for _, tip := range []point{low, high} {
			p.line(course, point{tip.x - barEnd, tip.y}, point{tip.x + barEnd, tip.y})
		}
	}
}

// drawPoints draws points on their bars full, and those off their bars hollow,
// tied to their bar and numbered.
func (s Scatter) drawPoints(p plot) {
	words := s.evidence()
	outside := s.outside()
	for _, q := range s.drawn() {
		p.take(p.at(q.Predicted, q.Measured), 5)
		if q.barred() {
			low, high := p.at(q.Predicted, q.Low), p.at(q.Predicted, q.High)
			p.taken = append(p.taken, box{low.x - 2, high.y, low.x + 2, low.y})
		}
		if !q.outside() {
			p.point(shapeOf(words, q.Evidence), p.at(q.Predicted, q.Measured), 4, text)
		}
	}
	for i, q := range outside {
		at := p.at(q.Predicted, q.Measured)
		tip := p.at(q.Predicted, min(max(q.Measured, q.Low), q.High))
		p.add(stroke{points: []point{tip, at}, ink: alarm, width: 1.2, dash: dotted})
		p.hollow(shapeOf(words, q.Evidence), at, 5, alarm)
		if l, ok := p.beside(at, strconv.Itoa(i+1), 6); ok && i < listed {
			p.add(l)
		}
	}
}

// samples gives the key: a shape a word, then the marks.
func (s Scatter) samples() []sample {
	var list []sample
	words := s.evidence()
	for _, word := range words {
		list = append(list, sample{func(k *sketch, at point) {
			k.point(shapeOf(words, word), point{at.x + sampleWidth/2, at.y}, 4, text)
		}, clipped(word, 200)})
	}
	if s.judged() > 0 {
		list = append(list, sample{sampleBar, "90 % interval"})
	}
	if len(s.outside()) > 0 {
		list = append(list, sample{sampleOutside, "hollow: outside its interval"})
	}
	return append(list, sample{func(k *sketch, at point) {
		k.add(stroke{points: []point{{at.x, at.y + 4}, {at.x + sampleWidth, at.y - 5}}, ink: quiet, width: 1.2, dash: dashed})
	}, "measured as predicted"})
}

func sampleBar(k *sketch, at point) {
	x := at.x + sampleWidth/2
	k.add(stroke{points: []point{{x, at.y - 6}, {x, at.y + 6}}, ink: course, width: 1.4})
	for _, y := range []float64{at.y - 6, at.y + 6} {
		k.line(course, point{x - barEnd, y}, point{x + barEnd, y})
	}
}

func sampleOutside(k *sketch, at point) {
	x := at.x + sampleWidth/2
	k.add(stroke{points: []point{{x - 9, at.y}, {x, at.y}}, ink: alarm, width: 1.2, dash: dotted})
	k.hollow(bullet, point{x, at.y}, 5, alarm)
}
