package chart

import (
	"fmt"
	"slices"
	"strings"

	"hotroom/cmd/internal/harmless"
)

// words says the round in sentences, a row each.
func (r Round) words() []string {
	lines := []string{r.summary()}
	figures := r.figures()
	for i, row := range r.Rows {
		lines = append(lines, r.say(i, row, figures))
	}
	return slices.Concat(lines, r.footnotes(), r.Notes)
}

func (r Round) summary() string {
	parts := []string{count(len(r.Rows), "board")}
	for _, outcome := range []string{Settled, Throttled, Crashed, Unsettled} {
		if n := r.tally(outcome); n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, outcome))
		}
	}
	return capital(r.HotSpot.label()) + ": " + strings.Join(parts, ", ") + "."
}

func (r Round) tally(outcome string) int {
	n := 0
	for _, row := range r.Rows {
		if row.Outcome == outcome {
			n++
		}
	}
	return n
}

// say puts one row in words; figures keep the decimals of their columns.
func (r Round) say(i int, row RoundRow, figures []figure) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d. %s: ", i+1, row.Name)
	if row.Outcome != "" {
		b.WriteString(row.Outcome + ", ")
	}
	if there(row.HotSpot) {
		fmt.Fprintf(&b, "%s %s", harmless.Text(r.HotSpot.Name), join(figures[0].cells[i], r.HotSpot.Unit))
	} else {
		b.WriteString("no temperature")
	}
	if there(row.Limit) {
		fmt.Fprintf(&b, ", limit %s", digits(row.Limit, min(1, decimals(row.Limit))))
	}
	for _, f := range figures[1:] {
		fmt.Fprintf(&b, ", %s %s", f.axis.Name, f.said(i))
	}
	return b.String() + r.mark(row) + "."
}

// said gives a cell for a sentence: a missing number is "not known".
func (f figure) said(i int) string {
	if f.cells[i] == missing {
		return "not known"
	}
	return join(f.cells[i], f.axis.Unit)
}

// samples gives the key to what the round holds.
func (r Round) samples() []sample {
	var list []sample
	has := func(of func(RoundRow) bool) bool { return slices.ContainsFunc(r.Rows, of) }
	for _, outcome := range []string{Settled, Throttled, Unsettled, Crashed} {
		if has(func(row RoundRow) bool { return row.Outcome == outcome && there(row.HotSpot) }) {
			list = append(list, sample{wayTo(outcome), "room to hot spot, " + outcome})
		}
	}
	if has(func(row RoundRow) bool { return there(row.Limit) }) {
		list = append(list, sample{func(s *sketch, at point) { s.stop(at.x+sampleWidth/2, at.y-6, at.y+6) }, "limit"})
	}
	if has(func(row RoundRow) bool { return !there(row.HotSpot) }) {
		list = append(list, sample{sampleCross, "no temperature"})
	}
	return list
}

// wayTo draws a short row with an outcome.
func wayTo(outcome string) func(*sketch, point) {
	return func(s *sketch, at point) {
		tip := point{at.x + sampleWidth - 5, at.y}
		s.add(stroke{points: []point{at, tip}, ink: course, width: 3, dash: stemDash(outcome)})
		s.line(course, point{at.x, at.y - 5}, point{at.x, at.y + 5})
		s.end(outcome, tip)
	}
}
