package expression

import (
	"math"

	"hotroom/rules/facts"

	"github.com/expr-lang/expr/ast"
)

func (b *builder) number(n ast.Node) number {
	if value, ok := constant(n); ok {
		return func(*Evaluator) float64 { return value }
	}
	switch n := n.(type) {
	case *ast.IdentifierNode:
		return func(e *Evaluator) float64 { return e.score }
	case *ast.MemberNode:
		return readNumber(b.fact(n))
	case *ast.UnaryNode:
		return b.signed(n)
	case *ast.BinaryNode:
		return b.sum(n)
	case *ast.ConditionalNode:
		return choose(b.yesNo(n.Cond), b.number(n.Exp1), b.number(n.Exp2))
	case *ast.BuiltinNode:
		return b.function(n)
	case *ast.CallNode:
		return b.quotient(n.Arguments[0], n.Arguments[1])
	}
	b.uncovered = n
	return nil
}

// constant reads a number with or without a sign.
func constant(n ast.Node) (value float64, ok bool) {
	switch n := n.(type) {
	case *ast.FloatNode:
		return n.Value, true
	case *ast.UnaryNode:
		if value, ok = constant(n.Node); n.Operator == "-" {
			value = -value
		}
	}
	return value, ok
}

func readNumber(fact facts.Fact) number {
	place := fact.Place()
	return func(e *Evaluator) float64 { return e.numbers[place] }
}

func (b *builder) signed(n *ast.UnaryNode) number {
	if call, ok := n.Node.(*ast.BuiltinNode); ok && n.Operator == "-" {
		if low, x, high, ok := clampParts(call); ok {
			return minusBetween(low, b.number(x), high)
		}
	}
	x := b.number(n.Node)
	if n.Operator == "+" {
		return x
	}
	return func(e *Evaluator) float64 { return -x(e) }
}

func (b *builder) sum(n *ast.BinaryNode) number {
	if value, ok := constant(n.Left); ok {
		return constantAnd(value, n.Operator, b.number(n.Right))
	}
	left, right := b.number(n.Left), b.number(n.Right)
	switch n.Operator {
	case "+":
		return func(e *Evaluator) float64 { return left(e) + right(e) }
	case "-":
		return func(e *Evaluator) float64 { return left(e) - right(e) }
	case "*":
		return func(e *Evaluator) float64 { return left(e) * right(e) }
	}
	b.uncovered = n
	return nil
}

func constantAnd(value float64, operator string, x number) number {
	switch operator {
	case "+":
		return func(e *Evaluator) float64 { return value + x(e) }
	case "-":
		return func(e *Evaluator) float64 { return value - x(e) }
	}
	return func(e *Evaluator) float64 { return value * x(e) }
}

func (b *builder) quotient(over, under ast.Node) number {
	x := b.number(over)
	if value, ok := constant(under); ok && value != 0 {
		return func(e *Evaluator) float64 { return x(e) / value }
	}
	b.divides = true
	return quotient(x, b.number(under))
}

// quotient marks the evaluator where the divisor is zero: an infinite or
// undefined number would otherwise compare as if it meant something. What is
// worked out after that counts for nothing.
func quotient(over, under number) number {
	return func(e *Evaluator) float64 {
		o, u := over(e), under(e)
		if u == 0 {
			e.dividedByZero = true
			return 0
		}
		return o / u
	}
}

func (b *builder) function(n *ast.BuiltinNode) number {
	if low, x, high, ok := clampParts(n); ok {
		return between(low, b.number(x), high)
	}
	x := make([]number, len(n.Arguments))
	for i := range x {
		x[i] = b.number(n.Arguments[i])
	}
	switch n.Name {
	case "abs":
		return absolute(x[0])
	case "ceil":
		return func(e *Evaluator) float64 { return math.Ceil(x[0](e)) }
	case "floor":
		return func(e *Evaluator) float64 { return math.Floor(x[0](e)) }
	case "round":
		return func(e *Evaluator) float64 { return math.Round(x[0](e)) }
	case "max":
		return largest(x)
	case "min":
		return smallest(x)
	}
	b.uncovered = n
	return nil
}

// clampParts reads a clamp between constants, which the check made
// max(low, min(high, x)).
func clampParts(n *ast.BuiltinNode) (low float64, x ast.Node, high float64, ok bool) {
	if n.Name != "max" || len(n.Arguments) != 2 {
		return 0, nil, 0, false
	}
	upper, ok := n.Arguments[1].(*ast.BuiltinNode)
	if !ok || upper.Name != "min" || len(upper.Arguments) != 2 {
		return 0, nil, 0, false
	}
	low, isLow := constant(n.Arguments[0])
	high, isHigh := constant(upper.Arguments[0])
	return low, upper.Arguments[1], high, isLow && isHigh
}

func between(low float64, x number, high float64) number {
	return func(e *Evaluator) float64 {
		least := high
		if v := x(e); least > v {
			least = v
		}
		if low < least {
			return least
		}
		return low
	}
}

func minusBetween(low float64, x number, high float64) number {
	return func(e *Evaluator) float64 {
		least := high
		if v := x(e); least > v {
			least = v
		}
		if low < least {
			return -least
		}
		return -low
	}
}

// absolute leaves the sign of a zero and of an unknown alone, as expr does.
func absolute(x number) number {
	return func(e *Evaluator) float64 {
		v := x(e)
		if v < 0 {
			return -v
		}
		return v
	}
}

// largest passes over an unknown number unless it comes first, as expr does;
// one that needs it is not judged in the first place.
func largest(x []number) number {
	return func(e *Evaluator) float64 {
		most := x[0](e)
		for _, next := range x[1:] {
			if v := next(e); most < v {
				most = v
			}
		}
		return most
	}
}

// smallest is like largest.
func smallest(x []number) number {
	return func(e *Evaluator) float64 {
		least := x[0](e)
		for _, next := range x[1:] {
			if v := next(e); least > v {
				least = v
			}
		}
		return least
	}
}
