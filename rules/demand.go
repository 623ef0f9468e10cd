package rules

import (
	"math"
	"slices"
	"strings"

	"hotroom/rules/expression"
	"hotroom/rules/facts"
)

// demands is what the catalogue asks of facts before the verdict can be a yes,
// the score aside.
type demands struct {
	all, cold clauses
	vetoes    []*expression.Expression // of the cold facts
	leastKept float64                  // K
}

// clauses are conditions for each verdict that is a yes, of which all must hold
// for it to hold.
type clauses [][]*expression.Expression

// demand finds the demands. Conditions that name the score or a ceiling, or may
// break, are left to those who know them.
func (d *demands) demand(b *Book) {
	d.leastKept = math.Inf(1)
	for i := range b.verdicts {
		if v := &b.verdicts[i]; v.id == Yes {
			d.take(v.when)
		}
	}
	for i := range b.rules {
		if r := &b.rules[i]; r.Kind == Veto && !r.when.Divides && cold(r.when) {
			d.vetoes = append(d.vetoes, r.when)
		}
	}
}

// take takes in the condition of a yes, nil where there is none.
func (d *demands) take(when *expression.Expression) {
	var all, early []*expression.Expression
	least := math.Inf(-1)
	if when != nil {
		for _, x := range when.Clauses() {
			if x.Outcome || x.Divides || waits(x) {
				continue
			}
			all = append(all, x)
			least = max(least, x.Least(keptMargin()))
			if cold(x) {
				early = append(early, x)
			}
		}
	}
	d.all, d.cold = append(d.all, all), append(d.cold, early)
	d.leastKept = min(d.leastKept, least)
}

func keptMargin() facts.Fact {
	f, _ := facts.Find("margin.kept_c")
	return f
}

// coldGroups are the groups of facts that are known before the heat is balanced,
// as far as the clock is not lowered for heat.
var coldGroups = [...]string{"board.", "chip.", "asked.", "clock.", "evidence.", "value."}

// warmFacts are those among them that are not.
var warmFacts = [...]string{"board.phase_a", "evidence.uncertainty_removed_percent"}

// cold reports whether a condition names only such facts.
func cold(x *expression.Expression) bool {
	return !slices.ContainsFunc(x.Mentions, func(f facts.Fact) bool {
		group := f.Name[:strings.Index(f.Name, ".")+1]
		return !slices.Contains(coldGroups[:], group) || slices.Contains(warmFacts[:], f.Name)
	})
}

// barred reports whether no yes can hold.
func (c clauses) barred(e *expression.Evaluator) bool {
	return !slices.ContainsFunc(c, func(all []*expression.Expression) bool {
		return !slices.ContainsFunc(all, func(x *expression.Expression) bool { return e.Truth(x) != expression.Holds })
	})
}

// LeastKept gives the kept margin in K below which no verdict is a yes; -Inf
// where the catalogue names none, +Inf where nothing is a yes.
func (b *Book) LeastKept() float64 { return b.lookAhead().leastKept }

// Barred reports whether a board, a chip, what is asked, the clock that the caps
// allow, the runs and the price keep the verdict from being a yes, however warm
// the board gets. No other facts are looked at, nor board.phase_a and
// evidence.uncertainty_removed_percent.
func (b *Book) Barred(f *facts.Facts) bool {
	ahead := b.lookAhead()
	e := b.bench(f)
	defer b.clear(e)
	return ahead.cold.barred(&e.Evaluator) ||
		slices.ContainsFunc(ahead.vetoes, func(x *expression.Expression) bool { return e.Truth(x) != expression.Silent })
}
