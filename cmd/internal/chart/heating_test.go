package chart

import (
	"math"
	"strings"
	"testing"

	"github.com/clipperhouse/displaywidth"
	"pgregory.net/rapid"
)

// testHeating is invented: a board that warms, with a curve and two dips.
func testHeating() Heating {
	h := Heating{
		Title: "Dunmarrow Slate with Varnholt V10", Subtitle: "warming under load", Final: number(58),
		Events: [][2]float64{{31, 32}, {40, 41.5}}, Notes: []string{"The makers' limits win over this chart."},
	}
	for i := range 240 {
		x := float64(i) / 4
		fit := 58 - 52*math.Exp(-x/9)
		h.Points = append(h.Points, HeatingPoint{x, fit + 0.3*math.Sin(float64(i)*1.7), fit})
	}
	return h
}

func TestHeatingGolden(t *testing.T) {
	h := testHeating()
	golden(t, "heating.svg", svgOf(t, h))
	golden(t, "heating-40.txt", []byte(h.Text(40, false)))
	golden(t, "heating-60.txt", []byte(h.Text(60, false)))
	golden(t, "heating-100.txt", []byte(h.Text(100, false)))
	golden(t, "heating-plain.txt", []byte(h.Text(80, true)))
}

var anyHeating = rapid.Custom(func(t *rapid.T) Heating {
	n := func(name string) float64 { return anyNumber.Draw(t, name) }
	h := Heating{
		Title: anyText.Draw(t, "title"), Subtitle: anyText.Draw(t, "subtitle"), X: anyAxis.Draw(t, "x"), Y: anyAxis.Draw(t, "y"),
		Notes: rapid.SliceOfN(anyText, 0, 2).Draw(t, "notes"), Width: n("width"), Height: n("height"),
	}
	if rapid.Bool().Draw(t, "final") {
		h.Final = number(n("final"))
	}
	for range rapid.IntRange(0, 12).Draw(t, "points") {
		h.Points = append(h.Points, HeatingPoint{n("x"), n("measured"), n("fitted")})
	}
	for range rapid.IntRange(0, 3).Draw(t, "events") {
		h.Events = append(h.Events, [2]float64{n("from"), n("to")})
	}
	return h
})

// Whatever the data, the picture is well-formed and has no place that is no
// number, and no line of the text is too wide.
func TestHeatingLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		h := anyHeating.Draw(t, "heating")
		picture := svgOf(t, h)
		if _, err := wellFormed(picture); err != nil {
			t.Fatalf("%v\n%s", err, picture)
		}
		if place := noNumber.Find(picture); place != nil {
			t.Fatalf("a place is no number: %s", place)
		}
		for _, line := range strings.Split(h.Text(60, false), "\n") {
			if displaywidth.String(line) > 60 {
				t.Fatalf("too wide: %q", line)
			}
		}
	})
}
