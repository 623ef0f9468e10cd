package advisor

import "math"

// number makes a value that was given, or asked for, out of a plain one.
func number(v float64) *float64 { return &v }

// value makes a number of the answer: rounded to four decimals, which is finer
// than any measurement, and nil where it has no value.
func value(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	return number(rounded(v))
}

// numbers is room for the numbers of one answer, so that they are one piece of
// memory.
type numbers struct {
	room [40]float64
	used int
}

// value is value with the number in this room, as long as there is some.
func (f *numbers) value(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) || f.used == len(f.room) {
		return value(v)
	}
	at := &f.room[f.used]
	f.used++
	*at = rounded(v)
	return at
}

// rounded rounds to four decimals, and never to a negative zero.
func rounded(v float64) float64 {
	const perUnit = 1e4
	return math.Round(v*perUnit)/perUnit + 0
}

// word makes a word of the answer, nil where there is none.
func word(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}
