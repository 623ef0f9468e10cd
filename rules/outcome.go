package rules

import (
	"fmt"
	"strconv"

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

// fix works out beforehand what a rule weighs whose points are none or plain.
func (r *rule) fix() {
	if r.Points == "" {
		r.fixed = weight{state: fired}
	} else if n, err := strconv.ParseFloat(r.Points, 64); err == nil && n-n == 0 && n*r.sign >= 0 {
		r.fixed = weight{fired, n}
	}
}

// weigh takes what the condition comes to and, where it holds, works out the
// points.
func (r *rule) weigh(e *expression.Evaluator, when expression.Truth) weight {
	switch when {
	case expression.Silent:
		return weight{}
	case expression.Unjudged:
		return weight{state: unknownWhen}
	case expression.Broken:
		return weight{state: brokenWhen}
	}
	if r.fixed.state == fired {
		return r.fixed
	}
	x := r.points.expression()
	switch {
	case x == nil:
		return weight{state: fired}
	case !e.Known(x):
		return weight{state: unknownPoints}
	}
	n, err := e.Number(x)
	if err != nil || n*r.sign < 0 {
		return weight{state: brokenPoints}
	}
	return weight{fired, n}
}

// try applies one rule.
func (r *rule) try(e *expression.Evaluator) outcome {
	return r.word(e, r.weigh(e, e.Truth(r.when)))
}

// word puts what a rule came to into words.
func (r *rule) word(e *expression.Evaluator, w weight) outcome {
	switch w.state {
	case silent:
		return outcome{}
	case unknownWhen:
		return outcome{unknown: e.Unknown(r.when)}
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
		o.unknown = e.Unknown(r.points.expression())
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
