package chart

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func TestNice(t *testing.T) {
	for _, tt := range []struct {
		most   int
		values []float64
		want   string
	}{
		{5, []float64{0, 10}, "0 2 4 6 8 10"},
		{10, []float64{0, 10}, "0 1 2 3 4 5 6 7 8 9 10"},
		{4, []float64{61, 104}, "60 80 100 120"},
		{8, []float64{61, 104}, "60 70 80 90 100 110"},
		{6, []float64{-20, 60}, "-20 0 20 40 60"},
		{2, []float64{4.02, 4.4}, "4.0 4.2 4.4"},
		{5, []float64{0.1, 0.3}, "0.10 0.15 0.20 0.25 0.30"},
		{5, []float64{7}, "6.5 7.0 7.5"},
		{5, []float64{math.NaN(), 3, math.Inf(1), 5}, "3.0 3.5 4.0 4.5 5.0"},
		{5, nil, "0.0 0.2 0.4 0.6 0.8 1.0"},
		{3, []float64{-1e6, 1e6}, "-1000000 0 1000000"},
	} {
		s := nice(tt.most, tt.values...)
		var labels []string
		for _, v := range s.ticks() {
			labels = append(labels, s.label(v))
		}
		if got := strings.Join(labels, " "); got != tt.want {
			t.Errorf("nice(%d, %v) gives %s, want %s", tt.most, tt.values, got, tt.want)
		}
	}
}

func TestRulerAt(t *testing.T) {
	r := ruler{nice(5, 20, 120), 100, 300}
	for v, want := range map[float64]float64{20: 100, 70: 200, 120: 300} {
		if got := r.at(v); math.Abs(got-want) > 1e-9 {
			t.Errorf("%g stands at %g, want %g", v, got, want)
		}
	}
}

func TestDigits(t *testing.T) {
	for _, tt := range []struct {
		v      float64
		places int
		want   string
	}{
		{-0.04, 1, "0.0"},
		{4.4, 2, "4.40"},
		{99.95, 0, "100"},
		{math.NaN(), 1, "–"},
		{math.Inf(-1), 1, "–"},
		{2e6, 0, "–"},
	} {
		if got := digits(tt.v, tt.places); got != tt.want {
			t.Errorf("digits(%g, %d) gives %s, want %s", tt.v, tt.places, got, tt.want)
		}
	}
}

func TestDecimals(t *testing.T) {
	for _, tt := range []struct {
		values []float64
		want   int
	}{
		{[]float64{20, 25, 30}, 0},
		{[]float64{20, 22.5}, 1},
		{[]float64{83.123}, 1},
		{[]float64{4.4, 4.13}, 2},
		{[]float64{4.4, math.NaN()}, 1},
		{nil, 0},
	} {
		if got := decimals(tt.values...); got != tt.want {
			t.Errorf("decimals(%v) gives %d, want %d", tt.values, got, tt.want)
		}
	}
}

func TestWrap(t *testing.T) {
	for _, tt := range []struct {
		text  string
		width float64
		want  []string
	}{
		{"", 5, []string{""}},
		{"one two three", 7, []string{"one two", "three"}},
		{"abcdefghij k", 4, []string{"abcd", "efgh", "ij k"}},
		{"at 31.6" + glue + "°C", 8, []string{"at", "31.6" + glue + "°C"}},
		{"温度温度", 5, []string{"温度", "温度"}},
	} {
		if got := wrap(tt.text, tt.width, columns); fmt.Sprint(got) != fmt.Sprint(tt.want) {
			t.Errorf("wrap(%q, %g) gives %q, want %q", tt.text, tt.width, got, tt.want)
		}
	}
	if got := atMost(2, "one two three four", 5, columns); fmt.Sprint(got) != "[one two…]" {
		t.Errorf("atMost gives %q", got)
	}
}

func TestBroken(t *testing.T) {
	line := []point{{0, 0}, {10, 0}, {10, 5}}
	got := fmt.Sprint(broken(line, []float64{6, 3}))
	if want := "[[{0 0} {6 0}] [{9 0} {10 0} {10 5}]]"; got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
