package chart

import (
	"math"
	"strings"

	"github.com/clipperhouse/displaywidth"
)

// strip is one line of cells on which labels are put where they are free.
type strip struct{ cells []rune }

func newStrip(width int) *strip {
	return &strip{[]rune(strings.Repeat(" ", max(width, 0)))}
}

// put centres a label of narrow letters on a column, shifted inwards at the
// ends; a label that would touch another one is left out.
func (s *strip) put(centre int, words string) {
	letters := []rune(words)
	from := max(0, min(centre-(len(letters)-1)/2, len(s.cells)-len(letters)))
	if from+len(letters) > len(s.cells) {
		return
	}
	for i := max(0, from-1); i < min(len(s.cells), from+len(letters)+1); i++ {
		if s.cells[i] != ' ' {
			return
		}
	}
	copy(s.cells[from:], letters)
}

func (s *strip) String() string { return string(s.cells) }

// cell gives the cell of a value on a ruler laid from cell to cell.
func (r ruler) cell(v float64) int { return int(math.Round(r.at(v))) }

// padded fills a text up to a width in columns, cutting it with "…" when it is
// wider.
func padded(words string, width int) string {
	words = fitted(words, width)
	return words + strings.Repeat(" ", max(0, width-displaywidth.String(words)))
}

// flushed is padded on the left.
func flushed(words string, width int) string {
	words = fitted(words, width)
	return strings.Repeat(" ", max(0, width-displaywidth.String(words))) + words
}

func fitted(words string, width int) string {
	if displaywidth.String(words) <= width {
		return words
	}
	return displaywidth.TruncateString(words, width, "…")
}

// axes writes the numbers beside a grid and below it.
type axes struct {
	x, y   ruler // in cells
	margin int   // columns left of the grid
}

// write puts the grid on the page: its rows with the scale on the left, the
// scale below.
func (a axes) write(p *page, g *grid) {
	a.writeRows(p, g)
	a.writeFoot(p, g.wide)
}

// writeRows puts the rows with the scale on the left.
func (a axes) writeRows(p *page, g *grid) {
	numbers := map[int]string{}
	for _, v := range a.y.ticks() {
		numbers[a.y.cell(v)] = a.y.label(v)
	}
	for y := range g.high {
		edge := " │"
		if numbers[y] != "" {
			edge = " ┤"
		}
		p.put(flushed(numbers[y], a.margin-2) + edge + g.row(y))
	}
}

// writeFoot puts the scale below a grid of so many cells.
func (a axes) writeFoot(p *page, wide int) {
	line := []rune(strings.Repeat("─", wide))
	labels := newStrip(wide + a.margin)
	for _, v := range a.x.ticks() {
		line[min(max(a.x.cell(v), 0), wide-1)] = '┬'
		labels.put(a.margin+a.x.cell(v), a.x.label(v))
	}
	p.put(strings.Repeat(" ", a.margin-1) + "└" + string(line))
	p.put(labels.String())
}

// widest gives the columns of the widest label of a scale.
func (s scale) widest() int {
	width := 0
	for _, v := range s.ticks() {
		width = max(width, len(s.label(v)))
	}
	return width
}

// spaced makes a scale whose labels keep apart on so many columns.
func spaced(cells int, values ...float64) scale {
	for steps := cells / 5; ; steps-- {
		s := nice(steps, values...)
		if steps <= 2 || int(math.Round((s.to-s.from)/s.step))*(s.widest()+2) <= cells {
			return s
		}
	}
}
