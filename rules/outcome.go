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

// try applies one rule.
func (r *rule) try(e *expression.Evaluator) outcome {
	if unknown := r.when.Unknown(e.Facts()); unknown != nil {
		return outcome{unknown: unknown}
	}
	holds, err := e.YesNo(r.when)
	if err != nil {
		return outcome{broken: fmt.Errorf("when: %w", err)}
	}
	if !holds {
		return outcome{}
	}
	return r.fire(e)
}

// fire works out the points and the text of a rule whose condition holds. A
// veto needs neither to be a veto, so it fires even where one of them breaks.
func (r *rule) fire(e *expression.Evaluator) outcome {
	o := outcome{fired: true}
	o.text, o.broken = r.say.fill(e)
	if o.broken != nil {
		o.broken = fmt.Errorf("say: %w", o.broken)
	}
	if r.points == nil {
		return o
	}
	if o.unknown = r.points.Unknown(e.Facts()); o.unknown != nil {
		o.fired = r.Kind == Veto
		return o
	}
	points, err := e.Number(r.points)
	if err == nil && wrongSign(r.Kind, points) != "" {
		err = fmt.Errorf("a %s may not have %v", r.Kind, points)
	}
	if err != nil {
		o.broken = fmt.Errorf("points: %w", err)
		o.fired = r.Kind == Veto
		return o
	}
	o.points = points
	return o
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
