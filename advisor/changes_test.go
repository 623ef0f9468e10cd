package advisor_test

import (
	"strings"
	"testing"

	"hotroom/advisor"
)

func TestChangesTurnItIntoAYes(t *testing.T) {
	s := demo(t)
	for _, c := range []struct {
		name  string
		q     advisor.Question
		wants []string // how the texts start
	}{
		{"no", advisor.Question{Board: "kiln", Chip: "v10", RoomC: number(33)}, []string{"Work it no harder than office work"}},
		{
			"with care",
			advisor.Question{Board: "brook", Chip: "v10", RoomC: number(38)},
			[]string{"Cap the package power at ", "Work it no harder than compiling", "Keep the room at "},
		},
		{"yes", advisor.Question{Board: "gneiss", Chip: "v6", RoomC: number(20)}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, err := advisor.Advise(t.Context(), s, c.q)
			if err != nil {
				t.Fatal(err)
			}
			if len(a.Changes) != len(c.wants) {
				t.Errorf("got %d changes, want %d: %+v", len(a.Changes), len(c.wants), a.Changes)
			}
			for i, change := range a.Changes {
				if i < len(c.wants) && !strings.HasPrefix(change.Text, c.wants[i]) {
					t.Errorf("got %q, want %q", change.Text, c.wants[i])
				}
				again, err := advisor.Advise(t.Context(), s, change.Question)
				if err != nil || again.Verdict != advisor.Yes || *again.Margin.KeptC != *change.MarginKeptC {
					t.Errorf("%q does not lead to a yes: %q, %v", change.Text, again.Verdict, err)
				}
			}
		})
	}
}
