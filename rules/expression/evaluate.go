package expression

import (
	"errors"
	"fmt"
	"math"

	"hotroom/rules/facts"
)

var errDivision = errors.New("division by zero")

// Evaluator runs expressions over one scene. The zero value is ready; it is
// for one goroutine at a time.
type Evaluator struct {
	scene         Scene
	dividedByZero bool // by the expression at hand
}

// See sets the scene.
func (e *Evaluator) See(s Scene) { e.scene = s }

// Facts gives the facts of the scene.
func (e *Evaluator) Facts() *facts.Facts { return &e.scene.Facts }

// Number evaluates an expression that gives a number. A result that is not a
// finite number is an error.
func (e *Evaluator) Number(x *Expression) (float64, error) {
	if x.number == nil {
		return 0, fmt.Errorf("it gives %s, which is no number", x.Kind)
	}
	value := x.number(e)
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
	if x.yesNo == nil {
		return false, fmt.Errorf("it gives %s, which is neither yes nor no", x.Kind)
	}
	value := x.yesNo(e)
	if e.broke() {
		return false, errDivision
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
		value = x.yesNo(e)
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
