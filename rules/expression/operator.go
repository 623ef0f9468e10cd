package expression

import (
	"fmt"

	"github.com/expr-lang/expr/ast"
	"github.com/expr-lang/expr/file"
)

// mostListed is how many values may stand in a list; with so many, a search
// through them costs no more than a handful of comparisons.
const mostListed = 20

func (c *check) unary(n *ast.UnaryNode) Kind {
	wanted := Number
	if n.Operator == "!" || n.Operator == "not" {
		wanted = YesNo
	}
	if !c.want(wanted, c.kind(&n.Node), n.Node, n.Operator) {
		return Bad
	}
	return wanted
}

func (c *check) binary(at *ast.Node, n *ast.BinaryNode) Kind {
	switch n.Operator {
	case "+", "-", "*":
		return c.operands(n, Number, Number)
	case "/":
		return c.division(at, n)
	case "<", "<=", ">", ">=":
		return c.operands(n, Number, YesNo)
	case "&&", "||", "and", "or":
		return c.operands(n, YesNo, YesNo)
	case "contains", "startsWith", "endsWith":
		return c.operands(n, Word, YesNo)
	case "==", "!=":
		return c.equality(n)
	case "in":
		return c.membership(n)
	}
	return c.refuseOperator(n)
}

// operands checks that both sides are of one kind.
func (c *check) operands(n *ast.BinaryNode, wanted, result Kind) Kind {
	left := c.want(wanted, c.kind(&n.Left), n.Left, n.Operator)
	right := c.want(wanted, c.kind(&n.Right), n.Right, n.Operator)
	if !left || !right {
		return Bad
	}
	return result
}

func (c *check) equality(n *ast.BinaryNode) Kind {
	left, right := c.kind(&n.Left), c.kind(&n.Right)
	if left == Bad || right == Bad {
		return Bad
	}
	if left != right {
		return c.unlike(n, left, right)
	}
	return YesNo
}

func (c *check) unlike(n *ast.BinaryNode, left, right Kind) Kind {
	return c.refuseAt(n.Location().From,
		fmt.Sprintf("%s compares %s with %s", n.Operator, left, right), "compare like with like")
}

// membership is x in [list of constants].
func (c *check) membership(n *ast.BinaryNode) Kind {
	left := c.kind(&n.Left)
	list, ok := n.Right.(*ast.ArrayNode)
	if !ok {
		return c.refuseForm(n.Right)
	}
	if len(list.Nodes) == 0 || len(list.Nodes) > mostListed {
		return c.refuse(list, fmt.Sprintf("the list has %d values", len(list.Nodes)),
			fmt.Sprintf("list 1 to %d", mostListed))
	}
	result := YesNo
	for i := range list.Nodes {
		if right := c.listed(&list.Nodes[i]); right == Bad || left == Bad {
			result = Bad
		} else if right != left {
			result = c.unlike(n, left, right)
		}
	}
	return result
}

func (c *check) listed(at *ast.Node) Kind {
	switch (*at).(type) {
	case *ast.StringNode, *ast.IntegerNode, *ast.FloatNode:
		return c.kind(at)
	}
	return c.refuse(*at, "a list may hold only numbers and words in quotes", `write it as in ["rated", "shipped"]`)
}

func (c *check) conditional(n *ast.ConditionalNode) Kind {
	if n.Cond == n.Exp1 {
		return c.refuse(n, "?: without a middle is not available", "write all three parts, as in a ? b : c")
	}
	condition := c.want(YesNo, c.kind(&n.Cond), n.Cond, "?")
	yes, no := c.kind(&n.Exp1), c.kind(&n.Exp2)
	if !condition || yes == Bad || no == Bad {
		return Bad
	}
	if yes != no {
		return c.refuse(n, fmt.Sprintf("the two sides of : differ, %s and %s", yes, no), "give both sides the same kind")
	}
	return yes
}

// division becomes a call that refuses a divisor of zero: an infinite or
// undefined number would otherwise compare as if it meant something.
func (c *check) division(at *ast.Node, n *ast.BinaryNode) Kind {
	result := c.operands(n, Number, Number)
	callee := &ast.IdentifierNode{Value: divide}
	callee.SetLocation(file.Location{From: start(n.Left)})
	ast.Patch(at, &ast.CallNode{Callee: callee, Arguments: []ast.Node{n.Left, n.Right}})
	return result
}
