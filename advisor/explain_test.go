package advisor_test

import (
	"context"
	"testing"

	"hotroom/advisor"
)

// The rules that fired in an explanation are the findings of the same answer,
// with the same points.
func TestExplainAgreesWithAdvise(t *testing.T) {
	s, problems, err := advisor.Open(advisor.Source{}, "test")
	if err != nil || problems.Fatal() {
		t.Fatal(err, problems)
	}
	base := s.Base()
	for _, b := range base.Boards {
		for _, c := range base.Chips {
			if b.Socket != c.Socket {
				continue
			}
			x, err := advisor.Explain(context.Background(), s, advisor.Question{Board: b.ID, Chip: c.ID})
			if err != nil {
				t.Fatal(err)
			}
			fired := map[string]float64{}
			for _, r := range x.Rules {
				if r.Fired {
					fired[r.Name] = r.Given
				}
			}
			for _, f := range x.Advice.Findings {
				if points, ok := fired[f.Rule]; f.Source != "the heat balance of the model" && (!ok || points-f.Points > 1e-4 || f.Points-points > 1e-4) {
					t.Errorf("%s %s: finding %s with %g points, explained %g (%v)", b.ID, c.ID, f.Rule, f.Points, points, ok)
				}
			}
			if x.Facts.Board.ID != b.ID || x.Facts.Chip.ID != c.ID {
				t.Errorf("facts of %s and %s", x.Facts.Board.ID, x.Facts.Chip.ID)
			}
		}
	}
}
