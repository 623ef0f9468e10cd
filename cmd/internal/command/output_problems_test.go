package command

import (
	"go/token"
	"slices"
	"strings"
	"testing"
	"time"

	"hotroom/knowledge/document"
)

func TestProblems(t *testing.T) {
	at := token.Position{Filename: "boards.toml", Line: 3, Column: 10}
	for _, tt := range []struct {
		name string
		list document.Problems
		want string
	}{
		{
			"a mistake and a warning",
			document.Problems{
				{At: at, What: "phases is -4", Mend: "give 1 or more", Source: "phases = -4"},
				{At: token.Position{Filename: "runs.csv", Line: 7}, What: "run r-3 is above 105 °C", Mend: "look again", Warning: true},
			},
			"boards.toml:3:10: phases is -4: give 1 or more\n" +
				"    phases = -4\n" +
				"             ^\n" +
				"runs.csv:7: warning: run r-3 is above 105 °C: look again\n" +
				"1 mistake and 1 warning\n",
		},
		{
			"the caret stands under its column behind wide and hostile text",
			document.Problems{{At: token.Position{Filename: "f", Line: 1, Column: 9}, What: "no", Source: "日本\x1b\t="}},
			"f:1:9: no\n" +
				"    日本\\x1b =\n" +
				"             ^\n" +
				"1 mistake and 0 warnings\n",
		},
		{
			"a long line is cut around the caret",
			document.Problems{{At: token.Position{Filename: "f", Line: 1, Column: 301}, What: "no", Source: strings.Repeat("a", 300) + strings.Repeat("b", 300)}},
			"f:1:301: no\n" +
				"    …" + strings.Repeat("a", 36) + strings.Repeat("b", 34) + "…\n" +
				"    " + strings.Repeat(" ", 37) + "^\n" +
				"1 mistake and 0 warnings\n",
		},
		{"none", nil, ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if got := (style{width: 80}).problems(tt.list); got != tt.want {
				t.Errorf("got\n%s\nwant\n%s", got, tt.want)
			}
		})
	}
}

func TestProblemsAreCapped(t *testing.T) {
	got := style{width: 80}.problems(make(document.Problems, 60))
	if !strings.HasSuffix(got, "\n60 mistakes and 0 warnings, of which the first 50 are shown\n") {
		t.Errorf("got %s", got)
	}
}

// Mistakes on one overlong line are shown at once.
func TestProblemsOnALongLine(t *testing.T) {
	p := document.Problem{At: token.Position{Filename: "f", Line: 1, Column: 1<<20 + 1}, What: "no", Source: strings.Repeat("é", 1<<20)}
	began := time.Now()
	got := style{width: 80}.problems(slices.Repeat(document.Problems{p}, mostProblems))
	if took := time.Since(began); took > 2*time.Second || len(got) > 300*mostProblems {
		t.Errorf("%v for %d bytes", took, len(got))
	}
	want := "    …" + strings.Repeat("é", 36) + strings.Repeat("é", 34) + "…\n" + "    " + strings.Repeat(" ", 37) + "^\n"
	if !strings.Contains(got, want) {
		t.Errorf("got\n%.300s", got)
	}
}
