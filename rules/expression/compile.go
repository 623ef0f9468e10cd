package expression

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hotroom/knowledge/document"
	"hotroom/rules/facts"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/file"
)

// The bounds on one expression. There is no limit on steps: without loops the
// work is bounded by the length. The longest rule of the default catalogue has
// under 200 bytes and 30 parts.
const (
	mostBytes = 2000
	mostParts = 200
)

// divide is the name of the checked division inside a tree; no expression can
// spell it.
const divide = "a/b"

// Compiler compiles expressions over the facts. The zero value is ready; it is
// not safe for concurrent use.
type Compiler struct {
	vocabulary *vocabulary // made when a name is first looked for in vain
	seen       []ast.Node  // room for a check
}

// NewCompiler makes a compiler.
func NewCompiler() *Compiler { return &Compiler{} }

// Fact finds a fact by its full name, or says what may have been meant.
func (c *Compiler) Fact(name string) (fact facts.Fact, suggestion string, ok bool) {
	fact, ok = facts.Find(name)
	if !ok {
		suggestion = c.words().suggest(name)
	}
	return fact, suggestion, ok
}

func (c *Compiler) words() *vocabulary {
	if c.vocabulary == nil {
		c.vocabulary = newVocabulary(facts.List())
	}
	return c.vocabulary
}

// Compile checks and compiles an expression of the wanted kind; Bad wants any.
// It reports every mistake that it can see; the expression is nil when there
// is one.
func (c *Compiler) Compile(text Text, wanted Kind, scope Scope) (*Expression, document.Problems) {
	if x := plain(text.String()); x != nil && (x.Kind == wanted || wanted == Bad) {
		return x, nil
	}
	check, kind, root := c.quick(text, wanted, scope)
	if root == nil {
		var problems document.Problems
		if check, kind, root, problems = c.check(text, wanted, scope); len(problems) > 0 {
			return nil, problems
		}
	}
	x := check.expression(kind)
	var b builder
	if b.build(x, root); b.uncovered != nil {
		return nil, document.Problems{text.Problem(0, fmt.Sprintf("the program cannot work out %s", b.uncovered), "report this")}
	}
	x.Divides = b.divides
	if scope == ForVerdict && kind == YesNo {
		x.root = root
	}
	return x, nil
}

// quick reads a plain text without mistakes into a checked tree; the root is
// nil where the text is not so.
func (c *Compiler) quick(text Text, wanted Kind, scope Scope) (*check, Kind, ast.Node) {
	source := text.String()
	if len(source) > mostBytes || commentAt(source) >= 0 {
		return nil, Bad, nil
	}
	root := quick(source)
	if root == nil {
		return nil, Bad, nil
	}
	check := &check{compiler: c, scope: scope, text: text, seen: c.seen[:0]}
	kind := check.kind(&root)
	c.seen = check.seen
	if kind == Bad || wanted != Bad && kind != wanted || len(check.problems) > 0 {
		return nil, Bad, nil
	}
	return check, kind, root
}

// check reads any text into a checked tree.
func (c *Compiler) check(text Text, wanted Kind, scope Scope) (*check, Kind, ast.Node, document.Problems) {
	tree, problems := parse(text)
	if len(problems) > 0 {
		return nil, Bad, nil, problems
	}
	check := &check{compiler: c, scope: scope, text: text}
	kind := check.kind(&tree.Node)
	if wanted != Bad && kind != Bad && kind != wanted {
		check.refuse(tree.Node, fmt.Sprintf("this must give %s, and it gives %s", wanted, kind), mendKind(wanted))
	}
	return check, kind, tree.Node, check.problems
}

// plain reads the commonest texts at once: one number, or one fact.
func plain(text string) *Expression {
	if len(text) > mostBytes {
		return nil
	}
	text = strings.TrimSpace(text)
	if fact, ok := facts.Find(text); ok {
		x := &Expression{Kind: kindOf(fact.Type), Mentions: []facts.Fact{fact}}
		x.read(fact)
		return x
	}
	if strings.Trim(text, "-.0123456789") != "" {
		return nil
	}
	if value, err := strconv.ParseFloat(text, 64); err == nil {
		return &Expression{Kind: Number, Constant: true, value: value, fixed: true, number: func(*Evaluator) float64 { return value }}
	}
	return nil
}

// read makes the expression that is one fact.
func (x *Expression) read(fact facts.Fact) {
	switch x.Kind {
	case Number:
		x.number = readNumber(fact)
		x.need(fact)
	case Word:
		x.word = readWord(fact)
	case YesNo:
		x.gate = yesGate(fact, 1)
	}
}

func (x *Expression) need(fact facts.Fact) {
	x.Needs = append(x.Needs, fact)
	x.needs = append(x.needs, fact.Place())
}

func (c *check) expression(kind Kind) *Expression {
	x := &Expression{Kind: kind, Mentions: c.mentions, Outcome: c.outcome}
	x.Constant = len(c.mentions) == 0 && !c.outcome
	for _, fact := range c.mentions {
		if fact.Type == facts.Number && !slices.Contains(c.asked, fact.Name) {
			x.need(fact)
		}
	}
	return x
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
