package expression

import (
	"fmt"

	"github.com/expr-lang/expr/ast"
)

func (c *check) callByName(at *ast.Node, n *ast.CallNode) Kind {
	name, ok := n.Callee.(*ast.IdentifierNode)
	if !ok {
		return c.refuse(n, "facts cannot be called", "name a fact without brackets")
	}
	return c.call(at, n, name.Value, n.Arguments)
}

func (c *check) call(at *ast.Node, n ast.Node, name string, arguments []ast.Node) Kind {
	f, ok := functions[name]
	if !ok {
		return c.refuse(n, "no function is called "+name, suggestFunction(name))
	}
	if len(arguments) < f.least || len(arguments) > f.most {
		return c.refuse(n, fmt.Sprintf("%s is given %d values", name, len(arguments)), "give it "+f.count())
	}
	if name == "known" {
		return c.known(at, arguments[0])
	}
	result := Number
	for i := range arguments {
		if !c.want(Number, c.kind(&arguments[i]), arguments[i], name) {
			result = Bad
		}
	}
	if name == "clamp" && result != Bad {
		ast.Patch(at, clamped(arguments))
	}
	return result
}

func (f function) count() string {
	if f.least == f.most {
		return fmt.Sprint(f.least)
	}
	return fmt.Sprintf("%d to %d", f.least, f.most)
}

// known(x) asks whether a number is known or a word is not empty. An unknown
// number equals nothing, itself included.
func (c *check) known(at *ast.Node, x ast.Node) Kind {
	member, ok := x.(*ast.MemberNode)
	if !ok {
		return c.refuse(x, "known asks about one fact", "name it, as in known(board.price)")
	}
	kind := c.kind(&x)
	switch kind {
	case Number:
		ast.Patch(at, &ast.BinaryNode{Operator: "==", Left: x, Right: x})
	case Word:
		ast.Patch(at, &ast.BinaryNode{Operator: "!=", Left: x, Right: &ast.StringNode{}})
	case YesNo:
		return c.refuse(x, "a yes or no is always known", "use the fact itself")
	default:
		return Bad
	}
	name, _ := dotted(member)
	c.asked = append(c.asked, name)
	return YesNo
}

// clamped is max(lo, min(hi, x)).
func clamped(xLoHi []ast.Node) ast.Node {
	upper := &ast.BuiltinNode{Name: "min", Arguments: []ast.Node{xLoHi[2], xLoHi[0]}}
	return &ast.BuiltinNode{Name: "max", Arguments: []ast.Node{xLoHi[1], upper}}
}
