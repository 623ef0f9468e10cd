package rules

import (
	_ "embed"

	"hotroom/rules/expression"
)

//go:embed default.toml
var defaultCatalogue string

// Default gives the catalogue that holds where the user has none.
func Default() (file string, src []byte) {
	return "rules/default.toml", []byte(defaultCatalogue)
}

// loadDefault gives the book of the embedded catalogue under a file's name,
// nil when it cannot. It leaves out what the tests have shown once and for
// all: that the catalogue is TOML and holds nothing unknown, that everything
// in it compiles, and that its examples hold. Texts and points are compiled
// when a rule first fires.
func loadDefault(file, hash string) *Book {
	c := readPlain(file, defaultCatalogue)
	if c == nil {
		return nil
	}
	compiler := expression.NewCompiler()
	b := &Book{hash: hash, score: c.score, rules: make([]rule, len(c.rules)), verdicts: make([]verdict, len(c.verdicts))}
	for i := range c.rules {
		r := &b.rules[i]
		r.Rule, r.sign = c.rules[i], signOf(c.rules[i].Kind)
		r.fix()
		r.when, _ = compiler.Compile(typed(r.When), expression.YesNo, expression.ForRule)
		if r.when == nil {
			return nil
		}
		r.points.late, r.say.late = r.Points, r.Say
	}
	for i := range c.verdicts {
		p, v := &c.verdicts[i], &b.verdicts[i]
		v.id, v.at, v.say.late, v.say.scope = p.id, p.at, p.say, expression.ForVerdict
		if p.when == "" {
			continue
		}
		if v.when, _ = compiler.Compile(typed(p.when), expression.YesNo, expression.ForVerdict); v.when == nil {
			return nil
		}
	}
	b.gather()
	return b
}
