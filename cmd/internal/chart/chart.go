// Package chart draws the charts of hotroom from plain data: as SVG for pages
// and print, as PNG, and as text for a terminal or a screen reader. It knows
// nothing of boards, chips or rules, and imports nothing of the project.
//
// A Sweep shows a hot spot along an axis, a Round a round of testing with a row
// a board, a Scatter measured against predicted values. Each is a struct of
// numbers and words; the zero value of any field is allowed, and a number that
// is NaN, infinite or beyond a million is a value that is not there.
// The same data give the same bytes.
package chart

import (
	"cmp"
	"math"
	"strings"

	"hotroom/cmd/internal/harmless"
)

// Axis says what a number means and its unit: "hot spot", "°C".
type Axis struct {
	Name string
	Unit string // may be empty
}

// label gives "name, unit".
func (a Axis) label() string {
	if a.Unit == "" {
		return harmless.Text(a.Name)
	}
	return harmless.Text(a.Name) + ", " + harmless.Text(a.Unit)
}

// value writes a number with its unit.
func (a Axis) value(v float64, decimals int) string {
	return join(digits(v, decimals), a.Unit)
}

// glue is the space between a number and its unit, where no line breaks.
const glue = "\u00a0"

func join(number, unit string) string {
	return strings.TrimSuffix(number+glue+harmless.Text(unit), glue)
}

// or fills in the words that a caller left out.
func (a Axis) or(name, unit string) Axis {
	if a.Name == "" {
		return Axis{Name: name, Unit: cmp.Or(a.Unit, unit)}
	}
	return a
}

// largest is the magnitude beyond which a number is taken for a mistake; no
// temperature, power or clock comes near it.
const largest = 1e6

// there reports whether a number has a value.
func there(v float64) bool { return math.Abs(v) <= largest }

// present gives the numbers that have a value.
func present(values ...float64) []float64 {
	var list []float64
	for _, v := range values {
		if there(v) {
			list = append(list, v)
		}
	}
	return list
}

// size gives a length in px that was asked for, or what is usual.
func size(asked, usual, least float64) float64 {
	if !there(asked) || asked <= 0 {
		return usual
	}
	return min(max(asked, least), 4000)
}
