package expression

import (
	"testing"

	"hotroom/rules/facts"
)

func TestClauses(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string // what each names, then what it needs
	}{
		{"score > 3", []string{"", ""}},
		{"margin.kept_c >= 3 && score >= 60 && evidence.crashed_near == 0", []string{"margin.kept_c", "margin.kept_c", "", "", "evidence.crashed_near", "evidence.crashed_near"}},
		{"known(board.price) && board.price < 90 || vetoed", []string{"board.price", ""}},
		{"known(board.price) && board.price < 90", []string{"board.price", "", "board.price", ""}},
		{"board.tunable", []string{"board.tunable", ""}},
	} {
		x, problems := compile(t, c.text, YesNo, ForVerdict)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		var got []string
		for _, clause := range x.Clauses() {
			got = append(got, names(clause.Mentions), names(clause.Needs))
		}
		if len(got) != len(c.want) {
			t.Errorf("%s: got %q, want %q", c.text, got, c.want)
			continue
		}
		for i := range got {
			if got[i] != c.want[i] {
				t.Errorf("%s: got %q, want %q", c.text, got, c.want)
				break
			}
		}
	}
}

// A condition holds exactly where all its clauses do.
func TestClausesTogetherAreTheCondition(t *testing.T) {
	x, problems := compile(t, "margin.kept_c >= 3 && (board.price < 90 || asked.tuned) && score >= 60", YesNo, ForVerdict)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var e Evaluator
	for i := range 16 {
		f := facts.Calm()
		f.Margin.KeptC, f.Board.Price, f.Asked.Tuned = float64(5*(i&1)), float64(60*(i&2)), i&4 != 0
		e.See(&f)
		e.Conclude(float64(10*(i&8)), false)
		all := true
		for _, clause := range x.Clauses() {
			all = all && e.Truth(clause) == Holds
		}
		if want := e.Truth(x) == Holds; all != want {
			t.Errorf("%d: the clauses say %v, the condition %v", i, all, want)
		}
	}
}
