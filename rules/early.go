package rules

import (
	"slices"
	"strings"
	"sync"

	"hotroom/rules/expression"
	"hotroom/rules/facts"
)

// ceilings is the group of the facts that take the most to work out.
const ceilings = "ceiling"

// early is what can be said of a verdict before the ceilings are known. It is
// found when first asked for.
type early struct {
	once sync.Once
	open []bool    // by rule: it waits for a ceiling
	sums []float64 // what the open rules may add to the score, points
	bars bool      // an open rule may keep the verdict from being a yes
	none bool      // nothing can be said
	demands
}

// mostSums bounds the sums that are tried: those of four open rules.
const mostSums = 16

// find finds the rules that wait for ceilings. Nothing can be said where the
// points of one are worked out, or where a verdict itself waits.
func (e *early) find(b *Book) {
	e.demand(b)
	e.open, e.sums = make([]bool, len(b.rules)), []float64{0}
	for i := range b.rules {
		if r := &b.rules[i]; strings.Contains(r.When+r.Points, ceilings) {
			e.open[i] = true
			e.wait(r)
		}
	}
	for i := range b.verdicts {
		e.none = e.none || waits(b.verdicts[i].when)
	}
	e.none = e.none || len(e.sums) > mostSums
}

// wait takes in a rule that waits.
func (e *early) wait(r *rule) {
	e.none = e.none || r.fixed.state != fired
	e.bars = e.bars || r.Kind == Veto || r.Kind == Concern || r.when.Divides || r.say.divides()
	if r.fixed.points != 0 && len(e.sums) <= mostSums {
		for _, sum := range slices.Clone(e.sums) {
			e.sums = append(e.sums, sum+r.fixed.points)
		}
	}
}

func waits(x *expression.Expression) bool {
	return x != nil && slices.ContainsFunc(x.Mentions, func(f facts.Fact) bool { return strings.HasPrefix(f.Name, ceilings) })
}

// Outlook is what Judge will come to, whatever the ceilings turn out to be.
type Outlook uint8

// The outlooks.
const (
	OpenYet Outlook = iota // it waits for them
	SureYes
	SureNoYes // any verdict but yes
)

// lookAhead gives what is found when first asked for.
func (b *Book) lookAhead() *early {
	b.ahead.once.Do(func() { b.ahead.find(b) })
	return &b.ahead
}

// Foresee gives the outlook of facts whose ceilings are not known yet: they are
// not looked at, and nothing is put into words.
func (b *Book) Foresee(f *facts.Facts) Outlook {
	ahead := b.lookAhead()
	e := b.bench(f)
	defer b.clear(e)
	switch {
	case ahead.all.barred(&e.Evaluator):
		return SureNoYes
	case ahead.none:
		return OpenYet
	}
	points, doubt, barred := b.sum(e, ahead.open)
	if barred {
		return SureNoYes
	}
	return b.outlook(e, points, ahead.sums, doubt || ahead.bars)
}

// IsYes reports whether the verdict on facts is a yes, and puts nothing into
// words unless that decides it.
func (b *Book) IsYes(f *facts.Facts) bool {
	e := b.bench(f)
	defer b.clear(e)
	points, doubt, barred := b.sum(e, nil)
	if barred {
		return false
	}
	switch b.outlook(e, points, []float64{0}, doubt) {
	case SureYes:
		return true
	case SureNoYes:
		return false
	}
	return b.Judge(*f).Verdict == Yes
}

// sum adds the points of all rules that are not open. Doubt says that one of
// their texts may break; barred, that one of them keeps the verdict from being a
// yes.
func (b *Book) sum(e *bench, open []bool) (points float64, doubt, barred bool) {
	points = b.score.start
	for _, w := range b.weighAll(e) {
		switch r := &b.rules[w.rule]; {
		case open != nil && open[w.rule]:
		case w.bars(r.Kind):
			return 0, false, true
		default:
			points += w.points
			doubt = doubt || w.state == fired && r.say.divides()
		}
	}
	return points, doubt, false
}

// outlook tries what may yet be added to the points. Doubt says that a yes may
// yet be spoilt, by a text that breaks or by an open rule.
func (b *Book) outlook(e *bench, points float64, sums []float64, doubt bool) Outlook {
	yes := 0
	for _, more := range sums {
		e.Conclude(min(max(points+more, b.score.floor), b.score.ceiling), false)
		if v := b.choose(new(Judgement), &e.Evaluator, rank(Yes)); v.id == Yes {
			yes++
			doubt = doubt || v.say.divides()
		}
	}
	switch {
	case yes == 0:
		return SureNoYes
	case yes == len(sums) && !doubt:
		return SureYes
	}
	return OpenYet
}

// bars reports whether a rule of a kind that is not silent keeps the verdict
// from being a yes.
func (w weight) bars(kind string) bool {
	return kind == Veto || w.state == brokenWhen || w.state == brokenPoints || kind == Concern && w.state != fired
}
