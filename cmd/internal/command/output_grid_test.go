package command

import (
	"math"
	"testing"
)

func nan() float64 { return math.NaN() }

func TestGrid(t *testing.T) {
	columns := []column{
		{title: "Board", cells: []string{"Gorsebank Slate", "日本 board"}, flex: true},
		{title: "Hot", unit: "°C", cells: []string{"70", "105"}, right: true},
		{title: "Verdict", cells: []string{"yes", "no"}, looks: []string{green, red}},
		{title: "More", cells: []string{"words", "words"}, spare: true},
	}
	for _, tt := range []struct {
		name string
		st   style
		want string
		ok   bool
	}{
		{
			"wide",
			style{width: 80},
			"Board            Hot  Verdict  More\n                  °C\nGorsebank Slate   70  yes      words\n日本 board       105  no       words\n", true,
		},
		{
			"without its spaces",
			style{width: 33},
			"Board           Hot Verdict More\n                 °C\nGorsebank Slate  70 yes     words\n日本 board      105 no      words\n", true,
		},
		{
			"narrowed",
			style{width: 30},
			"Board      Hot  Verdict  More\n            °C\nGorsebank   70  yes      words\nSlate\n日本       105  no       words\nboard\n", true,
		},
		{
			"a column less",
			style{width: 22},
			"Board      Hot Verdict\n            °C\nGorsebank   70 yes\nSlate\n日本 board 105 no\n(22 columns leave no\n room for: More)\n", true,
		},
		{"too narrow", style{width: 18}, "", false},
		{
			"painted",
			style{width: 80, colour: true},
			"\x1b[1mBoard\x1b[0m            \x1b[1mHot\x1b[0m  \x1b[1mVerdict\x1b[0m  \x1b[1mMore\x1b[0m\n                  \x1b[1m°C\x1b[0m\n" +
				"Gorsebank Slate   70  \x1b[32myes\x1b[0m      words\n日本 board       105  \x1b[31mno\x1b[0m       words\n", true,
		},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if got, ok := tt.st.grid(columns); got != tt.want || ok != tt.ok {
				t.Errorf("%v\n%s\nwant\n%s", ok, got, tt.want)
			}
		})
	}
}
