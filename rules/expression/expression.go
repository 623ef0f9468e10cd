// Package expression turns the expressions of rules into closures, and runs
// them. It is the only package that knows the expression language (expr-lang);
// everything else sees texts, facts, kinds and places. The language's own
// machine is not part of the program: the tests hold the closures to it.
//
// The language is a small and total part of expr: facts, numbers, words in
// quotes, true and false, comparisons, && || !, + - * /, ? :, x in [list],
// contains, startsWith, endsWith, and the functions abs, ceil, clamp, floor,
// known, max, min and round. What is left out (loops over lists, ranges,
// building of texts, patterns, powers, comments …) could run long, or means
// something else than it seems to.
package expression

import (
	"hotroom/knowledge/document"
	"hotroom/rules/facts"

	"github.com/expr-lang/expr/ast"
)

// Kind is what an expression gives.
type Kind uint8

// The kinds. A Bad expression has been reported.
const (
	Bad Kind = iota
	Number
	Word
	YesNo
)

// String names the kind with its article.
func (k Kind) String() string {
	switch k {
	case Number:
		return "a number"
	case Word:
		return "a word"
	case YesNo:
		return "a yes or no"
	}
	return "nothing"
}

// Scope says who asks: only verdicts may see score and vetoed.
type Scope uint8

// The scopes.
const (
	ForRule Scope = iota
	ForVerdict
)

// Text is the source of an expression: what it says and where that stands.
type Text interface {
	String() string
	// Problem makes a problem at a byte of the text.
	Problem(offset int, what, mend string) document.Problem
}

// Expression is a checked and compiled expression. It is immutable and safe
// for concurrent use.
type Expression struct {
	Kind Kind
	// Mentions are the facts that it names, in the order of the text.
	Mentions []facts.Fact
	// Needs are the numbers among them that it does not ask known(…) for.
	Needs []facts.Fact
	// Outcome says that it names score or vetoed.
	Outcome bool
	// Constant says that it names neither fact, score nor vetoed.
	Constant bool
	// Divides says that it divides by something that may be zero: one that does
	// not never breaks, unless it gives a number that is too large.
	Divides bool

	// The one of its kind works it out, a condition by its gate and the rest.
	number number
	word   word
	gate   gate
	rest   yesNo // nil where the gate is all

	value float64 // of a constant number that is fixed
	fixed bool

	needs []int // the places of Needs among the numbers

	root ast.Node // the checked tree of a verdict's condition, for its clauses
}

// Part is the piece of a text between two of its bytes, as a text.
func Part(of Text, from, to int) Text {
	return part{of: of, from: from, to: to}
}

type part struct {
	of       Text
	from, to int
}

func (p part) String() string { return p.of.String()[p.from:p.to] }

func (p part) Problem(offset int, what, mend string) document.Problem {
	return p.of.Problem(p.from+offset, what, mend)
}
