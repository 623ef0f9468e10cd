package command

import (
	"fmt"
	"math"
	"strings"

	"github.com/clipperhouse/displaywidth"

	"hotroom/advisor"
)

// scale draws the way from the room to the limit, with the interval of the hot
// spot on it; "" where there is nothing to draw. Plain, it says the same.
//
//	25 °C                       78   84   91        105 °C
//	 room ......................[====o====]............| limit
func (st style) scale(a advisor.Advice) string {
	if a.Question.RoomC == nil || a.HotSpot.ExpectedC == nil || a.Limit.ValueC == nil {
		return ""
	}
	s := span{room: *a.Question.RoomC, limit: *a.Limit.ValueC, expected: *a.HotSpot.ExpectedC}
	s.low, s.high = s.expected, s.expected
	if a.HotSpot.LowC != nil && a.HotSpot.HighC != nil {
		s.low, s.high = *a.HotSpot.LowC, *a.HotSpot.HighC
	}
	if st.plain {
		return s.inWords()
	}
	return s.drawn(st, verdictColour(a.Verdict))
}

// span holds the temperatures on the scale, °C.
type span struct{ room, low, expected, high, limit float64 }

func (s span) inWords() string {
	share := 100 * (s.expected - s.room) / math.Max(s.limit-s.room, 1)
	return fmt.Sprintf("Between the room at %s and the limit at %s the hot spot stands at %s, %s %% of the way.\n",
		celsius(s.room), celsius(s.limit), celsius(s.expected), whole(share))
}

// The margins beside the line: "  room " and " limit".
const (
	scaleLeft  = "  room "
	scaleRight = " limit"
)

func (s span) drawn(st style, colour string) string {
	r := ruler{from: math.Min(s.room, s.low), to: math.Max(s.limit, s.high)}
	r.columns = st.width - len(scaleLeft) - len(scaleRight)
	limit, end := celsius(s.limit), scaleRight
	if r.at(s.limit) < r.columns-1 { // the interval passes the limit
		r.columns = st.width - len(scaleLeft)
		limit, end = "limit "+limit, ""
	}
	numbers := newMarks(st.width)
	for _, label := range []struct {
		c    float64
		text string
	}{
		{s.expected, whole(s.expected)},
		{s.limit, limit},
		{s.room, celsius(s.room)},
		{s.low, whole(s.low)},
		{s.high, whole(s.high)},
	} {
		numbers.put(len(scaleLeft)+r.at(label.c), label.text)
	}
	return numbers.String() + scaleLeft + s.line(st, colour, r) + end + "\n"
}

// ruler maps temperatures, °C, to columns.
type ruler struct {
	from, to float64
	columns  int
}

func (r ruler) at(c float64) int {
	return int(math.Round((c - r.from) / math.Max(r.to-r.from, 1) * float64(r.columns-1)))
}

// line draws the scale itself: free way, interval, what is past the limit.
// Neighbours of one look are painted together.
func (s span) line(st style, colour string, r ruler) string {
	var b, run strings.Builder
	look := ""
	for i := range r.columns {
		char, code := s.cell(r, i, colour)
		if code != look {
			b.WriteString(st.paint(run.String(), look))
			run.Reset()
			look = code
		}
		run.WriteByte(char)
	}
	b.WriteString(st.paint(run.String(), look))
	return b.String()
}

// cell gives one column's character and its look.
func (s span) cell(r ruler, i int, colour string) (char byte, code string) {
	limit, low, high := r.at(s.limit), r.at(s.low), r.at(s.high)
	inside := i >= low && i <= high
	switch {
	case i == limit:
		return '|', bold
	case i == r.at(s.expected):
		return 'o', bold
	case inside && i > limit:
		return '!', red
	case i == low:
		return '[', colour
	case i == high:
		return ']', colour
	case inside:
		return '=', colour
	case i > limit:
		return ' ', ""
	}
	return '.', dim
}

// marks is a line of labels, each centred over its place; a label that would
// touch an earlier one is left out.
type marks struct{ cells []rune }

func newMarks(width int) *marks {
	return &marks{[]rune(strings.Repeat(" ", width))}
}

func (m *marks) put(centre int, text string) {
	width := displaywidth.String(text)
	from := min(max(0, centre-(width-1)/2), len(m.cells)-width)
	for i := max(0, from-1); i < min(len(m.cells), from+width+1); i++ {
		if m.cells[i] != ' ' {
			return
		}
	}
	copy(m.cells[from:], []rune(text))
}

func (m *marks) String() string { return strings.TrimRight(string(m.cells), " ") + "\n" }
