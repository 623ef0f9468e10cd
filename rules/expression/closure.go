package expression

import (
	"hotroom/rules/facts"

	"github.com/expr-lang/expr/ast"
)

// An expression is worked out by a tree of closures, one type for each kind.
// They read what the evaluator that runs them sees.
type (
	number func(*Evaluator) float64
	word   func(*Evaluator) string
	yesNo  func(*Evaluator) bool
)

// builder makes closures of a checked tree.
type builder struct {
	divides bool // by something that may be zero

	uncovered ast.Node // the last node that it does not cover
}

func (b *builder) build(x *Expression, root ast.Node) {
	switch x.Kind {
	case Number:
		x.number = b.number(root)
		x.value, x.fixed = constant(root)
	case Word:
		x.word = b.word(root)
	case YesNo:
		x.gate, x.rest = b.split(root)
	}
}

// kind tells the kind of a node of a checked tree from its form.
func (b *builder) kind(n ast.Node) Kind {
	switch n := n.(type) {
	case *ast.StringNode:
		return Word
	case *ast.BoolNode:
		return YesNo
	case *ast.IdentifierNode:
		return outcomeKind(n.Value)
	case *ast.MemberNode:
		return kindOf(b.fact(n).Type)
	case *ast.UnaryNode:
		return numberIf(n.Operator == "-" || n.Operator == "+")
	case *ast.BinaryNode:
		return numberIf(n.Operator == "-" || n.Operator == "+" || n.Operator == "*")
	case *ast.ConditionalNode:
		return b.kind(n.Exp1)
	}
	return Number
}

func numberIf(number bool) Kind {
	if number {
		return Number
	}
	return YesNo
}

func (b *builder) fact(n *ast.MemberNode) facts.Fact {
	fact, ok := factOf(n)
	if !ok {
		b.uncovered = n
	}
	return fact
}

func (b *builder) word(n ast.Node) word {
	switch n := n.(type) {
	case *ast.StringNode:
		value := n.Value
		return func(*Evaluator) string { return value }
	case *ast.MemberNode:
		return readWord(b.fact(n))
	case *ast.ConditionalNode:
		return choose(b.yesNo(n.Cond), b.word(n.Exp1), b.word(n.Exp2))
	}
	b.uncovered = n
	return nil
}

func readWord(fact facts.Fact) word {
	place := fact.Place()
	return func(e *Evaluator) string { return e.words[place] }
}

func choose[T any](condition yesNo, yes, no func(*Evaluator) T) func(*Evaluator) T {
	return func(e *Evaluator) T {
		if condition(e) {
			return yes(e)
		}
		return no(e)
	}
}
