package chart

import "math"

// The heights on a margin's scale, px, from its top.
const (
	marginNames = 14.0 // base line of room and limit
	marginTop   = 21.0 // of the bar
	marginMid   = 33.0
	marginEnd   = 45.0
	marginHot   = 61.0 // base line of the hot spot
	marginSpan  = 75.0 // the dimension line
	marginAxis  = 84.0
	marginAll   = 112.0
)

// scale draws the scale down from top and gives where it ends. What stands
// further on lies above: interval, limit, expected value, words.
func (m Margin) scale(k *sketch, top float64) float64 {
	left, right := edge, k.width-edge-6
	r := ruler{nice(max(6, int(k.width/50)), m.values()...), left, right}
	r.parts = 1 // few ticks and none short: a card is small
	k.level(r, top+marginAxis, false)
	if there(m.Room) {
		m.drawRoom(k, r, top)
	}
	if m.settles() {
		m.drawInterval(k, r, top)
	} else {
		k.write(point{(left + right) / 2, top + marginHot}, "cannot settle: hotter without end", alarm, middle)
	}
	if there(m.Limit) {
		m.drawLimit(k, r, top)
	}
	if m.settles() {
		m.drawHotSpot(k, r, top)
	}
	return top + marginAll
}

func (m Margin) drawRoom(k *sketch, r ruler, top float64) {
	x, until := r.at(m.Room), r.last
	if there(m.Limit) {
		until = r.at(m.Limit)
	}
	k.add(stroke{points: []point{{x, top + marginMid}, {until, top + marginMid}}, ink: quiet, width: 1, dash: dotted})
	k.add(stroke{points: []point{{x, top + marginTop}, {x, top + marginEnd}}, ink: text, width: 1.8})
	k.add(k.inside(label{at: point{x, top + marginNames}, text: "room " + degrees(m.Room), px: smallPx, ink: text, anchor: middle}))
}

// drawInterval draws the interval, and what of it is past the limit.
func (m Margin) drawInterval(k *sketch, r ruler, top float64) {
	low, high := r.at(m.Low), r.at(m.High)
	bar := box{low, top + marginTop + 2, high, top + marginEnd - 2}
	k.add(area{bar.corners(), spread90})
	for _, x := range []float64{low, high} {
		k.line(course, point{x, bar.top}, point{x, bar.bottom})
	}
	if m.past() {
		bar.left = max(r.at(m.Limit), low)
		k.add(area{bar.corners(), alarm})
	}
}

// past reports whether the interval reaches past the limit.
func (m Margin) past() bool { return there(m.Limit) && m.settles() && m.High > m.Limit }

// drawLimit draws the limit across the bar and down to the axis.
func (m Margin) drawLimit(k *sketch, r ruler, top float64) {
	x := r.at(m.Limit)
	k.stop(x, top+marginTop-2, top+marginEnd+2)
	k.line(wall, point{x, top + marginEnd + 2}, point{x, top + marginAxis})
	l := label{at: point{x, top + marginNames}, text: "limit " + degrees(m.Limit), px: smallPx, ink: wall, bold: true, anchor: middle}
	if there(m.Room) && math.Abs(x-r.at(m.Room)) < 150 { // no room beside the room's own name
		l.anchor = start
	}
	k.add(k.inside(l))
}

// drawHotSpot draws the expected value, and what is left as a dimension.
func (m Margin) drawHotSpot(k *sketch, r ruler, top float64) {
	at := r.at(m.Expected)
	if there(m.Limit) {
		m.drawKept(k, r, top)
	}
	k.point(bullet, point{at, top + marginMid}, 5, course)
	k.plaque(k.inside(label{
		at: point{at, top + marginHot}, px: smallPx, ink: text, bold: true, anchor: middle,
		text: "hot spot " + degrees(m.Expected) + " (" + digits(m.Low, 0) + "–" + digits(m.High, 0) + ")",
	}))
}

func (m Margin) drawKept(k *sketch, r ruler, top float64) {
	limit, high, y, look := r.at(m.Limit), r.at(m.High), top+marginSpan, course
	if m.past() {
		look = alarm
	}
	k.line(look, point{high, top + marginEnd}, point{high, y}, point{limit, y})
	k.add(k.inside(label{at: point{min(high, limit) - 6, y + smallPx*0.35}, text: m.kept(), px: smallPx, ink: look, bold: true, anchor: end}))
}

// inside moves a label as far as it must be to stay on the picture.
func (s *sketch) inside(l label) label {
	b := l.bounds()
	l.at.x += max(0, 2-b.left) - max(0, b.right-(s.width-2))
	return l
}
