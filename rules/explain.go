package rules

import (
	"go/token"

	"hotroom/knowledge/document"
	"hotroom/rules/expression"
	"hotroom/rules/facts"
)

// Explained is one rule, fired or not, with the facts that made it so.
type Explained struct {
	Rule
	Fired   bool
	Given   float64  // points added to the score
	Text    string   // its say when it fired
	Values  []Value  // the facts of its condition
	Unknown []string // facts that it needs and nobody knows
	Fault   string   // how it broke; empty when it did not
}

// Explain shows every rule of the book, in order, and what it came to.
func (b *Book) Explain(f facts.Facts) []Explained {
	e := b.bench(&f)
	defer b.clear(e)
	all := make([]Explained, len(b.rules))
	for i := range b.rules {
		r := &b.rules[i]
		o := r.try(&e.Evaluator)
		all[i] = Explained{
			Rule: r.Rule, Fired: o.fired, Given: o.points, Values: values(r.when, &e.Evaluator), Unknown: o.unknown,
		}
		if o.fired {
			all[i].Text = o.text
		}
		if o.broken != nil {
			all[i].Fault = o.broken.Error()
		}
	}
	return all
}

// Try works out one expression over the facts, as a rule would, to a float64,
// a string or a bool. It stands on one line.
func (b *Book) Try(source string, f facts.Facts) (any, document.Problems) {
	text := typed(source)
	x, problems := expression.NewCompiler().Compile(text, expression.Bad, expression.ForRule)
	if len(problems) > 0 {
		return nil, problems
	}
	e := b.bench(&f)
	defer b.clear(e)
	if unknown := e.Unknown(x); unknown != nil {
		return nil, document.Problems{text.Problem(0, unknown[0]+" is unknown here", "ask known("+unknown[0]+") first")}
	}
	value, err := e.Value(x)
	if err != nil {
		return nil, document.Problems{text.Problem(0, err.Error(), "see the values of the facts that it names")}
	}
	return value, nil
}

// typed is an expression that stands in no file.
type typed string

func (t typed) String() string { return string(t) }

func (t typed) Problem(offset int, what, mend string) document.Problem {
	return document.Problem{
		At:   token.Position{Filename: "expression", Offset: offset, Line: 1, Column: offset + 1},
		What: what, Mend: mend, Source: string(t),
	}
}
