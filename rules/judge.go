package rules

import (
	"go/token"

	"hotroom/rules/expression"
	"hotroom/rules/facts"
)

// Judgement is what a book says about facts.
type Judgement struct {
	Verdict  string  // yes, with-care, no or unknown
	Say      string  // the verdict's text, values filled in
	Score    float64 // points, between the catalogue's floor and ceiling
	Vetoed   bool    // a veto fired
	Fired    []Fired // in the order of the file
	Unjudged []Unjudged
	Faults   []Fault
}

// Fired is a rule whose condition holds.
type Fired struct {
	Rule   string
	Kind   string
	Text   string // its say, values filled in
	Source string
	Points float64 // what it added to the score
}

// Unjudged is a rule or verdict that needs facts that nobody knows.
type Unjudged struct {
	Rule  string // the rule's name, or "verdict yes" and the like
	Facts []string
}

// Fault is a rule or verdict that broke while it was worked out.
type Fault struct {
	Rule string
	At   token.Position
	What string
}

// Value is one fact with what it was: a float64 in the unit (NaN unknown), a
// string or a bool.
type Value struct {
	Fact  string
	Unit  string
	Value any
}

// String gives "margin.kept_c = 2.5 K".
func (v Value) String() string {
	s := v.Fact + " = " + format(v.Value, asDue)
	if _, number := v.Value.(float64); number && v.Unit != "" && v.Unit != "count" && v.Unit != "share" {
		s += " " + v.Unit
	}
	return s
}

// Judge applies every rule and picks the verdict.
//
// A rule fires when its condition holds. A rule that needs an unknown number
// without asking known(…) for it does not fire and is listed as unjudged; one
// that breaks (a division by zero, points that are not finite or contradict
// its kind) does not fire and is listed as a fault. Neither may make the
// answer better: a fault or an unjudged veto leaves unknown at best, an
// unjudged concern with-care at best. A veto makes the verdict no.
func (b *Book) Judge(f facts.Facts) Judgement {
	e := b.bench(&f)
	defer b.clear(e)
	var j Judgement
	best := rank(Yes)
	points := b.score.start
	all := b.weighAll(e)
	j.Fired = make([]Fired, 0, len(all))
	for _, w := range all {
		r := &b.rules[w.rule]
		o := r.word(&e.Evaluator, w.weight)
		best = min(best, o.best(r.Kind))
		points += o.points
		j.note(r, &o)
	}
	j.Score = min(max(points, b.score.floor), b.score.ceiling)
	e.Conclude(j.Score, j.Vetoed)
	b.decide(&j, &e.Evaluator, best)
	return j
}

// weighAll weighs every rule and gives those that are not silent. The next
// call for the same bench overwrites them.
func (b *Book) weighAll(e *bench) []weighed {
	e.told = e.Tell(b.whens, e.told[:0])
	e.weighed = e.weighed[:0]
	for _, t := range e.told {
		e.weighed = append(e.weighed, weighed{t.Index, b.rules[t.Index].weigh(&e.Evaluator, t.Truth)})
	}
	return e.weighed
}

// bench is where one judgement at a time is worked out.
type bench struct {
	expression.Evaluator
	told    []expression.Told
	weighed []weighed
}

// weighed is a rule, by its index, with its weight.
type weighed struct {
	rule int
	weight
}

// bench gives a bench that sees the facts; clear takes it back.
func (b *Book) bench(f *facts.Facts) *bench {
	e, ok := b.benches.Get().(*bench)
	if !ok {
		e = new(bench)
	}
	e.See(f)
	return e
}

func (b *Book) clear(e *bench) { b.benches.Put(e) }

func (j *Judgement) note(r *rule, o *outcome) {
	if len(o.unknown) > 0 {
		j.Unjudged = append(j.Unjudged, Unjudged{r.Name, o.unknown})
	}
	if o.broken != nil {
		j.Faults = append(j.Faults, Fault{r.Name, r.At, o.broken.Error()})
	}
	if !o.fired {
		return
	}
	j.Vetoed = j.Vetoed || r.Kind == Veto
	j.Fired = append(j.Fired, Fired{
		Rule: r.Name, Kind: r.Kind, Text: o.text, Source: r.Source, Points: o.points,
	})
}

func values(x *expression.Expression, e *expression.Evaluator) []Value {
	all := make([]Value, len(x.Mentions))
	for i, fact := range x.Mentions {
		all[i] = Value{fact.Name, fact.Unit, e.Fact(fact)}
	}
	return all
}
