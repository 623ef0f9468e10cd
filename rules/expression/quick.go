package expression

import (
	"strconv"
	"strings"

	"github.com/expr-lang/expr/ast"
)

// quickReader reads the plainest of the language, which is nearly all that
// conditions are written in: facts, decimal numbers, plain words in double
// quotes, true, false, brackets, calls, ! - + * / && || and comparisons. It
// gives up at anything else, and the library's parser decides. What it reads
// is the library's tree without places, so whatever is found wrong in it is
// looked for once more in the library's.
type quickReader struct {
	text  string
	at    int
	parts int
}

// quick reads a text, or gives nil where it is not plain.
func quick(text string) ast.Node {
	q := &quickReader{text: text}
	n := q.binary(0)
	if q.space(); n == nil || q.at < len(text) || q.parts > mostParts/2 {
		return nil
	}
	return n
}

func (q *quickReader) space() {
	for q.at < len(q.text) && (q.text[q.at] == ' ' || q.text[q.at] == '\n') {
		q.at++
	}
}

// take goes past a byte where it is the next one.
func (q *quickReader) take(c byte) bool {
	q.space()
	if q.at < len(q.text) && q.text[q.at] == c {
		q.at++
		return true
	}
	return false
}

// operator gives the next binary operator with its precedence in expr, 0 for
// none.
func (q *quickReader) operator() (sign string, precedence int) {
	q.space()
	rest := q.text[q.at:]
	for _, o := range &quickOperators {
		if strings.HasPrefix(rest, o.sign) {
			return o.sign, o.precedence
		}
	}
	return "", 0
}

var quickOperators = [...]struct {
	sign       string
	precedence int
}{
	{"&&", 15}, {"||", 10}, {"<=", 20}, {">=", 20}, {"==", 20}, {"!=", 20}, {"<", 20}, {">", 20}, {"+", 30}, {"-", 30}, {"*", 60}, {"/", 60},
}

func compares(sign string) bool { return sign != "" && (sign[0] == '<' || sign[0] == '>') }

// binary reads operands and the operators between them that bind at least as
// tightly as asked.
func (q *quickReader) binary(least int) ast.Node {
	left := q.operand()
	for left != nil {
		sign, precedence := q.operator()
		if precedence == 0 || precedence < least {
			return left
		}
		q.at += len(sign)
		right := q.binary(precedence + 1)
		if next, _ := q.operator(); right == nil || compares(sign) && compares(next) {
			return nil
		}
		q.parts++
		left = &ast.BinaryNode{Operator: sign, Left: left, Right: right}
	}
	return nil
}

func (q *quickReader) operand() ast.Node {
	q.space()
	if q.at == len(q.text) {
		return nil
	}
	q.parts += 3 // a fact is three to the library
	switch c := q.text[q.at]; {
	case c == '!':
		return q.unary("!", 50)
	case c == '-':
		return q.unary("-", 90)
	case c == '(':
		q.at++
		if n := q.binary(0); n != nil && q.take(')') {
			return n
		}
	case c == '"':
		return q.word()
	case c >= '0' && c <= '9':
		return q.number()
	case letter(c):
		return q.named()
	}
	return nil
}

func (q *quickReader) unary(sign string, least int) ast.Node {
	q.at++
	n := q.binary(least)
	if n == nil {
		return nil
	}
	return &ast.UnaryNode{Operator: sign, Node: n}
}

func (q *quickReader) word() ast.Node {
	length := strings.IndexByte(q.text[q.at+1:], '"')
	if length < 0 {
		return nil
	}
	value := q.text[q.at+1 : q.at+1+length]
	q.at += length + 2
	if strings.ContainsAny(value, "\\\n\r") || !ascii(value) {
		return nil
	}
	return &ast.StringNode{Value: value}
}

func ascii(s string) bool {
	for i := range len(s) {
		if s[i] < ' ' || s[i] > '~' {
			return false
		}
	}
	return true
}

func (q *quickReader) number() ast.Node {
	text := q.run(func(c byte) bool { return letter(c) || c >= '0' && c <= '9' || c == '.' })
	whole, fraction, dot := strings.Cut(text, ".")
	if len(text) > 15 || !digits(whole) || dot && !digits(fraction) {
		return nil
	}
	if !dot {
		n, err := strconv.Atoi(whole)
		if err != nil {
			return nil
		}
		return &ast.IntegerNode{Value: n}
	}
	n, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return nil
	}
	return &ast.FloatNode{Value: n}
}

func digits(s string) bool { return s != "" && strings.Trim(s, "0123456789") == "" }

// run takes the bytes that belong together.
func (q *quickReader) run(belongs func(byte) bool) string {
	from := q.at
	for q.at < len(q.text) && belongs(q.text[q.at]) {
		q.at++
	}
	return q.text[from:q.at]
}

func letter(c byte) bool { return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c == '_' }

func inName(c byte) bool { return letter(c) || c >= '0' && c <= '9' }

// named reads a fact, a call, true, false, score or vetoed.
func (q *quickReader) named() ast.Node {
	name := q.run(inName)
	if q.at < len(q.text) && q.text[q.at] == '.' {
		q.at++
		if leaf := q.run(inName); leaf != "" && letter(leaf[0]) {
			return &ast.MemberNode{Node: &ast.IdentifierNode{Value: name}, Property: &ast.StringNode{Value: leaf}}
		}
		return nil
	}
	if _, ok := functions[name]; ok {
		return q.call(name)
	}
	switch name {
	case "true", "false":
		return &ast.BoolNode{Value: name == "true"}
	case "score", "vetoed":
		return &ast.IdentifierNode{Value: name}
	}
	return nil
}

func (q *quickReader) call(name string) ast.Node {
	if !q.take('(') {
		return nil
	}
	var arguments []ast.Node
	for {
		n := q.binary(0)
		if n == nil {
			return nil
		}
		arguments = append(arguments, n)
		if q.take(')') {
			break
		}
		if !q.take(',') {
			return nil
		}
	}
	if name == "known" || name == "clamp" {
		return &ast.CallNode{Callee: &ast.IdentifierNode{Value: name}, Arguments: arguments}
	}
	return &ast.BuiltinNode{Name: name, Arguments: arguments}
}
