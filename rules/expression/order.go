package expression

import (
	"hotroom/rules/facts"

	"github.com/expr-lang/expr/ast"
)

// order compares two numbers. A fact against a constant is what most
// conditions are made of, so that is done in one step.
func (b *builder) order(n *ast.BinaryNode) yesNo {
	member, isFact := n.Left.(*ast.MemberNode)
	value, isConstant := constant(n.Right)
	if isFact && isConstant {
		return factOrder(n.Operator, b.fact(member), value)
	}
	left, right := b.number(n.Left), b.number(n.Right)
	switch n.Operator {
	case "<":
		return func(e *Evaluator) bool { return left(e) < right(e) }
	case "<=":
		return func(e *Evaluator) bool { return left(e) <= right(e) }
	case ">":
		return func(e *Evaluator) bool { return left(e) > right(e) }
	}
	return func(e *Evaluator) bool { return left(e) >= right(e) }
}

func factOrder(operator string, fact facts.Fact, value float64) yesNo {
	field := fact.NumberField()
	switch operator {
	case "<":
		return func(e *Evaluator) bool { return *field(&e.scene.Facts) < value }
	case "<=":
		return func(e *Evaluator) bool { return *field(&e.scene.Facts) <= value }
	case ">":
		return func(e *Evaluator) bool { return *field(&e.scene.Facts) > value }
	}
	return func(e *Evaluator) bool { return *field(&e.scene.Facts) >= value }
}
