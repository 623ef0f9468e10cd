package expression

import (
	"math"

	"hotroom/rules/facts"

	"github.com/expr-lang/expr/ast"
)

// gate is the part of a condition that says between which bounds, both
// included, one number must lie. Few get past it, and it costs no call.
type gate struct {
	place     int
	low, high float64
}

// open lets everything pass: one more place than there are facts holds 0.
var open = gate{facts.NumberCount, math.Inf(-1), math.Inf(1)}

// split takes a condition apart into a gate and what is left, nil for nothing.
func (b *builder) split(n ast.Node) (gate, yesNo) {
	if g, ok := b.gate(n); ok {
		return g, nil
	}
	and, ok := n.(*ast.BinaryNode)
	if !ok || and.Operator != "&&" && and.Operator != "and" {
		return open, b.yesNo(n)
	}
	if asked, ok := askedNumber(and.Left); ok && b.compares(and.Right, asked) {
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

// gate reads a comparison of a fact with a constant, or two such of one fact.
func (b *builder) gate(n ast.Node) (gate, bool) {
	binary, ok := n.(*ast.BinaryNode)
	if !ok {
		return open, false
	}
	if binary.Operator == "&&" || binary.Operator == "and" {
		return b.between(binary)
	}
	place, isFact := b.place(binary.Left)
	value, isConstant := constant(binary.Right)
	if !isFact || !isConstant || math.IsInf(value, 0) {
		return open, false
	}
	g := gate{place, math.Inf(-1), math.Inf(1)}
	switch binary.Operator {
	case "<":
		g.high = math.Nextafter(value, math.Inf(-1))
	case "<=":
		g.high = value
	case ">":
		g.low = math.Nextafter(value, math.Inf(1))
	case ">=":
		g.low = value
	default:
		return open, false
	}
	return g, true
}

func (b *builder) between(n *ast.BinaryNode) (gate, bool) {
	right, ok := b.gate(n.Right)
	if !ok {
		return open, false
	}
	if asked, ok := askedNumber(n.Left); ok && b.compares(n.Right, asked) {
		return right, true
	}
	left, ok := b.gate(n.Left)
	if !ok || left.place != right.place {
		return open, false
	}
	return gate{left.place, max(left.low, right.low), min(left.high, right.high)}, true
}

// divides reports whether a division stands anywhere under a node.
func divides(n ast.Node) bool {
	v := &divisions{}
	ast.Walk(&n, v)
	return v.found
}

type divisions struct{ found bool }

// Visit looks at one node.
func (d *divisions) Visit(n *ast.Node) {
	_, call := (*n).(*ast.CallNode)
	d.found = d.found || call
}
