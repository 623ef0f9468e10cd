package advisor

import (
	"fmt"

	"hotroom/advisor/chip"
	"hotroom/advisor/evidence"
	"hotroom/advisor/heat"
	"hotroom/advisor/limit"
	"hotroom/advisor/regulator"
	"hotroom/knowledge"
	"hotroom/rules"
)

// Snapshot is one state of knowledge and rules, worked up for answering.
// Nobody changes it after it is made, so that any number of questions may use
// it at once.
type Snapshot struct {
	base    *knowledge.Base
	book    *rules.Book
	program string
	boards  map[string]*parts
	curves  map[string]*chip.Curve
	general evidence.Belief // about a board of which nothing was measured

	outliers []Outlier
}

// parts is a board worked up for the model.
type parts struct {
	board     *knowledge.Board
	stage     *knowledge.Stage
	regulator *regulator.Regulator
	path      heat.Path
	limits    *limit.Limits
	belief    evidence.Belief
	history   history
	defaulted []string // what is left to the model, in words
	estimated []string // what is an estimate, in words
}

// NewSnapshot works up a checked knowledge and a rule book; program is the
// version that answers name. It fails where a chip or a stage cannot be
// interpolated.
func NewSnapshot(base *knowledge.Base, book *rules.Book, program string) (*Snapshot, error) {
	s, err := workUp(base)
	if err != nil {
		return nil, err
	}
	s.book, s.program = book, program
	return s, nil
}

// workUp does what needs no rules.
func workUp(base *knowledge.Base) (*Snapshot, error) {
	s := &Snapshot{
		base:   base,
		boards: make(map[string]*parts, len(base.Boards)),
		curves: make(map[string]*chip.Curve, len(base.Chips)),
	}
	for i := range base.Chips {
		curve, err := chip.NewCurve(&base.Chips[i])
		if err != nil {
			return nil, err
		}
		s.curves[base.Chips[i].ID] = curve
	}
	for i := range base.Boards {
		p, err := newParts(base, &base.Boards[i])
		if err != nil {
			return nil, err
		}
		s.boards[p.board.ID] = p
	}
	s.learn()
	s.tell()
	return s, nil
}

func newParts(base *knowledge.Base, b *knowledge.Board) (*parts, error) {
	stage, ok := base.Stage(b.Regulator.Stage)
	if !ok {
		return nil, fmt.Errorf("board %q: there is no stage %q: add it to stages.toml", b.ID, b.Regulator.Stage)
	}
	r, err := regulator.New(b, stage)
	if err != nil {
		return nil, fmt.Errorf("board %q: %w", b.ID, err)
	}
	p := &parts{board: b, stage: stage, regulator: r, path: heat.NewPath(b), limits: limit.Of(b, stage)}
	p.sayDefaults()
	return p, nil
}

// Base gives the knowledge that the snapshot was made from.
func (s *Snapshot) Base() *knowledge.Base { return s.base }

// Book gives the rules that the snapshot was made from.
func (s *Snapshot) Book() *rules.Book { return s.book }
