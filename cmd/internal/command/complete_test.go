package command

import (
	"reflect"
	"testing"

	"hotroom/advisor"
	"hotroom/knowledge"
)

func TestCompletions(t *testing.T) {
	base := &knowledge.Base{
		Boards: []knowledge.Board{{ID: "b1", Socket: "S1"}, {ID: "b2", Socket: "S2"}, {ID: "b\x1b[2J", Socket: "S2"}},
		Chips:  []knowledge.Chip{{ID: "c1", Socket: "S1"}, {ID: "c2", Socket: "S2"}},
		Rooms:  []knowledge.Room{{Word: "hot"}, {Word: "very\nhot"}},
	}
	for _, tt := range []struct {
		kind string
		with advisor.Question
		want []string
	}{
		{"board", advisor.Question{}, []string{"b1", "b2"}},
		{"board", advisor.Question{Chip: "c2"}, []string{"b2"}},
		{"board", advisor.Question{Chip: "unheard of"}, []string{"b1", "b2"}},
		{"chip", advisor.Question{Board: "b1"}, []string{"c1"}},
		{"room", advisor.Question{}, []string{"hot"}},
		{"setup", advisor.Question{}, []string{"rated", "shipped", "open", "custom"}},
		{"weather", advisor.Question{}, nil},
	} {
		if got := Completions(base, tt.kind, tt.with); !reflect.DeepEqual(got, tt.want) {
			t.Errorf("%s with %+v: %q, want %q", tt.kind, tt.with, got, tt.want)
		}
	}
}
