package chart

import (
	"math"
	"slices"
	"strings"
)

// Text gives the chart for a terminal of so many columns (40 to 200); plain,
// it says everything in words, a line a step.
func (s Sweep) Text(width int, plain bool) string {
	s = s.tidy()
	p := titled(width, s.Title, s.Subtitle)
	if plain || len(s.across()) == 0 {
		p.say(s.words()...)
		return p.String()
	}
	p.gap()
	p.put(fitted(s.Y.label(), p.width))
	a, g := s.cells(p.width)
	s.fill(a, g)
	a.write(p, g)
	p.put(flushed(s.X.label(), p.width))
	s.clockStrip(p, a)
	p.gap()
	p.say(s.legend())
	p.say(s.summary()[1:]...)
	p.say(s.someRuns()...)
	p.say(s.Notes...)
	return p.String()
}

// cells lays the grid and its rulers out.
func (s Sweep) cells(width int) (axes, *grid) {
	high := 17
	up := nice(8, s.across()...)
	a := axes{margin: up.widest() + 2}
	wide := width - a.margin
	a.y = ruler{up, float64(high - 1), 0}
	a.x = ruler{spaced(wide, s.along()...), 0, float64(wide - 1)}
	return a, newGrid(wide, high)
}

// at gives a place on the grid, in the middle of its dots.
func (a axes) at(x, y float64) point { return point{a.x.at(x) + 0.5, a.y.at(y) + 0.5} }

// fill draws what stands in front first; later signs go under it.
func (s Sweep) fill(a axes, g *grid) {
	for _, r := range s.Runs {
		g.sign(a.x.cell(r.X), a.y.cell(r.Y), diamond.glyph(false))
	}
	for i, q := range s.Points {
		if !there(q.Expected) {
			g.under(a.x.cell(q.X), g.high-1, '×')
		}
		if i > 0 {
			s.between(a, g, s.Points[i-1], q)
		}
	}
	s.shadeBand(a, g)
	if s.marksUsedUp() {
		for y := range g.high {
			g.under(a.x.cell(*s.UsedUp), y, '╎')
		}
	}
}

// between draws the lines from one step to the next.
func (s Sweep) between(a axes, g *grid, from, to SweepPoint) {
	if there(from.Expected) && there(to.Expected) {
		g.trace(a.at(from.X, from.Expected), a.at(to.X, to.Expected), 1)
	}
	if there(from.Limit) && there(to.Limit) {
		left, right := a.x.cell(from.X), a.x.cell(to.X)
		for x := left; x <= right; x++ {
			g.under(x, a.y.cell(from.Limit+(to.Limit-from.Limit)*share(x, left, right)), '═')
		}
	}
}

// share says how far x is on the way from left to right, 0 to 1.
func share(x, left, right int) float64 {
	return float64(x-left) / max(1, float64(right-left))
}

// shadeBand shades the interval under what is drawn.
func (s Sweep) shadeBand(a axes, g *grid) {
	for i := 1; i < len(s.Points); i++ {
		from, to := s.Points[i-1], s.Points[i]
		if !from.banded() || !to.banded() {
			continue
		}
		left, right := a.x.cell(from.X), a.x.cell(to.X)
		for x := left; x <= right; x++ {
			part := share(x, left, right)
			top := a.y.cell(from.High + (to.High-from.High)*part)
			for y := top; y <= a.y.cell(from.Low+(to.Low-from.Low)*part); y++ {
				g.under(x, y, shadeSign)
			}
		}
	}
}

// legend names the signs that were drawn.
func (s Sweep) legend() string {
	list := []string{sign("⠒⠒", "expected")}
	if slices.ContainsFunc(s.Points, SweepPoint.banded) {
		list = append(list, sign("░░", "90 % interval"))
	}
	if len(s.limits()) > 0 {
		list = append(list, sign("══", "limit"))
	}
	if len(s.Runs) > 0 {
		list = append(list, sign("◆", "measured run"))
	}
	if s.marksUsedUp() {
		list = append(list, sign("╎", "kept margin used up"))
	}
	if s.unsettled() > 0 {
		list = append(list, sign("×", "cannot settle"))
	}
	return strings.Join(list, "  ")
}

// sign is an entry of a legend, kept on one line.
func sign(char, meaning string) string {
	return char + glue + strings.ReplaceAll(meaning, " ", glue)
}

// clockStrip writes the held clocks under their steps, as far as they have
// room.
func (s Sweep) clockStrip(p *page, a axes) {
	clocks := s.clocks()
	if len(clocks) == 0 {
		return
	}
	places := decimals(clocks...)
	labels := newStrip(p.width)
	for _, v := range a.x.ticks() {
		if q, ok := s.nearest(v, a.x.step/2); ok {
			labels.put(a.margin+a.x.cell(q.X), digits(q.Clock, places))
		}
	}
	p.put(fitted(s.Clock.label(), p.width))
	p.put(labels.String())
}

// nearest finds the step with a clock that is nearest to a place.
func (s Sweep) nearest(x, within float64) (SweepPoint, bool) {
	best, found := SweepPoint{}, false
	for _, q := range s.Points {
		if d := math.Abs(q.X - x); there(q.Clock) && d <= within && (!found || d < math.Abs(best.X-x)) {
			best, found = q, true
		}
	}
	return best, found
}
