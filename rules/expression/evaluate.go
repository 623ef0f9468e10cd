package expression

import (
	"errors"
	"fmt"
	"math"

	"hotroom/rules/facts"
)

var errDivision = errors.New("division by zero")

// nothing is the place of a 0, past all facts.
const nothing = math.MaxUint8

// Evaluator runs expressions over the facts that it sees. The zero value is ready; it is
// for one goroutine at a time.
type Evaluator struct {
	numbers       [nothing + 1]float64 // of the facts, at their places
	words         [facts.WordCount]string
	score         float64
	vetoed        bool
	dividedByZero bool // by the expression at hand
}

// See sets the facts, before the rules have come to anything.
func (e *Evaluator) See(f *facts.Facts) {
	e.score, e.vetoed = 0, false
	f.Words(&e.words)
	f.Numbers((*[facts.NumberCount]float64)(e.numbers[:]))
}

// Conclude sets what the rules have come to: the score in points, and whether
// a veto has fired.
func (e *Evaluator) Conclude(score float64, vetoed bool) {
	e.score, e.vetoed = score, vetoed
}

// Known reports whether all that an expression needs is known, so that it can
// be judged.
func (e *Evaluator) Known(x *Expression) bool {
	for _, place := range x.needs {
		if math.IsNaN(e.numbers[place]) {
			return false
		}
	}
	return true
}

// Unknown gives the names of the needed facts that nobody knows, nil when the
// expression can be judged.
func (e *Evaluator) Unknown(x *Expression) []string {
	var names []string
	for i, place := range x.needs {
		if math.IsNaN(e.numbers[place]) {
			names = append(names, x.Needs[i].Name)
		}
	}
	return names
}

// Fact gives the value of a fact: a float64, a string or a bool.
func (e *Evaluator) Fact(f facts.Fact) any {
	switch f.Type {
	case facts.Word:
		return e.words[f.Place()]
	case facts.YesNo:
		return e.numbers[f.Place()] != 0
	}
	return e.numbers[f.Place()]
}

// Number evaluates an expression that gives a number. A result that is not a
// finite number is an error.
func (e *Evaluator) Number(x *Expression) (float64, error) {
	if x.number == nil {
		return 0, fmt.Errorf("it gives %s, which is no number", x.Kind)
	}
	value := x.value
	if !x.fixed {
		value = x.number(e)
	}
	switch {
	case e.broke():
		return 0, errDivision
	case math.IsNaN(value) || math.IsInf(value, 0):
		return 0, fmt.Errorf("it gave %v, which is no finite number", value)
	}
	return value, nil
}

// YesNo evaluates a condition.
func (e *Evaluator) YesNo(x *Expression) (bool, error) {
	if x.Kind != YesNo {
		return false, fmt.Errorf("it gives %s, which is neither yes nor no", x.Kind)
	}
	value := x.holds(e)
	if e.broke() {
		return false, errDivision
	}
	return value, nil
}

// Truth is what a condition comes to.
type Truth uint8

// The truths.
const (
	Silent   Truth = iota // it does not hold
	Holds                 // it holds
	Unjudged              // it needs what nobody knows
	Broken                // it divides by zero
)

// Truth judges a condition.
func (e *Evaluator) Truth(x *Expression) Truth {
	if !e.Known(x) {
		return Unjudged
	}
	holds := x.holds(e)
	switch {
	case e.broke():
		return Broken
	case holds:
		return Holds
	}
	return Silent
}

// Figure evaluates an expression of the kind Number; it may be NaN where a fact
// is unknown.
func (e *Evaluator) Figure(x *Expression) (float64, error) {
	value := x.number(e)
	if e.broke() {
		return 0, errDivision
	}
	return value, nil
}

// Word evaluates an expression of the kind Word.
func (e *Evaluator) Word(x *Expression) (string, error) {
	value := x.word(e)
	if e.broke() {
		return "", errDivision
	}
	return value, nil
}

// Value evaluates an expression to a float64, a string or a bool; a number
// may be NaN where a fact is unknown.
func (e *Evaluator) Value(x *Expression) (any, error) {
	var value any
	switch x.Kind {
	case Number:
		value = x.number(e)
	case Word:
		value = x.word(e)
	case YesNo:
		value = x.holds(e)
	}
	if e.broke() {
		return nil, errDivision
	}
	return value, nil
}

// broke reports whether the expression just run has divided by zero.
func (e *Evaluator) broke() bool {
	broke := e.dividedByZero
	e.dividedByZero = false
	return broke
}
