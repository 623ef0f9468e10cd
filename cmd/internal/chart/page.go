package chart

import (
	"strings"

	"hotroom/cmd/internal/harmless"
)

// columnsBetween keeps a width within what the texts are made for.
func columnsBetween(width int) int { return min(max(width, 40), 200) }

// page gathers lines no wider than its width.
type page struct {
	width int
	lines []string
}

// say adds sentences, wrapped; lines after the first are set in.
func (p *page) say(sentences ...string) {
	for _, sentence := range sentences {
		for i, line := range wrap(harmless.Text(sentence), float64(p.width-2), columns) {
			if i > 0 {
				line = "  " + line
			}
			p.lines = append(p.lines, strings.ReplaceAll(line, glue, " "))
		}
	}
}

// gap adds an empty line unless the page is empty.
func (p *page) gap() {
	if len(p.lines) > 0 {
		p.lines = append(p.lines, "")
	}
}

func (p *page) put(line string) { p.lines = append(p.lines, strings.TrimRight(line, " ")) }

func (p *page) String() string { return strings.Join(p.lines, "\n") + "\n" }

// titled begins a page with the words over a chart.
func titled(width int, title, subtitle string) *page {
	p := &page{width: columnsBetween(width)}
	for _, line := range []string{title, subtitle} {
		if line != "" {
			p.say(line)
		}
	}
	return p
}
