package expression

import (
	"fmt"
	"slices"
	"unicode/utf8"

	"hotroom/knowledge/document"
	"hotroom/knowledge/nearest"
	"hotroom/rules/facts"

	"github.com/expr-lang/expr/ast"
)

// check walks one expression, reports everything in it that rules may not
// say, works out its kind, and rewrites it in plainer terms: whole numbers
// become decimal ones, so that 1/2 and 9e18+1 mean what they seem to; known(x)
// and clamp become plain operators; a division looks at its divisor.
type check struct {
	compiler *Compiler
	scope    Scope
	text     Text
	problems document.Problems
	seen     []ast.Node
	mentions []facts.Fact
	asked    []string // facts inside known(…)
	outcome  bool     // score or vetoed is named
}

// kind checks the expression under a node. Every node is visited once.
func (c *check) kind(at *ast.Node) Kind {
	if slices.Contains(c.seen, *at) {
		return c.refuse(*at, "comparisons are chained", "compare two at a time, as in a < b && b < c")
	}
	c.seen = append(c.seen, *at)
	switch n := (*at).(type) {
	case *ast.IntegerNode:
		ast.Patch(at, &ast.FloatNode{Value: float64(n.Value)})
		return Number
	case *ast.FloatNode:
		return Number
	case *ast.StringNode:
		return Word
	case *ast.BoolNode:
		return YesNo
	case *ast.IdentifierNode:
		return c.identifier(n)
	case *ast.MemberNode:
		return c.member(n)
	case *ast.UnaryNode:
		return c.unary(n)
	case *ast.BinaryNode:
		return c.binary(at, n)
	case *ast.ConditionalNode:
		return c.conditional(n)
	case *ast.BuiltinNode:
		return c.call(at, n, n.Name, n.Arguments)
	case *ast.CallNode:
		return c.callByName(at, n)
	}
	return c.refuseForm(*at)
}

// identifier is a name without a dot: score, vetoed, or a mistake.
func (c *check) identifier(n *ast.IdentifierNode) Kind {
	outcome := outcomeKind(n.Value)
	switch {
	case outcome != Bad && c.scope == ForVerdict:
		c.outcome = true
		return outcome
	case outcome != Bad:
		return c.refuse(n, n.Value+" is known only when all rules are judged", "use it in a verdict")
	}
	if group := c.compiler.words().groups[n.Value]; group != nil {
		return c.refuse(n, n.Value+" is a group of facts", fmt.Sprintf("name one of them, such as %s.%s", n.Value, group[0]))
	}
	return c.unknownName(n, n.Value)
}

// outcomeKind gives the kind of score or vetoed, Bad for any other name.
func outcomeKind(name string) Kind {
	switch name {
	case "score":
		return Number
	case "vetoed":
		return YesNo
	}
	return Bad
}

// member is group.fact.
func (c *check) member(n *ast.MemberNode) Kind {
	fact, ok := factOf(n)
	if !ok {
		name, ok := dotted(n)
		if !ok {
			return c.refuse(n, "this way of reaching into a fact is not available", "name a fact as group.fact")
		}
		return c.unknownName(n, name)
	}
	if !slices.ContainsFunc(c.mentions, func(f facts.Fact) bool { return f.Name == fact.Name }) {
		c.mentions = append(c.mentions, fact)
	}
	return kindOf(fact.Type)
}

// factOf gives the fact that a plain member names.
func factOf(n *ast.MemberNode) (fact facts.Fact, ok bool) {
	group, plain := n.Node.(*ast.IdentifierNode)
	leaf, named := n.Property.(*ast.StringNode)
	if !plain || !named || n.Optional || n.Method {
		return fact, false
	}
	return facts.FindIn(group.Value, leaf.Value)
}

func kindOf(t facts.Type) Kind {
	switch t {
	case facts.Number:
		return Number
	case facts.YesNo:
		return YesNo
	}
	return Word
}

// dotted gives the full name of a chain of plain members.
func dotted(n *ast.MemberNode) (string, bool) {
	leaf, ok := n.Property.(*ast.StringNode)
	if !ok || n.Optional || n.Method {
		return "", false
	}
	switch base := n.Node.(type) {
	case *ast.IdentifierNode:
		return base.Value + "." + leaf.Value, true
	case *ast.MemberNode:
		name, ok := dotted(base)
		return name + "." + leaf.Value, ok
	}
	return "", false
}

func (c *check) unknownName(n ast.Node, name string) Kind {
	what := "no fact is called " + document.Quote(name)
	if near, ok := nearest.Word(name, []string{"score", "vetoed"}); ok && c.scope == ForVerdict {
		return c.refuse(n, what, didYouMean(near))
	}
	return c.refuse(n, what, c.compiler.words().suggest(name))
}

// refuse reports a problem where a node starts.
func (c *check) refuse(n ast.Node, what, mend string) Kind {
	return c.refuseAt(start(n), what, mend)
}

// refuseAt reports a problem at a place counted in characters, as expr does.
func (c *check) refuseAt(characters int, what, mend string) Kind {
	p := c.text.Problem(byteOffset(c.text.String(), characters), what, mend)
	if !slices.Contains(c.problems, p) {
		c.problems = append(c.problems, p)
	}
	return Bad
}

// want reports an operand that is not of the kind needed.
func (c *check) want(wanted, got Kind, n ast.Node, who string) bool {
	if got != wanted && got != Bad {
		c.refuse(n, fmt.Sprintf("%s needs %s, and this is %s", who, wanted, got), mendKind(wanted))
	}
	return got == wanted
}

func mendKind(wanted Kind) string {
	switch wanted {
	case YesNo:
		return "write a comparison, as in margin.kept_c < 5"
	case Word:
		return `write a word in quotes or a fact that is one, as in evidence.word == "measured"`
	}
	return "write a number or a fact that is one, as in margin.kept_c"
}

// start gives the first character of a node; expr itself gives an operator's.
func start(n ast.Node) int {
	switch n := n.(type) {
	case *ast.BinaryNode:
		return start(n.Left)
	case *ast.MemberNode:
		return start(n.Node)
	case *ast.ConditionalNode:
		return start(n.Cond)
	case *ast.SliceNode:
		return start(n.Node)
	case *ast.ChainNode:
		return start(n.Node)
	case *ast.SequenceNode:
		return start(n.Nodes[0])
	case *ast.CallNode:
		return start(n.Callee)
	}
	return n.Location().From
}

// byteOffset turns a count of characters into a count of bytes.
func byteOffset(s string, characters int) int {
	offset := 0
	for ; characters > 0 && offset < len(s); characters-- {
		_, size := utf8.DecodeRuneInString(s[offset:])
		offset += size
	}
	return offset
}
