// Package rules judges facts by a catalogue that users can edit.
//
// A catalogue (rules.toml) has a score, rules and verdicts. A rule fires when
// its condition holds; it then adds its points to the score and says why. The
// first verdict whose condition holds is the answer. Load reads, checks,
// compiles and tests a catalogue in one go and reports every mistake at its
// place; a Book never changes afterwards.
//
// An unknown fact never makes an answer better, and neither does a rule that
// breaks: see Judge.
package rules

import (
	"go/token"
	"sync"

	"hotroom/rules/expression"
)

// The kinds of rules.
const (
	Merit   = "merit"   // speaks for the board: adds points
	Concern = "concern" // speaks against it: takes points
	Caution = "caution" // something to know
	Veto    = "veto"    // makes the verdict no, whatever else holds
)

// The verdicts, worst first.
const (
	No       = "no"
	Unknown  = "unknown"
	WithCare = "with-care"
	Yes      = "yes"
)

// Book is a loaded catalogue. It is immutable and safe for concurrent use.
type Book struct {
	hash     string
	score    score
	rules    []rule
	verdicts []verdict
	whens    *expression.Conditions // of the rules
	ahead    early
	benches  sync.Pool // of *bench
}

// gather puts the conditions of the rules together.
func (b *Book) gather() {
	all := make([]*expression.Expression, len(b.rules))
	for i := range b.rules {
		all[i] = b.rules[i].when
	}
	b.whens = expression.NewConditions(all)
}

// score is where the points start and the bounds they are kept in, in points.
type score struct{ start, floor, ceiling float64 }

// Rule is one rule as its file states it.
type Rule struct {
	Name   string
	Kind   string // merit, concern, caution or veto
	When   string
	Points string // empty for none
	Say    string
	Source string
	At     token.Position
}

type rule struct {
	Rule
	when   *expression.Expression
	points points
	sign   float64 // the points may not be of the other one: 1, -1 or 0 for either
	fixed  weight  // what it weighs once its condition holds, where that is always the same
	say    say
}

func signOf(kind string) float64 {
	switch kind {
	case Merit:
		return 1
	case Concern:
		return -1
	}
	return 0
}

type verdict struct {
	id   string
	when *expression.Expression // nil: always
	say  say
	at   token.Position
}

// Hash identifies the catalogue: the SHA-256 of its source in hexadecimal.
func (b *Book) Hash() string { return b.hash }

// Rules gives the rules in the order of the file.
func (b *Book) Rules() []Rule {
	all := make([]Rule, len(b.rules))
	for i := range b.rules {
		all[i] = b.rules[i].Rule
	}
	return all
}
