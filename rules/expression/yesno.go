package expression

import (
	"math"
	"slices"
	"strings"

	"hotroom/rules/facts"

	"github.com/expr-lang/expr/ast"
)

func (b *builder) yesNo(n ast.Node) yesNo {
	switch n := n.(type) {
	case *ast.BoolNode:
		value := n.Value
		return func(*Evaluator) bool { return value }
	case *ast.IdentifierNode:
		return func(e *Evaluator) bool { return e.vetoed }
	case *ast.MemberNode:
		return readYesNo(b.fact(n))
	case *ast.UnaryNode:
		return b.not(n)
	case *ast.BinaryNode:
		return b.condition(n)
	case *ast.ConditionalNode:
		return choose(b.yesNo(n.Cond), b.yesNo(n.Exp1), b.yesNo(n.Exp2))
	}
	b.uncovered = n
	return nil
}

func readYesNo(fact facts.Fact) yesNo {
	place := fact.Place()
	return func(e *Evaluator) bool { return e.numbers[place] != 0 }
}

func (b *builder) not(n *ast.UnaryNode) yesNo {
	if member, ok := n.Node.(*ast.MemberNode); ok {
		place := b.fact(member).Place()
		return func(e *Evaluator) bool { return e.numbers[place] == 0 }
	}
	x := b.yesNo(n.Node)
	return func(e *Evaluator) bool { return !x(e) }
}

func (b *builder) condition(n *ast.BinaryNode) yesNo {
	switch n.Operator {
	case "&&", "and":
		return b.both(n)
	case "||", "or":
		left, right := b.yesNo(n.Left), b.yesNo(n.Right)
		return func(e *Evaluator) bool { return left(e) || right(e) }
	case "<", "<=", ">", ">=":
		return b.order(n)
	case "contains":
		return words(b.word(n.Left), b.word(n.Right), strings.Contains)
	case "startsWith":
		return words(b.word(n.Left), b.word(n.Right), strings.HasPrefix)
	case "endsWith":
		return words(b.word(n.Left), b.word(n.Right), strings.HasSuffix)
	case "in":
		return b.membership(n)
	case "==":
		return b.equal(n)
	case "!=":
		equal := b.equal(n)
		return func(e *Evaluator) bool { return !equal(e) }
	}
	b.uncovered = n
	return nil
}

func words(left, right word, test func(s, part string) bool) yesNo {
	return func(e *Evaluator) bool { return test(left(e), right(e)) }
}

func (b *builder) equal(n *ast.BinaryNode) yesNo {
	switch b.kind(n.Left) {
	case Word:
		return b.equalWords(n)
	case YesNo:
		left, right := b.yesNo(n.Left), b.yesNo(n.Right)
		return func(e *Evaluator) bool { return left(e) == right(e) }
	}
	if fact, ok := askedNumber(n); ok {
		place := b.fact(fact).Place()
		return func(e *Evaluator) bool { return !math.IsNaN(e.numbers[place]) }
	}
	left, right := b.number(n.Left), b.number(n.Right)
	return func(e *Evaluator) bool { return left(e) == right(e) }
}

func (b *builder) equalWords(n *ast.BinaryNode) yesNo {
	member, isFact := n.Left.(*ast.MemberNode)
	literal, isLiteral := n.Right.(*ast.StringNode)
	if isFact && isLiteral {
		place, value := b.fact(member).Place(), literal.Value
		return func(e *Evaluator) bool { return e.words[place] == value }
	}
	left, right := b.word(n.Left), b.word(n.Right)
	return func(e *Evaluator) bool { return left(e) == right(e) }
}

// membership is x in [list of constants].
func (b *builder) membership(n *ast.BinaryNode) yesNo {
	list, ok := n.Right.(*ast.ArrayNode)
	if !ok {
		b.uncovered = n
		return nil
	}
	if b.kind(n.Left) == Word {
		return among(b.word(n.Left), listed(list, func(n ast.Node) string { return n.(*ast.StringNode).Value }))
	}
	return among(b.number(n.Left), listed(list, func(n ast.Node) float64 { return n.(*ast.FloatNode).Value }))
}

func listed[T any](list *ast.ArrayNode, read func(ast.Node) T) []T {
	values := make([]T, len(list.Nodes))
	for i := range values {
		values[i] = read(list.Nodes[i])
	}
	return values
}

func among[T comparable](x func(*Evaluator) T, values []T) yesNo {
	return func(e *Evaluator) bool { return slices.Contains(values, x(e)) }
}
