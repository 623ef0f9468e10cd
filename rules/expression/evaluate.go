package expression

import (
	"errors"
	"fmt"
	"math"

	"hotroom/rules/facts"

	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/vm"
)

// Evaluator runs expressions over one scene. The zero value is ready; it is
// for one goroutine at a time.
type Evaluator struct {
	scene   Scene
	boxed   any // the scene as the machine takes it, boxed once
	machine vm.VM
}

// See sets the scene.
func (e *Evaluator) See(s Scene) {
	e.scene, e.boxed = s, s
}

// Facts gives the facts of the scene.
func (e *Evaluator) Facts() *facts.Facts { return &e.scene.Facts }

// Number evaluates an expression that gives a number. A result that is not a
// finite number is an error.
func (e *Evaluator) Number(x *Expression) (float64, error) {
	value, err := e.Value(x)
	if err != nil {
		return 0, err
	}
	number, ok := value.(float64)
	switch {
	case !ok:
		return 0, fmt.Errorf("it gave %v, which is no number", value)
	case math.IsNaN(number) || math.IsInf(number, 0):
		return 0, fmt.Errorf("it gave %v, which is no finite number", number)
	}
	return number, nil
}

// YesNo evaluates a condition.
func (e *Evaluator) YesNo(x *Expression) (bool, error) {
	value, err := e.Value(x)
	if err != nil {
		return false, err
	}
	yes, ok := value.(bool)
	if !ok {
		return false, fmt.Errorf("it gave %v, which is neither yes nor no", value)
	}
	return yes, nil
}

// Value evaluates an expression to a float64, a string or a bool; a number
// may be NaN where a fact is unknown.
func (e *Evaluator) Value(x *Expression) (any, error) {
	switch {
	case x.field != nil:
		return x.field.Value(&e.scene.Facts), nil
	case x.program == nil:
		return x.number, nil
	}
	value, err := e.machine.Run(x.program, e.boxed)
	if err != nil {
		return nil, plainError(err)
	}
	return value, nil
}

// plainError takes the place out of the machine's error; who reports it knows
// the place in the user's file.
func plainError(err error) error {
	var e *file.Error
	if errors.As(err, &e) {
		return errors.New(e.Message)
	}
	return err
}
