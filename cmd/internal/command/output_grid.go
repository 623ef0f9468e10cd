package command

import (
	"slices"
	"strconv"
	"strings"

	"github.com/clipperhouse/displaywidth"
)

// column is one column of a table for people.
type column struct {
	title, unit string
	cells       []string
	looks       []string // SGR code of each cell; nil: none
	right       bool     // set to the right, as numbers are
	flex        bool     // may be narrowed; its cells then take several lines
	spare       bool     // left out where the table is too wide otherwise
}

// grid lays columns out within the width. On a narrow terminal the spaces go
// first, then wide columns are narrowed, then spare ones are left out, which is
// said. It reports false where even that is too wide.
func (st style) grid(columns []column) (string, bool) {
	left := columns
	var dropped []string
	for {
		for _, try := range []struct {
			gap    int
			narrow bool
		}{{2, false}, {1, false}, {2, true}, {1, true}} {
			if widths, ok := fit(left, try.gap, st.width, try.narrow); ok {
				return st.rows(left, widths, try.gap) + st.leftOut(dropped), true
			}
		}
		last := -1
		for i := range left {
			if left[i].spare {
				last = i
			}
		}
		if last < 0 {
			return "", false
		}
		dropped = append(dropped, left[last].title)
		left = slices.Delete(slices.Clone(left), last, last+1)
	}
}

func (st style) leftOut(titles []string) string {
	if len(titles) == 0 {
		return ""
	}
	return st.paint(strings.TrimSuffix(st.paragraph("("+strconv.Itoa(st.width)+" columns leave no room for: "+strings.Join(titles, ", ")+")", 1), "\n"), dim) + "\n"
}

// fit gives the widths with which columns stand side by side in the room there
// is, where narrow by narrowing the widest.
func fit(columns []column, gap, room int, narrow bool) ([]int, bool) {
	widths, least := make([]int, len(columns)), make([]int, len(columns))
	total := gap * (len(columns) - 1)
	for i := range columns {
		widths[i], least[i] = columns[i].widths()
		total += widths[i]
	}
	for ; total > room; total-- {
		widest := -1
		for i := range columns {
			if narrow && widths[i] > least[i] && (widest < 0 || widths[i] > widths[widest]) {
				widest = i
			}
		}
		if widest < 0 {
			return nil, false
		}
		widths[widest]--
	}
	return widths, true
}

// widths gives a column's natural width and its least one.
func (c *column) widths() (natural, least int) {
	for _, text := range append([]string{c.title, c.unit}, c.cells...) {
		natural = max(natural, displaywidth.String(text))
		for _, word := range unbroken(text) {
			least = max(least, displaywidth.String(word))
		}
	}
	if !c.flex {
		least = natural
	}
	return natural, least
}

// rows writes the heads and the cells.
func (st style) rows(columns []column, widths []int, gap int) string {
	var b strings.Builder
	head := func(text func(*column) string) {
		cells := make([]cell, len(columns))
		for i := range columns {
			cells[i] = cell{text: text(&columns[i]), look: bold, right: columns[i].right}
		}
		if slices.ContainsFunc(cells, func(c cell) bool { return c.text != "" }) {
			b.WriteString(st.row(cells, widths, gap))
		}
	}
	head(func(c *column) string { return c.title })
	head(func(c *column) string { return c.unit })
	for n := range columns[0].cells {
		cells := make([]cell, len(columns))
		for i, c := range columns {
			cells[i] = cell{text: c.cells[n], right: c.right}
			if c.looks != nil {
				cells[i].look = c.looks[n]
			}
		}
		b.WriteString(st.row(cells, widths, gap))
	}
	return b.String()
}

// cell is one text of a table.
type cell struct {
	text, look string
	right      bool
}

// row writes one row, on as many lines as its tallest cell needs.
func (st style) row(cells []cell, widths []int, gap int) string {
	lines := make([][]string, len(cells))
	tallest := 1
	for i, c := range cells {
		lines[i] = linesOf(c.text, widths[i])
		tallest = max(tallest, len(lines[i]))
	}
	var b strings.Builder
	for n := range tallest {
		var line strings.Builder
		for i, c := range cells {
			text := ""
			if n < len(lines[i]) {
				text = lines[i][n]
			}
			space := strings.Repeat(" ", max(0, widths[i]-displaywidth.String(text)))
			painted := st.paint(text, c.look)
			if c.right {
				painted = space + painted
			} else {
				painted += space
			}
			if i > 0 {
				line.WriteString(strings.Repeat(" ", gap))
			}
			line.WriteString(painted)
		}
		b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
	return b.String()
}

// linesOf breaks a text into lines no wider than a width, between words.
func linesOf(text string, width int) []string {
	if displaywidth.String(text) <= width {
		return []string{text}
	}
	var lines []string
	line := ""
	for _, word := range unbroken(text) {
		joined := strings.TrimPrefix(line+" "+word, " ")
		if line != "" && displaywidth.String(joined) > width {
			lines = append(lines, line)
			joined = word
		}
		line = joined
	}
	return append(lines, line)
}

// add adds a cell with its look.
func (c *column) add(text, look string) {
	c.cells = append(c.cells, text)
	c.looks = append(c.looks, look)
}
