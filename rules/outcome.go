package rules

import (
	"fmt"

	"hotroom/rules/expression"
)

// outcome is what one rule came to.
type outcome struct {
	fired   bool
	points  float64
	text    string
	unknown []string // facts that it needs and nobody knows
	broken  error
}

// weight is what one rule came to before anything is put into words.
type weight struct {
	state  state
	points float64
}

type state uint8

const (
	silent        state = iota
	fired               // the condition holds
	unknownWhen         // the condition needs what nobody knows
	unknownPoints       // it holds, and the points need what nobody knows
	brokenWhen          // the condition breaks
	brokenPoints        // it holds, and the points break or contradict the kind
)

// weigh works out the condition and, where it holds, the points.
func (r *rule) weigh(e *expression.Evaluator) weight {
	if !r.when.Known(e.Facts()) {
		return weight{state: unknownWhen}
	}
	holds, err := e.YesNo(r.when)
	switch {
	case err != nil:
		return weight{state: brokenWhen}
	case !holds:
		return weight{}
	}
	x := r.points.expression()
	switch {
	case x == nil:
		return weight{state: fired}
	case !x.Known(e.Facts()):
		return weight{state: unknownPoints}
	}
	n, err := e.Number(x)
	if err != nil || wrongSign(r.Kind, n) != "" {
		return weight{state: brokenPoints}
	}
	return weight{fired, n}
}

// try applies one rule.
func (r *rule) try(e *expression.Evaluator) outcome {
	w := r.weigh(e)
	switch w.state {
	case silent:
		return outcome{}
	case unknownWhen:
		return outcome{unknown: r.when.Unknown(e.Facts())}
	case brokenWhen:
		_, err := e.YesNo(r.when)
		return outcome{broken: fmt.Errorf("when: %w", err)}
	}
	return r.fire(e, w)
}

// fire words a rule whose condition holds. A veto needs neither points nor
// text to be a veto, so it fires even where one of them breaks.
func (r *rule) fire(e *expression.Evaluator, w weight) outcome {
	o := outcome{fired: w.state == fired || r.Kind == Veto, points: w.points}
	o.text, o.broken = r.say.fill(e)
	if o.broken != nil {
		o.broken = fmt.Errorf("say: %w", o.broken)
	}
	switch w.state {
	case unknownPoints:
		o.unknown = r.points.expression().Unknown(e.Facts())
	case brokenPoints:
		o.broken = fmt.Errorf("points: %w", r.pointsFault(e))
	}
	return o
}

// pointsFault says how the points break.
func (r *rule) pointsFault(e *expression.Evaluator) error {
	n, err := e.Number(r.points.expression())
	if err == nil {
		err = fmt.Errorf("a %s may not have %v", r.Kind, n)
	}
	return err
}

// best gives the rank of the best verdict that the outcome leaves possible
// for a rule of this kind.
func (o *outcome) best(kind string) int {
	switch {
	case o.fired && kind == Veto:
		return rank(No)
	case o.broken != nil, len(o.unknown) > 0 && kind == Veto:
		return rank(Unknown)
	case len(o.unknown) > 0 && kind == Concern:
		return rank(WithCare)
	}
	return rank(Yes)
}
