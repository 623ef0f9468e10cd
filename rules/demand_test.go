package rules

import (
	"math"
	"testing"

	"hotroom/rules/facts"

	"pgregory.net/rapid"
)

// coldBooks are catalogues that ask for cold facts in every way.
func coldBooks(t *testing.T) map[string]*Book {
	verdict := func(when string) *Book {
		return book(t, head+"[[verdict]]\nid = \"yes\"\nwhen = '"+when+"'\nsay = \"y\"\n[[verdict]]\nid = \"no\"\nsay = \"n\"\n")
	}
	veto := func(when string) *Book {
		return book(t, head+verdicts+"[[rule]]\nname = \"r\"\nkind = \"veto\"\nwhen = '"+when+"'\nsay = \"x\"\n")
	}
	return map[string]*Book{
		"default":         defaultBook(t),
		"a clause":        verdict("margin.kept_c >= 2 && evidence.crashed_near == 0 && score >= 0"),
		"warm in a group": verdict("board.phase_a < 40 && evidence.uncertainty_removed_percent >= 0 && score >= 0"),
		"known":           verdict("(known(board.price) || asked.tuned) && !(board.price > 90) && margin.kept_c > 5"),
		"either":          verdict("evidence.crashed_near == 0 || margin.kept_c > 30"),
		"a veto":          veto("board.price > 90"),
		"a warm veto":     veto("board.price > 90 && margin.kept_c < 5"),
	}
}

// What is barred by the cold facts is no yes, however warm the board gets.
func TestBarred(t *testing.T) {
	for name, b := range coldBooks(t) {
		t.Run(name, func(t *testing.T) {
			barred := 0
			rapid.Check(t, func(t *rapid.T) {
				f := drawEarly(t)
				f.Board.Price = rapid.SampledFrom([]float64{80, 100, math.NaN()}).Draw(t, "price")
				f.Asked.Tuned = rapid.Bool().Draw(t, "tuned")
				if !b.Barred(&f) {
					return
				}
				barred++
				for range 4 {
					warmed := drawEarly(t)
					warmed.Board, warmed.Asked, warmed.Clock, warmed.Evidence = f.Board, f.Asked, f.Clock, f.Evidence
					warmed.Board.PhaseA = rapid.Float64Range(0, 80).Draw(t, "phase current")
					warmed.Evidence.UncertaintyRemoved = rapid.Float64Range(0, 80).Draw(t, "removed")
					warmed.Ceiling = drawCeilings(t)
					if v := b.Judge(warmed).Verdict; v == Yes {
						t.Fatal("barred, and it is a yes")
					}
				}
			})
			if none := name == "warm in a group" || name == "either" || name == "a warm veto"; (barred == 0) != none {
				t.Errorf("barred %d times", barred)
			}
		})
	}
}

func TestLeastKept(t *testing.T) {
	for when, want := range map[string]float64{
		"margin.kept_c >= 3 && score >= 60":                     3,
		"score >= 60 && margin.kept_c > 3":                      math.Nextafter(3, 4),
		"score >= 60":                                           math.Inf(-1),
		"margin.kept_c >= 3 || score >= 60":                     math.Inf(-1),
		"margin.kept_c >= 3 && margin.kept_c - board.price > 4": 3,
	} {
		b := book(t, head+"[[verdict]]\nid = \"yes\"\nwhen = \""+when+"\"\nsay = \"y\"\n[[verdict]]\nid = \"no\"\nsay = \"n\"\n")
		if got := b.LeastKept(); got != want {
			t.Errorf("%s: got %g K, want %g K", when, got, want)
		}
	}
	none := book(t, head+"[[verdict]]\nid = \"no\"\nsay = \"n\"\n")
	if got := none.LeastKept(); !math.IsInf(got, 1) {
		t.Errorf("without a yes: got %g K", got)
	}
	if f := facts.Calm(); !none.Barred(&f) {
		t.Error("without a yes nothing is barred")
	}
}
