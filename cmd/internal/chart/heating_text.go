package chart

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// Text gives the chart for a terminal of so many columns (40 to 200); plain, it
// says everything in words.
func (h Heating) Text(width int, plain bool) string {
	h = h.tidy()
	p := titled(width, h.Title, h.Subtitle)
	if plain || len(h.across()) == 0 {
		p.say(h.words()...)
		return p.String()
	}
	p.gap()
	p.put(fitted(h.Y.label(), p.width))
	up := nice(6, h.across()...)
	left := nice(2, h.residuals()...)
	a := axes{margin: max(up.widest(), left.widest()) + 2}
	a.x = ruler{spaced(p.width-a.margin, h.along()...), 0, float64(p.width - a.margin - 1)}
	h.writeCurve(p, a, up)
	h.writeResiduals(p, a, left)
	p.put(flushed(h.X.label(), p.width))
	p.say(h.legend())
	p.say(h.Notes...)
	return p.String()
}

// The rows of the two fields.
const (
	curveRows    = 12
	residualRows = 3
)

// writeCurve draws readings as shades, with the curve over them.
func (h Heating) writeCurve(p *page, a axes, up scale) {
	a.y = ruler{up, curveRows - 1, 0}
	g := newGrid(p.width-a.margin, curveRows)
	for _, e := range h.Events {
		for x := max(a.x.cell(e[0]), 0); x <= min(a.x.cell(e[1]), g.wide-1); x++ {
			g.sign(x, curveRows-1, '▂')
		}
	}
	fits := h.fits()
	for i := 1; i < len(fits); i++ {
		g.trace(a.at(fits[i-1].X, fits[i-1].Fitted), a.at(fits[i].X, fits[i].Fitted), 1)
	}
	for _, q := range h.Points {
		g.under(a.x.cell(q.X), a.y.cell(q.Measured), shadeSign)
	}
	if h.Final != nil {
		for x := range g.wide {
			if y := a.y.cell(*h.Final); g.dots[y*g.wide+x] == 0 {
				g.under(x, y, '┄')
			}
		}
	}
	a.writeRows(p, g)
	if len(fits) == 0 {
		a.writeFoot(p, g.wide)
	}
}

// writeResiduals draws what the curve leaves.
func (h Heating) writeResiduals(p *page, a axes, left scale) {
	fits := h.fits()
	if len(fits) == 0 {
		return
	}
	p.put(fitted("measured less curve, "+h.Y.Unit, p.width))
	a.y = ruler{left, residualRows - 1, 0}
	g := newGrid(p.width-a.margin, residualRows)
	for _, q := range fits {
		at := a.at(q.X, q.left())
		g.dot(int(math.Floor(at.x*dotsWide)), int(math.Floor(at.y*dotsHigh)))
	}
	a.writeRows(p, g)
	a.writeFoot(p, g.wide)
}

func (h Heating) legend() string {
	list := []string{sign(string(shadeSign), "measured")}
	if len(h.fits()) > 0 {
		list = append(list, sign("⠒⠒", "fitted curve"))
	}
	if h.Final != nil {
		list = append(list, sign("┄┄", h.finalWords()))
	}
	if len(h.Events) > 0 {
		list = append(list, sign("▂▂", "throttled"))
	}
	return strings.Join(list, "  ")
}

func (h Heating) finalWords() string {
	return "settles at " + h.Y.value(*h.Final, min(1, decimals(round(*h.Final, 1))))
}

// mostSaid is how many readings and events are put in words: enough to follow
// the curve by.
const mostSaid = 12

// words says what the chart shows, a sentence a line.
func (h Heating) words() []string {
	lines := []string{fmt.Sprintf("%s against %s: %s.", capital(h.Y.label()), h.X.label(), count(len(h.Points), "reading"))}
	for i := range min(mostSaid, len(h.Points)) {
		at := i
		if n := len(h.Points); n > mostSaid {
			at = i * (n - 1) / (mostSaid - 1)
		}
		lines = append(lines, h.say(h.Points[at]))
	}
	if h.Final != nil {
		lines = append(lines, capital(h.finalWords())+".")
	}
	for _, e := range h.Events[:min(mostSaid, len(h.Events))] {
		lines = append(lines, fmt.Sprintf("Throttled from %s to %s.", digits(e[0], 1), h.X.value(e[1], 1)))
	}
	if more := len(h.Events) - mostSaid; more > 0 {
		lines = append(lines, "Throttled again "+count(more, "more time")+".")
	}
	return slices.Concat(lines, h.Notes)
}

func (h Heating) say(p HeatingPoint) string {
	line := fmt.Sprintf("At %s: measured %s", h.X.value(p.X, 1), h.Y.value(p.Measured, 1))
	if p.fitted() {
		line += ", curve " + digits(p.Fitted, 1)
	}
	return line + "."
}
