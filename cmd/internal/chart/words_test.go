package chart

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
)

func TestUsedUpOffTheChart(t *testing.T) {
	s := risingSweep()
	s.UsedUp = number(71.25)
	words, err := wellFormed(svgOf(t, s))
	if err != nil {
		t.Fatal(err)
	}
	if want := "Kept margin used up at 71.3" + glue + "°C, which is off this chart."; !strings.Contains(words, want) {
		t.Errorf("the picture does not say %q", want)
	}
	if got := s.Text(80, false); strings.ContainsRune(got, '╎') || !strings.Contains(got, "Kept margin used up at 71.3 °C.") {
		t.Errorf("got\n%s", got)
	}
}

func TestStep(t *testing.T) {
	none := math.NaN()
	for _, tt := range []struct {
		p    SweepPoint
		want string
	}{
		{SweepPoint{20, 80, 70, 90, 105, 4.4}, "At 20 °C: hot spot 80 °C, 90 % between 70 and 90, limit 105, held clock 4.4 GHz."},
		{SweepPoint{20, 98, 88, 108, 105, none}, "At 20 °C: hot spot 98 °C, 90 % between 88 and 108, limit 105, interval reaches past the limit."},
		{SweepPoint{20, 106, none, none, 105, none}, "At 20 °C: hot spot 106 °C, limit 105, past the limit."},
		{SweepPoint{20, none, 70, 90, none, none}, "At 20 °C: cannot settle."},
	} {
		s := Sweep{X: Axis{"room", "°C"}, Points: []SweepPoint{tt.p}}.tidy()
		if got := strings.ReplaceAll(s.step(tt.p), glue, " "); got != tt.want {
			t.Errorf("got  %s\nwant %s", got, tt.want)
		}
	}
}

// The ends of an interval belong to it; a point without one is never judged.
func TestOutside(t *testing.T) {
	none := math.NaN()
	for _, tt := range []struct {
		p    ScatterPoint
		want bool
	}{
		{ScatterPoint{Predicted: 80, Low: 70, High: 90, Measured: 90}, false},
		{ScatterPoint{Predicted: 80, Low: 70, High: 90, Measured: 90.1}, true},
		{ScatterPoint{Predicted: 80, Low: 70, High: 90, Measured: 69.9}, true},
		{ScatterPoint{Predicted: 80, Low: none, High: 90, Measured: 200}, false},
		{ScatterPoint{Predicted: 80, Low: 70, High: 90, Measured: none}, false},
	} {
		if got := tt.p.outside(); got != tt.want {
			t.Errorf("%+v: outside %v, want %v", tt.p, got, tt.want)
		}
	}
}

// A limit in the same cell as the hot spot stands on its own side.
func TestWayLine(t *testing.T) {
	way := ruler{nice(5, 0, 100), 0, 20}
	for _, tt := range []struct {
		row  RoundRow
		want string
	}{
		{RoundRow{Room: 20, HotSpot: 50, Limit: 100, Outcome: Settled}, "    ├─────●         ┃"},
		{RoundRow{Room: 20, HotSpot: 51, Limit: 50, Outcome: Throttled}, "    ├╌╌╌╌┃◆"},
		{RoundRow{Room: 20, HotSpot: 49, Limit: 50, Outcome: Unsettled}, "    ├╌╌╌╌╌○┃"},
		{RoundRow{Room: 20, HotSpot: math.NaN(), Limit: 100, Outcome: Crashed}, "×                   ┃"},
	} {
		if got := strings.TrimRight((Round{}).wayLine(tt.row, way), " "); got != tt.want {
			t.Errorf("%+v\ngot  %q\nwant %q", tt.row, got, tt.want)
		}
	}
}

// Where points crowd, the numbers that are written can be read.
func TestCrowd(t *testing.T) {
	s := risingSweep()
	s.Runs = nil
	for i := range 60 {
		s.Runs = append(s.Runs, SweepRun{fmt.Sprint("run ", i), 20 + float64(i%5)*0.4, 78 + float64(i%7)})
	}
	labels := s.tidy().draw().labels()
	for i, l := range labels {
		if slices.ContainsFunc(labels[:i], func(o label) bool { return l.bounds().touches(shrunk(o.bounds())) }) {
			t.Errorf("%q touches another text", l.text)
		}
	}
	if got := s.Text(100, false); !strings.Contains(got, "Drawn and not listed: 40 more runs.") {
		t.Errorf("the runs that are not listed are not counted:\n%s", got)
	}
}
