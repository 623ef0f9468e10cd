package command

import (
	"strings"

	"github.com/clipperhouse/displaywidth"

	"hotroom/cmd/internal/unit"
)

// style is how text for people looks.
type style struct {
	width  int
	colour bool
	plain  bool // sentences only: no layout, no colour, one item a line
}

// The SGR codes in use (ECMA-48).
const (
	bold   = "1"
	dim    = "2"
	red    = "31"
	green  = "32"
	yellow = "33"
)

// paint gives text a look on terminals that show colour.
func (st style) paint(text string, codes ...string) string {
	look := strings.Join(codes, ";")
	if !st.colour || look == "" || text == "" {
		return text
	}
	return "\x1b[" + look + "m" + text + "\x1b[0m"
}

// paragraph wraps text to the width, the lines after the first set in by some
// columns, and ends it with a newline. Plain text is not wrapped.
func (st style) paragraph(text string, indent int) string {
	return st.hanging("", text, indent)
}

// hanging writes a label, and text set in beside it by some columns.
func (st style) hanging(label, text string, indent int) string {
	if st.plain {
		return label + text + "\n"
	}
	var b strings.Builder
	b.WriteString(label)
	column := columnsOf(label)
	fresh := true
	for _, word := range unbroken(text) {
		w := displaywidth.String(word)
		switch {
		case fresh:
		case column+1+w > st.width:
			b.WriteString("\n" + strings.Repeat(" ", indent))
			column = indent
		default:
			b.WriteByte(' ')
			column++
		}
		b.WriteString(word)
		column += w
		fresh = false
	}
	b.WriteByte('\n')
	return b.String()
}

// unbroken splits text into words, a number and its unit as one.
func unbroken(text string) []string {
	var words []string
	for _, word := range strings.Fields(text) {
		if last := len(words) - 1; last >= 0 && unit.Follows(words[last], word) {
			words[last] += " " + word
			continue
		}
		words = append(words, word)
	}
	return words
}

// columnsOf measures text that may be painted.
func columnsOf(text string) int {
	return displaywidth.Options{ControlSequences: true}.String(text)
}

// pad fills text with spaces to a number of columns.
func pad(text string, columns int) string {
	return text + strings.Repeat(" ", max(0, columns-displaywidth.String(text)))
}

// padLeft fills text with spaces before it to a number of columns.
func padLeft(text string, columns int) string {
	return strings.Repeat(" ", max(0, columns-displaywidth.String(text))) + text
}

// lineWidth is how wide a chart's text may be: plain sentences are hardly
// broken.
func (st style) lineWidth() int {
	if st.plain {
		return longestPlain
	}
	return st.width
}

// longestPlain is the most that a chart's text is set to, columns.
const longestPlain = 200
