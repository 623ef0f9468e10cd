package expression

import (
	"fmt"

	"github.com/expr-lang/expr/ast"
)

// refuseOperator says what to write in place of an operator that is left out.
func (c *check) refuseOperator(n *ast.BinaryNode) Kind {
	what := n.Operator + " is not available"
	switch n.Operator {
	case "..":
		return c.refuse(n, "a range such as 6..8 has no 6.6 in it", "write x >= 6 && x <= 8")
	case "matches":
		return c.refuse(n, what, "use ==, in, contains, startsWith or endsWith")
	case "??":
		return c.refuse(n, what, "ask known(x)")
	case "**", "^":
		return c.refuse(n, what, "multiply")
	}
	return c.refuse(n, what, "use + - * / < <= > >= == != && || in")
}

// refuseForm says what to write in place of a form that is left out.
func (c *check) refuseForm(n ast.Node) Kind {
	switch n := n.(type) {
	case *ast.NilNode:
		return c.refuse(n, "nil is not a value here", "ask known(x)")
	case *ast.ArrayNode:
		return c.refuse(n, "a list may stand only after in", `write it as in x in ["rated", "shipped"]`)
	case *ast.BinaryNode:
		return c.binaryAfterIn(n)
	case *ast.VariableDeclaratorNode:
		return c.refuse(n, "let is not available", "write the expression out")
	case *ast.SequenceNode:
		return c.refuse(n, "only one expression may stand here", "remove the ;")
	case *ast.PredicateNode, *ast.PointerNode:
		return c.refuse(n, "there are no lists to look through", "name a fact")
	case *ast.ChainNode:
		return c.refuse(n, "?. is not available", "name a fact as group.fact; none is ever missing")
	case *ast.SliceNode:
		return c.refuse(n, "parts of a word are not available", "use contains, startsWith or endsWith")
	case *ast.MapNode:
		return c.refuse(n, "braces are not available", "write a condition or a number")
	}
	return c.refuse(n, fmt.Sprintf("%s is not available", n), "write a condition or a number")
}

// binaryAfterIn tells a range after in from anything else that is no list.
func (c *check) binaryAfterIn(n *ast.BinaryNode) Kind {
	if n.Operator == ".." {
		return c.refuseOperator(n)
	}
	return c.refuse(n, "in needs a list", `write it as in x in ["rated", "shipped"]`)
}
