package chart

import (
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/clipperhouse/displaywidth"
	"pgregory.net/rapid"
)

var (
	anyNumber = rapid.OneOf(
		rapid.Float64(), rapid.Float64Range(-50, 150), rapid.Float64Range(0, 5),
		rapid.SampledFrom([]float64{math.NaN(), math.Inf(1), math.Inf(-1), 0, 1e6, -1e6, 1e-300, math.MaxFloat64}),
	)
	anyText = rapid.OneOf(rapid.String(), rapid.StringN(0, 200, -1), rapid.SampledFrom([]string{
		"", " ", "<&\"", "\x1b[1m", "\u00a0", strings.Repeat("温", 80), strings.Repeat("W", 300), "👩‍👩‍👧", "e\u0301", "\u0301",
	}))
	anyAxis = rapid.Custom(func(t *rapid.T) Axis { return Axis{anyText.Draw(t, "name"), anyText.Draw(t, "unit")} })
)

var anySweep = rapid.Custom(func(t *rapid.T) Sweep {
	n := func(name string) float64 { return anyNumber.Draw(t, name) }
	s := Sweep{
		Title: anyText.Draw(t, "title"), Subtitle: anyText.Draw(t, "subtitle"),
		X: anyAxis.Draw(t, "x"), Y: anyAxis.Draw(t, "y"), Clock: anyAxis.Draw(t, "clock"),
		Notes: rapid.SliceOfN(anyText, 0, 2).Draw(t, "notes"), Width: n("width"), Height: n("height"),
	}
	if rapid.Bool().Draw(t, "used up") {
		s.UsedUp = number(n("used up"))
	}
	for range rapid.IntRange(0, 12).Draw(t, "steps") {
		s.Points = append(s.Points, SweepPoint{n("x"), n("expected"), n("low"), n("high"), n("limit"), n("ghz")})
	}
	for range rapid.IntRange(0, 5).Draw(t, "runs") {
		s.Runs = append(s.Runs, SweepRun{anyText.Draw(t, "label"), n("x"), n("y")})
	}
	return s
})

var anyRound = rapid.Custom(func(t *rapid.T) Round {
	n := func(name string) float64 { return anyNumber.Draw(t, name) }
	r := Round{
		Title: anyText.Draw(t, "title"), Subtitle: anyText.Draw(t, "subtitle"),
		HotSpot: anyAxis.Draw(t, "hot spot"), Clock: anyAxis.Draw(t, "clock"), Package: anyAxis.Draw(t, "package"),
		Room: anyAxis.Draw(t, "room"), Notes: rapid.SliceOfN(anyText, 0, 2).Draw(t, "notes"), Width: n("width"),
	}
	outcome := rapid.OneOf(rapid.SampledFrom([]string{Settled, Throttled, Crashed, Unsettled}), anyText)
	for range rapid.IntRange(0, 12).Draw(t, "rows") {
		r.Rows = append(r.Rows, RoundRow{
			anyText.Draw(t, "name"), n("hot spot"), n("limit"), n("room"), n("clock"), n("package"),
			outcome.Draw(t, "outcome"), anyText.Draw(t, "unlike"),
		})
	}
	return r
})

var anyScatter = rapid.Custom(func(t *rapid.T) Scatter {
	n := func(name string) float64 { return anyNumber.Draw(t, name) }
	s := Scatter{
		Title: anyText.Draw(t, "title"), Subtitle: anyText.Draw(t, "subtitle"), Value: anyAxis.Draw(t, "value"),
		Notes: rapid.SliceOfN(anyText, 0, 2).Draw(t, "notes"), Width: n("width"),
	}
	word := rapid.OneOf(rapid.SampledFrom([]string{"measured", "projected", "estimated"}), anyText)
	for range rapid.IntRange(0, 12).Draw(t, "points") {
		s.Points = append(s.Points, ScatterPoint{anyText.Draw(t, "label"), n("predicted"), n("low"), n("high"), n("measured"), word.Draw(t, "evidence")})
	}
	return s
})

// noNumber finds a place on a picture that is NaN or infinite.
var noNumber = regexp.MustCompile(` (points|x|y|cx|cy|r|width|height)="[^"]*(NaN|Inf)[^"]*"`)

func anyDrawing(t *rapid.T) drawing {
	switch rapid.IntRange(0, 2).Draw(t, "kind") {
	case 0:
		return anySweep.Draw(t, "sweep")
	case 1:
		return anyRound.Draw(t, "round")
	}
	return anyScatter.Draw(t, "scatter")
}

// Whatever the data, the SVG is well-formed and the same twice.
func TestSVGLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrawing(t)
		first, second := svgOf(t, d), svgOf(t, d)
		if string(first) != string(second) {
			t.Fatal("two pictures of the same data differ")
		}
		if _, err := wellFormed(first); err != nil {
			t.Fatalf("%v\n%s", err, first)
		}
		if place := noNumber.Find(first); place != nil {
			t.Fatalf("a place is no number: %s", place)
		}
	})
}

// Whatever the data, no line of text is wider than the page.
func TestTextLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrawing(t)
		width := rapid.IntRange(40, 200).Draw(t, "columns")
		for _, plain := range []bool{false, true} {
			for _, line := range strings.Split(d.Text(width, plain), "\n") {
				if got := displaywidth.String(line); got > width {
					t.Fatalf("%d columns of %d: %q", got, width, line)
				}
			}
		}
	})
}

// labels gives the bounds of the texts on a picture.
func (s *sketch) labels() []label {
	var list []label
	for _, m := range s.marks {
		if l, ok := m.(label); ok && strings.TrimSpace(l.text) != "" {
			list = append(list, l)
		}
	}
	return list
}

// Whatever the data, no text leaves the picture.
func TestTextsStayOnThePicture(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		for _, k := range []*sketch{
			anySweep.Draw(t, "sweep").tidy().draw(),
			anyRound.Draw(t, "round").tidy().draw(),
			anyScatter.Draw(t, "scatter").tidy().draw(),
		} {
			page := box{-0.5, -0.5, k.width + 0.5, k.height + 0.5}
			for _, l := range k.labels() {
				if b := l.bounds(); !b.within(page) {
					t.Fatalf("%q leaves the picture %v: %v", l.text, page, b)
				}
			}
		}
	})
}

// Whatever the data, no text of a round touches another.
func TestRoundKeepsApart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		labels := anyRound.Draw(t, "round").tidy().draw().labels()
		for i, l := range labels {
			for _, other := range labels[:i] {
				if l.bounds().touches(shrunk(other.bounds())) {
					t.Fatalf("%q at %v touches %q at %v", l.text, l.bounds(), other.text, other.bounds())
				}
			}
		}
	})
}

// shrunk leaves out a hair, so that neighbours may meet.
func shrunk(b box) box { return box{b.left + 0.5, b.top + 1, b.right - 0.5, b.bottom - 1} }

// Whatever the data, a PNG can be painted.
func TestPNGLaw(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDrawing(t)
		if rapid.IntRange(0, 9).Draw(t, "one in ten") > 0 {
			return
		}
		if err := d.PNG(discard{}); err != nil {
			t.Fatal(err)
		}
	})
}

type discard struct{}

func (discard) Write(b []byte) (int, error) { return len(b), nil }
