package expression

import "github.com/expr-lang/expr/ast"

// order compares two numbers. Facts against constants and facts are what most
// conditions are made of, so those are done in one step.
func (b *builder) order(n *ast.BinaryNode) yesNo {
	left, isFact := b.place(n.Left)
	if value, ok := constant(n.Right); ok && isFact {
		return orderConstant(n.Operator, left, value)
	}
	if right, ok := b.place(n.Right); ok && isFact {
		return orderFacts(n.Operator, left, right)
	}
	return orderNumbers(n.Operator, b.number(n.Left), b.number(n.Right))
}

// place gives the place of a node that is a fact.
func (b *builder) place(n ast.Node) (place int, ok bool) {
	member, ok := n.(*ast.MemberNode)
	if ok {
		place = b.fact(member).Place()
	}
	return place, ok
}

func orderConstant(operator string, place int, value float64) yesNo {
	switch operator {
	case "<":
		return func(e *Evaluator) bool { return e.numbers[place] < value }
	case "<=":
		return func(e *Evaluator) bool { return e.numbers[place] <= value }
	case ">":
		return func(e *Evaluator) bool { return e.numbers[place] > value }
	}
	return func(e *Evaluator) bool { return e.numbers[place] >= value }
}

func orderFacts(operator string, left, right int) yesNo {
	switch operator {
	case "<":
		return func(e *Evaluator) bool { return e.numbers[left] < e.numbers[right] }
	case "<=":
		return func(e *Evaluator) bool { return e.numbers[left] <= e.numbers[right] }
	case ">":
		return func(e *Evaluator) bool { return e.numbers[left] > e.numbers[right] }
	}
	return func(e *Evaluator) bool { return e.numbers[left] >= e.numbers[right] }
}

func orderNumbers(operator string, left, right number) yesNo {
	switch operator {
	case "<":
		return func(e *Evaluator) bool { return left(e) < right(e) }
	case "<=":
		return func(e *Evaluator) bool { return left(e) <= right(e) }
	case ">":
		return func(e *Evaluator) bool { return left(e) > right(e) }
	}
	return func(e *Evaluator) bool { return left(e) >= right(e) }
}

// both is left && right. Where left asks whether a fact is known that right
// compares, right alone says as much: an unknown number is neither less nor
// more than anything.
func (b *builder) both(n *ast.BinaryNode) yesNo {
	if asked, ok := askedNumber(n.Left); ok && comparesFact(n.Right, asked) {
		return b.yesNo(n.Right)
	}
	left, right := b.yesNo(n.Left), b.yesNo(n.Right)
	return func(e *Evaluator) bool { return left(e) && right(e) }
}

// askedNumber gives the fact of a known(…), which the check made x == x.
func askedNumber(n ast.Node) (fact *ast.MemberNode, ok bool) {
	equal, ok := n.(*ast.BinaryNode)
	if !ok || equal.Operator != "==" || equal.Left != equal.Right {
		return nil, false
	}
	fact, ok = equal.Left.(*ast.MemberNode)
	return fact, ok
}

// comparesFact reports whether a node is < <= > or >= with the fact on one side,
// and cannot break.
func comparesFact(n ast.Node, fact *ast.MemberNode) bool {
	order, ok := n.(*ast.BinaryNode)
	if !ok || order.Operator[0] != '<' && order.Operator[0] != '>' {
		return false
	}
	return (same(order.Left, fact) || same(order.Right, fact)) && !divides(order)
}

func same(n ast.Node, fact *ast.MemberNode) bool {
	member, ok := n.(*ast.MemberNode)
	if !ok {
		return false
	}
	left, _ := factOf(member)
	right, _ := factOf(fact)
	return left.Name == right.Name
}
