package expression

import (
	"errors"
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"hotroom/knowledge/document"
	"hotroom/rules/facts"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/builtin"
	"github.com/expr-lang/expr/checker"
	"github.com/expr-lang/expr/compiler"
	"github.com/expr-lang/expr/conf"
	"github.com/expr-lang/expr/file"
	"github.com/expr-lang/expr/parser"
	"github.com/expr-lang/expr/vm"
)

// The bounds on one expression. The machine has no limit on steps: without
// loops the work is bounded by the length. The longest rule of the default
// catalogue has under 200 bytes and 30 parts.
const (
	mostBytes = 2000
	mostParts = 200
)

// divide is the name of the checked division inside a program; no expression
// can spell it.
const divide = "a/b"

var errDivision = errors.New("division by zero")

// Compiler compiles expressions over the facts. It keeps what expr works out
// about the types, so one serves a whole catalogue; it is not safe for
// concurrent use.
type Compiler struct {
	vocabulary *vocabulary
	config     *conf.Config
	parser     parser.Parser
	checker    checker.Checker
}

// NewCompiler makes a compiler.
func NewCompiler() *Compiler {
	return &Compiler{vocabulary: newVocabulary(facts.List()), config: newConfig()}
}

// Fork makes another compiler, for use beside this one.
func (c *Compiler) Fork() *Compiler {
	return &Compiler{vocabulary: c.vocabulary, config: newConfig()}
}

// Fact finds a fact by its full name, or says what may have been meant.
func (c *Compiler) Fact(name string) (fact facts.Fact, suggestion string, ok bool) {
	fact, ok = c.vocabulary.facts[name]
	if !ok {
		suggestion = c.vocabulary.suggest(name)
	}
	return fact, suggestion, ok
}

// newConfig allows expr what this package allows and nothing else. A result
// must be of the wanted type, not merely perhaps so (ExpectAny is off).
func newConfig() *conf.Config {
	c := conf.CreateNew()
	c.WithEnv(Scene{})
	c.MaxNodes = mostParts
	c.DisableIfOperator = true
	for name := range c.Builtins {
		if !functions[name].builtin {
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

// Compile checks and compiles an expression of the wanted kind; Bad wants any.
// It reports every mistake that it can see; the expression is nil when there
// is one.
func (c *Compiler) Compile(text Text, wanted Kind, scope Scope) (*Expression, document.Problems) {
	if x := c.plain(text.String()); x != nil && (x.Kind == wanted || wanted == Bad) {
		return x, nil
	}
	tree, problems := c.parse(text)
	if len(problems) > 0 {
		return nil, problems
	}
	check := &check{vocabulary: c.vocabulary, scope: scope, text: text, seen: map[ast.Node]bool{}, asked: map[string]bool{}}
	kind := check.kind(&tree.Node)
	if wanted != Bad && kind != Bad && kind != wanted {
		check.refuse(tree.Node, fmt.Sprintf("this must give %s, and it gives %s", wanted, kind), mendKind(wanted))
	}
	if len(check.problems) > 0 {
		return nil, check.problems
	}
	program, err := c.program(tree, kind)
	if err != nil {
		return nil, document.Problems{syntax(text, err)}
	}
	return check.expression(kind, program), nil
}

// plain reads the texts that need no machine: one number, or one fact.
func (c *Compiler) plain(text string) *Expression {
	text = strings.TrimSpace(text)
	if fact, ok := c.vocabulary.facts[text]; ok {
		x := &Expression{Kind: kindOf(fact.Type), Mentions: []facts.Fact{fact}}
		x.field = &x.Mentions[0]
		if x.Kind == Number {
			x.Needs = x.Mentions
		}
		return x
	}
	if strings.Trim(text, "-.0123456789") != "" {
		return nil
	}
	if number, err := strconv.ParseFloat(text, 64); err == nil {
		return &Expression{Kind: Number, Constant: true, number: number}
	}
	return nil
}

func (c *check) expression(kind Kind, program *vm.Program) *Expression {
	x := &Expression{Kind: kind, Mentions: c.mentions, program: program}
	x.Constant = len(c.mentions) == 0 && !c.outcome
	for _, fact := range c.mentions {
		if fact.Type == facts.Number && !c.asked[fact.Name] {
			x.Needs = append(x.Needs, fact)
		}
	}
	return x
}

// program compiles a checked tree, with expr's own type check as the second
// opinion that the machine's safety rests on.
func (c *Compiler) program(tree *parser.Tree, kind Kind) (*vm.Program, error) {
	c.config.Expect = map[Kind]reflect.Kind{Number: reflect.Float64, Word: reflect.String, YesNo: reflect.Bool}[kind]
	c.config.ExpectAny = false
	if _, err := c.checker.Check(tree, c.config); err != nil {
		return nil, err
	}
	return compiler.Compile(tree, c.config)
}

// syntax places an error of expr's own.
func syntax(text Text, err error) document.Problem {
	var e *file.Error
	if !errors.As(err, &e) {
		return text.Problem(0, "this cannot be read as an expression ("+err.Error()+")", mendSyntax)
	}
	what, mend := plainSyntax(e.Message)
	return text.Problem(byteOffset(text.String(), e.From), what, mend)
}
