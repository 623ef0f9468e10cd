package chart

import (
	"fmt"
	"slices"
)

// listed is how many points are numbered and named under a chart; more would
// fill the page, and how many is said.
const listed = 20

// words says the scatter in sentences, a point each.
func (s Scatter) words() []string {
	lines := s.summary()
	for _, p := range s.Points {
		lines = append(lines, s.say(p))
	}
	return slices.Concat(lines, s.Notes)
}

func (s Scatter) summary() []string {
	n := len(s.drawn())
	lines := []string{fmt.Sprintf("Measured against predicted %s: %s.", s.Value.label(), count(n, "point"))}
	if judged := s.judged(); judged > 0 {
		off := len(s.outside())
		lines = append(lines, fmt.Sprintf("Inside the 90 %% interval: %d of %d, outside: %d.", judged-off, judged, off))
	}
	if left := len(s.Points) - n; left > 0 {
		lines = append(lines, fmt.Sprintf("Without a predicted or a measured value, and not drawn: %s.", count(left, "point")))
	}
	return lines
}

// say puts one point in words.
func (s Scatter) say(p ScatterPoint) string {
	if !p.drawn() {
		return fmt.Sprintf("%s: measured %s, predicted %s, not drawn.", p.Label, s.known(p.Measured), s.known(p.Predicted))
	}
	line := fmt.Sprintf("%s: measured %s, predicted %s", p.Label, s.known(p.Measured), s.known(p.Predicted))
	if p.barred() {
		line += fmt.Sprintf(", 90 %% between %s and %s", digits(p.Low, s.places()), digits(p.High, s.places()))
	}
	if p.outside() {
		line += ", outside"
	}
	return line + " (" + p.Evidence + ")."
}

func (s Scatter) known(v float64) string {
	if !there(v) {
		return "not known"
	}
	return s.Value.value(v, s.places())
}

// places is the decimals of all numbers: a temperature to a tenth at most.
func (s Scatter) places() int { return min(1, decimals(s.values()...)) }

// outsideNotes names the numbered points, and says what was not numbered.
func (s Scatter) outsideNotes() []string {
	lines := s.summary()[1:]
	outside := s.outside()
	for i, p := range outside[:min(listed, len(outside))] {
		lines = append(lines, fmt.Sprintf("Point %d, %s", i+1, s.say(p)))
	}
	if more := len(outside) - listed; more > 0 {
		lines = append(lines, "Outside and not listed: "+count(more, "more point")+".")
	}
	return lines
}
