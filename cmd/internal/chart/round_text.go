package chart

import (
	"slices"
	"strings"

	"github.com/clipperhouse/displaywidth"
)

// leastWay is how many columns the scale needs beside the figures; a page with
// less room gives each board three lines.
const leastWay = 24

// Text gives the round for a terminal of so many columns (40 to 200); plain,
// it says everything in words, a line a board.
func (r Round) Text(width int, plain bool) string {
	r = r.tidy()
	p := titled(width, r.Title, r.Subtitle)
	if plain || len(r.values()) == 0 {
		p.say(r.words()...)
		return p.String()
	}
	p.gap()
	if l := r.shares(p.width); l.way >= leastWay {
		r.lined(p, l)
	} else {
		r.stacked(p)
	}
	p.gap()
	p.say(r.legend())
	p.say(r.summary())
	p.say(r.footnotes()...)
	p.say(r.Notes...)
	return p.String()
}

// shares is how the columns of a page are given to the parts of a row.
type shares struct{ name, way, outcome int }

func (r Round) shares(width int) shares {
	l := shares{name: len("board"), outcome: len("outcome")}
	for _, row := range r.Rows {
		l.name = max(l.name, displaywidth.String(row.Name))
		l.outcome = max(l.outcome, displaywidth.String(row.Outcome+r.mark(row)))
	}
	l.name, l.outcome = min(l.name, width/4), min(l.outcome, 16)
	l.way = width - l.name - l.outcome - 4
	for _, f := range r.figures() {
		l.way -= f.columns() + 2
	}
	return l
}

// lined writes a line a board: name, scale, figures, outcome; long names go on
// below.
func (r Round) lined(p *page, l shares) {
	figures := r.figures()
	way := ruler{spaced(l.way, r.values()...), 0, float64(l.way - 1)}
	r.heads(p, figures, way, l.name)
	for i, row := range r.Rows {
		names := wrap(row.Name, float64(l.name), columns)
		line := padded(names[0], l.name) + "  " + r.wayLine(row, way)
		for _, f := range figures {
			line += "  " + flushed(f.cells[i], f.columns())
		}
		p.put(line + "  " + padded(row.Outcome+r.mark(row), l.outcome))
		for _, more := range names[1:] {
			p.put(more)
		}
	}
}

// heads writes the names of the columns over their units.
func (r Round) heads(p *page, figures []figure, way ruler, name int) {
	const high = 3
	for line := range high {
		lead, tail := padded("", name)+"  "+padded("", way.cells()), ""
		switch line {
		case high - 2:
			lead = padded("", name) + "  " + padded(r.HotSpot.label(), way.cells())
		case high - 1:
			lead = padded("board", name) + "  " + wayScale(way)
			tail = "  outcome"
		}
		for _, f := range figures {
			lead += "  " + flushed(f.head(high)[line], f.columns())
		}
		p.put(lead + tail)
	}
}

// head gives the name in so many lines, the unit last.
func (f figure) head(high int) []string {
	lines := atMost(high-1, f.axis.Name, float64(f.columns()), columns)
	return append(append(make([]string, high-1-len(lines)), lines...), f.axis.Unit)
}

// columns is the width of a column of figures; its head wraps between words.
func (f figure) columns() int {
	width := displaywidth.String(f.axis.Unit)
	for _, word := range strings.Fields(f.axis.Name) {
		width = max(width, displaywidth.String(word))
	}
	width = min(width, 9)
	for _, cell := range f.cells {
		width = max(width, displaywidth.String(cell))
	}
	return width
}

// stacked writes three lines a board: name and outcome, scale, figures.
func (r Round) stacked(p *page) {
	figures := r.figures()
	way := ruler{spaced(p.width-4, r.values()...), 0, float64(p.width - 5)}
	p.put("  " + fitted(r.HotSpot.label(), p.width-2))
	p.put("  " + wayScale(way))
	for i, row := range r.Rows {
		outcome := fitted(row.Outcome+r.mark(row), 18)
		name := p.width - displaywidth.String(outcome) - 2
		for n, line := range wrap(row.Name, float64(name), columns) {
			if n == 0 {
				line = padded(line, name) + "  " + outcome
			}
			p.put(line)
		}
		p.put("  " + r.wayLine(row, way))
		p.put("  " + fitted(row.known(i, figures), p.width-2))
	}
}

// known lists the figures that a row has.
func (row RoundRow) known(i int, figures []figure) string {
	var parts []string
	for n, f := range figures {
		switch said := strings.ReplaceAll(f.said(i), glue, " "); {
		case n == 0 && !there(row.HotSpot):
			parts = append(parts, "no temperature")
		case f.cells[i] == missing:
		case n == len(figures)-1: // the second number in °C needs its name
			parts = append(parts, f.axis.Name+" "+said)
		default:
			parts = append(parts, said)
		}
	}
	return strings.Join(parts, ", ")
}

// wayScale writes the scale's numbers over the rows.
func wayScale(way ruler) string {
	labels := newStrip(way.cells())
	for _, v := range way.ticks() {
		labels.put(way.cell(v), way.label(v))
	}
	return labels.String()
}

// cells is the number of cells on a ruler that begins at 0.
func (r ruler) cells() int { return int(r.last) + 1 }

// wayLine draws the way from the room to the hot spot, and the limit; a limit
// where the hot spot stands is moved by a cell, to its own side.
func (r Round) wayLine(row RoundRow, way ruler) string {
	g := newGrid(way.cells(), 1)
	hot := 0
	if there(row.HotSpot) {
		hot = way.cell(row.HotSpot)
		g.sign(hot, 0, endSign(row.Outcome))
	} else {
		g.sign(0, 0, '×')
	}
	if there(row.Limit) {
		limit := way.cell(row.Limit)
		switch {
		case limit != hot || !there(row.HotSpot):
		case row.HotSpot > row.Limit:
			limit--
		default:
			limit++
		}
		g.under(limit, 0, '┃')
	}
	if there(row.HotSpot) && there(row.Room) {
		stem(g, way.cell(row.Room), hot, row.Outcome)
	}
	return padded(g.row(0), g.wide)
}

// stem draws the line from the room to the hot spot.
func stem(g *grid, room, hot int, outcome string) {
	line := '─'
	if outcome != Settled {
		line = '╌'
	}
	g.under(room, 0, '├')
	for x := min(room, hot); x <= max(room, hot); x++ {
		g.under(x, 0, line)
	}
}

// endSign is the form of the hot spot for an outcome.
func endSign(outcome string) rune {
	switch outcome {
	case Settled:
		return bullet.glyph(false)
	case Throttled:
		return diamond.glyph(false)
	case Crashed:
		return '×'
	}
	return bullet.glyph(true)
}

// legend names the signs that were drawn.
func (r Round) legend() string {
	list := []string{sign("├─", "room to hot spot")}
	for _, outcome := range []string{Settled, Throttled, Unsettled} {
		if r.tally(outcome) > 0 {
			list = append(list, sign(string(endSign(outcome)), outcome))
		}
	}
	if slices.ContainsFunc(r.Rows, func(row RoundRow) bool { return there(row.Limit) }) {
		list = append(list, sign("┃", "limit"))
	}
	if slices.ContainsFunc(r.Rows, func(row RoundRow) bool { return !there(row.HotSpot) }) {
		list = append(list, sign("×", "no temperature"))
	}
	return strings.Join(list, "  ")
}
