package rules

import (
	"slices"
	"sync"

	"hotroom/rules/expression"
)

// points are what a rule gives. Those of the default catalogue are compiled
// when the rule first fires.
type points struct {
	once sync.Once
	late string // what is yet to be compiled
	x    *expression.Expression
}

// expression gives the compiled points, nil where there are none.
func (p *points) expression() *expression.Expression {
	p.once.Do(p.compile)
	return p.x
}

func (p *points) compile() {
	if p.late != "" {
		p.x, _ = expression.NewCompiler().Compile(typed(p.late), expression.Number, expression.ForRule)
	}
}

// say is the text of a rule or verdict. Those of the default catalogue are
// compiled when they are first said.
type say struct {
	once   sync.Once
	late   string // what is yet to be compiled
	scope  expression.Scope
	pieces template
}

func (s *say) fill(e *expression.Evaluator) (string, error) {
	s.once.Do(s.compile)
	return s.pieces.fill(e)
}

// divides reports whether the text may break.
func (s *say) divides() bool {
	s.once.Do(s.compile)
	return slices.ContainsFunc(s.pieces, func(p piece) bool { return p.value != nil && p.value.Divides })
}

func (s *say) compile() {
	if s.late != "" {
		l := loader{compiler: expression.NewCompiler()}
		s.pieces = l.template(typed(s.late), s.scope)
	}
}
