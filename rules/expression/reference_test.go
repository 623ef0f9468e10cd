package expression

import (
	"errors"
	"reflect"

	"hotroom/rules/facts"

	"github.com/expr-lang/expr/builtin"
	"github.com/expr-lang/expr/checker"
	"github.com/expr-lang/expr/compiler"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"
	"github.com/expr-lang/expr/vm"
)

// Scene is what the machine sees: the facts and, for verdicts, the outcome of
// the rules.
type Scene struct {
	facts.Facts
	Score  float64 `expr:"score"`  // points, between the floor and the ceiling
	Vetoed bool    `expr:"vetoed"` // a veto has fired
}

// failer is what tests and laws have in common.
type failer interface {
	Helper()
	Fatalf(format string, values ...any)
}

// reference compiles a text for expr's own machine, with expr's own type
// check: what the closures are held to. It is nil where the text is refused.
func reference(t failer, text string, scope Scope) *vm.Program {
	t.Helper()
	_, kind, root, problems := new(Compiler).check(source(text), Bad, scope)
	if len(problems) > 0 {
		return nil
	}
	c := machineConfig()
	c.Expect = map[Kind]reflect.Kind{Number: reflect.Float64, Word: reflect.String, YesNo: reflect.Bool}[kind]
	tree := &parser.Tree{Node: root, Source: file.NewSource(text)}
	if _, err := new(checker.Checker).Check(tree, c); err != nil {
		t.Fatalf("%q passes our check and not expr's: %v", text, err)
	}
	program, err := compiler.Compile(tree, c)
	if err != nil {
		t.Fatalf("%q passes our check and expr's, and does not compile: %v", text, err)
	}
	return program
}

// machineConfig allows expr what this package allows and nothing else.
func machineConfig() *conf.Config {
	c := conf.CreateNew()
	c.WithEnv(Scene{})
	c.MaxNodes = mostParts
	for name := range c.Builtins {
		if _, ok := functions[name]; !ok {
			c.Disabled[name] = true
			delete(c.Builtins, name)
		}
	}
	c.Functions[divide] = &builtin.Function{
		Name:  divide,
		Types: []reflect.Type{reflect.TypeFor[func(float64, float64) float64]()},
		Func:  divided,
	}
	return c
}

func divided(values ...any) (any, error) {
	over, under := values[0].(float64), values[1].(float64)
	if under == 0 {
		return nil, errDivision
	}
	return over / under, nil
}

// runReference gives what the machine makes of a scene.
func runReference(program *vm.Program, s any) (any, error) {
	value, err := new(vm.VM).Run(program, s)
	var placed *file.Error
	if errors.As(err, &placed) {
		err = errors.New(placed.Message)
	}
	return value, err
}
