package expression

import (
	"math"
	"slices"

	"hotroom/rules/facts"

	"github.com/expr-lang/expr/ast"
)

// Clauses takes a condition of a verdict apart into conditions that must all
// hold for it to hold, in their order. What the whole asks known(…) for, none of
// them needs.
func (x *Expression) Clauses() []*Expression {
	if x.root == nil {
		return []*Expression{x}
	}
	var all []*Expression
	for _, n := range conjuncts(x.root, nil) {
		all = append(all, x.clause(n))
	}
	return all
}

// conjuncts appends what stands on both sides of the outermost "and"s.
func conjuncts(n ast.Node, all []ast.Node) []ast.Node {
	if and, ok := n.(*ast.BinaryNode); ok && (and.Operator == "&&" || and.Operator == "and") {
		return conjuncts(and.Right, conjuncts(and.Left, all))
	}
	return append(all, n)
}

// clause makes a condition of its own of a part of a checked tree.
func (x *Expression) clause(n ast.Node) *Expression {
	var named mentions
	ast.Walk(&n, &named)
	part := &Expression{Kind: YesNo, Mentions: named.facts, Outcome: named.outcome}
	part.Constant = len(named.facts) == 0 && !named.outcome
	for _, fact := range x.Needs {
		if slices.ContainsFunc(named.facts, func(f facts.Fact) bool { return f.Name == fact.Name }) {
			part.need(fact)
		}
	}
	var b builder
	b.build(part, n)
	part.Divides = b.divides
	return part
}

// mentions collects what a checked tree names.
type mentions struct {
	facts   []facts.Fact
	outcome bool
}

// Visit looks at one node.
func (m *mentions) Visit(n *ast.Node) {
	switch n := (*n).(type) {
	case *ast.IdentifierNode:
		m.outcome = m.outcome || outcomeKind(n.Value) != Bad
	case *ast.MemberNode:
		fact, ok := factOf(n)
		if ok && !slices.ContainsFunc(m.facts, func(f facts.Fact) bool { return f.Name == fact.Name }) {
			m.facts = append(m.facts, fact)
		}
	}
}

// Least gives the least value of a number at which the condition may hold; -Inf
// where it does not say at once.
func (x *Expression) Least(number facts.Fact) float64 {
	if x.gate.place == uint8(number.Place()) && x.gate.less == nothing {
		return x.gate.low
	}
	return math.Inf(-1)
}
