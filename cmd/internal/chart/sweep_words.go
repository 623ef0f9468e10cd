package chart

import (
	"fmt"
	"slices"
	"strings"

	"hotroom/cmd/internal/harmless"
)

const cannotSettle = "cannot settle"

// words says what the chart shows, a sentence a line, for those who cannot see
// it.
func (s Sweep) words() []string {
	lines := s.summary()
	for _, p := range s.Points {
		lines = append(lines, s.step(p))
	}
	return slices.Concat(lines, s.runNotes(), s.Notes)
}

func (s Sweep) summary() []string {
	lines := []string{fmt.Sprintf("%s against %s: %s, %s.",
		capital(s.Y.label()), s.X.label(), count(len(s.Points), "step"), count(len(s.Runs), "measured run"))}
	if len(s.limits()) > 0 {
		lines = append(lines, capital(s.limitWords())+".")
	}
	if s.UsedUp != nil {
		lines = append(lines, capital(s.usedUpWords())+".")
	}
	if n := s.unsettled(); n > 0 {
		lines = append(lines, fmt.Sprintf("The board cannot settle at %s.", count(n, "step")))
	}
	return lines
}

// step says one step in words.
func (s Sweep) step(p SweepPoint) string {
	var b strings.Builder
	fmt.Fprintf(&b, "At %s: ", s.X.value(p.X, decimals(s.along()...)))
	places := min(1, decimals(s.across()...))
	if there(p.Expected) {
		fmt.Fprintf(&b, "%s %s", harmless.Text(s.Y.Name), s.Y.value(p.Expected, places))
	} else {
		b.WriteString(cannotSettle)
	}
	if p.banded() {
		fmt.Fprintf(&b, ", 90 %% between %s and %s", digits(p.Low, places), digits(p.High, places))
	}
	if there(p.Limit) {
		fmt.Fprintf(&b, ", limit %s", digits(p.Limit, places))
	}
	if there(p.Clock) {
		fmt.Fprintf(&b, ", %s %s", harmless.Text(s.Clock.Name), s.Clock.value(p.Clock, decimals(s.clocks()...)))
	}
	return b.String() + s.past(p) + "."
}

// past says on which side of the limit a step lies, where that matters.
func (s Sweep) past(p SweepPoint) string {
	switch {
	case !there(p.Limit) || !there(p.Expected):
		return ""
	case p.Expected > p.Limit:
		return ", past the limit"
	case p.banded() && p.High > p.Limit:
		return ", interval reaches past the limit"
	}
	return ""
}

func (s Sweep) limitWords() string {
	limits := s.limits()
	places := min(1, decimals(limits...))
	low, high := s.Y.value(slices.Min(limits), places), s.Y.value(slices.Max(limits), places)
	if low == high {
		return "limit " + low
	}
	return "limit " + digits(slices.Min(limits), places) + " to " + high
}

func (s Sweep) usedUpWords() string {
	return "kept margin used up at " + s.usedUpAt()
}

func (s Sweep) usedUpAt() string { return s.X.value(*s.UsedUp, decimals(round(*s.UsedUp, 1))) }

// beyond says where the margin ends when that is off the chart.
func (s Sweep) beyond() []string {
	if s.UsedUp == nil || s.marksUsedUp() {
		return nil
	}
	return []string{capital(s.usedUpWords()) + ", which is off this chart."}
}

// runNotes names the numbered runs.
func (s Sweep) runNotes() []string {
	var lines []string
	for i, r := range s.Runs {
		lines = append(lines, fmt.Sprintf("Run %d, %s: %s at %s.", i+1, harmless.Text(r.Label),
			s.Y.value(r.Y, min(1, decimals(r.Y))), s.X.value(r.X, decimals(round(r.X, 1)))))
	}
	return lines
}

// someRuns names as many runs as a page has room for, and counts the others.
func (s Sweep) someRuns() []string {
	lines := s.runNotes()
	if more := len(lines) - listed; more > 0 {
		lines = append(lines[:listed], "Drawn and not listed: "+count(more, "more run")+".")
	}
	return lines
}

// samples gives the key to what the chart holds.
func (s Sweep) samples() []sample {
	var list []sample
	if s.unsettled() < len(s.Points) {
		list = append(list, sample{sampleCourse, "expected"})
	}
	if slices.ContainsFunc(s.Points, SweepPoint.banded) {
		list = append(list, sample{sampleBand, "90 % interval"})
	}
	if len(s.limits()) > 0 {
		list = append(list, sample{sampleLimit, "limit"})
	}
	if len(s.Runs) > 0 {
		list = append(list, sample{sampleRun, "measured run"})
	}
	if s.marksUsedUp() {
		list = append(list, sample{sampleUsedUp, "kept margin used up"})
	}
	if s.unsettled() > 0 {
		list = append(list, sample{sampleCross, "the board cannot settle"})
	}
	return list
}

func sampleCourse(s *sketch, at point) {
	s.add(stroke{points: []point{at, {at.x + sampleWidth, at.y}}, ink: course, width: 2.2})
}

func sampleBand(s *sketch, at point) {
	s.add(area{box{at.x, at.y - 5, at.x + sampleWidth, at.y + 5}.corners(), spread90})
}

func sampleLimit(s *sketch, at point) {
	s.limit([]point{{at.x, at.y + 3}, {at.x + sampleWidth - 3, at.y + 3}})
}

func sampleRun(s *sketch, at point) { s.point(diamond, point{at.x + sampleWidth/2, at.y}, 4, text) }

func sampleCross(s *sketch, at point) { s.cross(point{at.x + sampleWidth/2, at.y}, 3.2, alarm) }

func sampleUsedUp(s *sketch, at point) {
	x := at.x + sampleWidth/2
	s.add(stroke{points: []point{{x, at.y - 7}, {x, at.y + 5}}, ink: wall, width: 1.3, dash: dashDotted})
	s.add(area{[]point{{x, at.y - 3}, {x + 5, at.y + 5}, {x - 5, at.y + 5}}, wall})
}
