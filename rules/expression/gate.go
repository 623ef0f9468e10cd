package expression

import (
	"math"

	"hotroom/rules/facts"

	"github.com/expr-lang/expr/ast"
)

// gate is the part of a condition that says between which bounds, both
// included, one number must lie, or the difference of two. Few get past it,
// and it costs no call.
type gate struct {
	place, less uint8 // the number, and what is taken off it
	low, high   float64
}

// open lets everything pass.
var open = gate{nothing, nothing, math.Inf(-1), math.Inf(1)}

// least is the least number above zero.
const least = math.SmallestNonzeroFloat64

// passes reports whether the gate lets the facts pass.
func (g *gate) passes(e *Evaluator) bool {
	v := e.numbers[g.place] - e.numbers[g.less]
	return v >= g.low && v <= g.high
}

// holds works out a condition.
func (x *Expression) holds(e *Evaluator) bool {
	return x.gate.passes(e) && (x.rest == nil || x.rest(e))
}

// split takes a condition apart into a gate and what is left, nil for nothing.
func (b *builder) split(n ast.Node) (gate, yesNo) {
	if g, ok := b.gate(n); ok {
		return g, nil
	}
	and, ok := n.(*ast.BinaryNode)
	if !ok || and.Operator != "&&" && and.Operator != "and" {
		return open, b.yesNo(n)
	}
	if asked, ok := askedNumber(and.Left); ok && comparesFact(and.Right, asked) {
		return b.split(and.Right)
	}
	if g, rest := b.split(and.Left); g != open {
		return g, all(rest, b.yesNo(and.Right))
	}
	if g, ok := b.gate(and.Right); ok && !divides(and.Left) {
		return g, b.yesNo(and.Left)
	}
	return open, b.yesNo(n)
}

// all is left && right, where left may be nil.
func all(left, right yesNo) yesNo {
	if left == nil {
		return right
	}
	return func(e *Evaluator) bool { return left(e) && right(e) }
}

// gate reads a fact that is a yes or no, a comparison of a fact with a
// constant or a fact, or two such of the same.
func (b *builder) gate(n ast.Node) (gate, bool) {
	switch n := n.(type) {
	case *ast.MemberNode:
		return yesGate(b.fact(n), 1), true
	case *ast.UnaryNode:
		if member, ok := n.Node.(*ast.MemberNode); ok {
			return yesGate(b.fact(member), 0), true
		}
	case *ast.BinaryNode:
		if n.Operator == "&&" || n.Operator == "and" {
			return b.between(n)
		}
		return b.bound(n)
	}
	return open, false
}

func yesGate(fact facts.Fact, value float64) gate {
	return gate{uint8(fact.Place()), nothing, value, value}
}

func (b *builder) bound(n *ast.BinaryNode) (gate, bool) {
	place, isFact := b.place(n.Left)
	if n.Operator[0] != '<' && n.Operator[0] != '>' || !isFact {
		return open, false
	}
	if value, ok := constant(n.Right); ok && !math.IsInf(value, 0) {
		return constantGate(uint8(place), n.Operator, value), true
	}
	if less, ok := b.place(n.Right); ok {
		return factGate(uint8(place), n.Operator, uint8(less))
	}
	return open, false
}

func constantGate(place uint8, operator string, value float64) gate {
	g := gate{place, nothing, math.Inf(-1), math.Inf(1)}
	switch operator {
	case "<":
		g.high = math.Nextafter(value, math.Inf(-1))
	case "<=":
		g.high = value
	case ">":
		g.low = math.Nextafter(value, math.Inf(1))
	default:
		g.low = value
	}
	return g
}

// factGate compares by the difference, which is below zero exactly where the
// first is below the second. Equal infinities have none, so <= and >= are out.
func factGate(place uint8, operator string, less uint8) (gate, bool) {
	switch operator {
	case "<":
		return gate{place, less, math.Inf(-1), -least}, true
	case ">":
		return gate{place, less, least, math.Inf(1)}, true
	}
	return open, false
}

func (b *builder) between(n *ast.BinaryNode) (gate, bool) {
	right, ok := b.gate(n.Right)
	if !ok {
		return open, false
	}
	if asked, ok := askedNumber(n.Left); ok && comparesFact(n.Right, asked) {
		return right, true
	}
	left, ok := b.gate(n.Left)
	if !ok || left.place != right.place || left.less != right.less {
		return open, false
	}
	return gate{left.place, left.less, max(left.low, right.low), min(left.high, right.high)}, true
}

// divides reports whether a division that may break stands under a node.
func divides(n ast.Node) bool {
	v := &divisions{}
	ast.Walk(&n, v)
	return v.found
}

type divisions struct{ found bool }

// Visit looks at one node.
func (d *divisions) Visit(n *ast.Node) {
	if call, ok := (*n).(*ast.CallNode); ok {
		value, fixed := constant(call.Arguments[1])
		d.found = d.found || !fixed || value == 0
	}
}
