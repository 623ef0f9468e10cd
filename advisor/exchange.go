package advisor

import (
	"context"
	"fmt"

	"hotroom/knowledge"
)

// Exchanged is one part of a board exchanged for that of another: what each
// has, and by how much that alone changes the expected hot spot.
type Exchanged struct {
	Part   string   `json:"part"`
	From   string   `json:"from"`
	To     string   `json:"to"`
	DeltaC *float64 `json:"delta_c"` // K; null: one of the two cannot settle
}

// Exchange carries the difference in temperature between two boards to the
// parts that differ.
type Exchange struct {
	From  string      `json:"from"` // board id
	To    string      `json:"to"`   // board id
	Parts []Exchanged `json:"parts"`
	// PartsC is what all exchanged parts make together, K; TogetherC is what
	// they make beyond the sum of each alone; LearnedC is what the boards' runs
	// say beyond their parts; TotalC is the whole difference. Null: one of the
	// boards cannot settle.
	PartsC    *float64 `json:"parts_c"`
	TogetherC *float64 `json:"together_c"`
	LearnedC  *float64 `json:"learned_c"`
	TotalC    *float64 `json:"total_c"`
}

// part is something of a board that can be exchanged.
type part struct {
	name string
	say  func(b *knowledge.Board, s *knowledge.Stage) string
	copy func(into, from *knowledge.Board)
}

// exchangeable lists the parts in the order in which they are told.
func exchangeable() []part {
	return []part{
		{
			"phases", func(b *knowledge.Board, _ *knowledge.Stage) string { return fmt.Sprint(b.Regulator.Phases) },
			func(into, from *knowledge.Board) { into.Regulator.Phases = from.Regulator.Phases },
		},
		{
			"power stage", func(_ *knowledge.Board, s *knowledge.Stage) string { return s.Name },
			func(into, from *knowledge.Board) { into.Regulator.Stage = from.Regulator.Stage },
		},
		{
			"switching frequency", func(b *knowledge.Board, _ *knowledge.Stage) string { return plain(b.Regulator.SwitchingKHz) + " kHz" },
			func(into, from *knowledge.Board) { into.Regulator.SwitchingKHz = from.Regulator.SwitchingKHz },
		},
		{"inductors", sayInductors, copyInductors},
		{
			"copper to the socket", func(b *knowledge.Board, _ *knowledge.Stage) string {
				return fmt.Sprintf("%s mΩ, %s K/W", plain(b.Regulator.PlaneMOhm), plain(b.SocketKPerW))
			},
			func(into, from *knowledge.Board) {
				into.Regulator.PlaneMOhm, into.SocketKPerW = from.Regulator.PlaneMOhm, from.SocketKPerW
			},
		},
		{"heatsink", sayHeatsink, func(into, from *knowledge.Board) { into.Heatsink = from.Heatsink }},
		{
			"board area", func(b *knowledge.Board, _ *knowledge.Stage) string { return plain(b.AreaCM2) + " cm²" },
			func(into, from *knowledge.Board) { into.AreaCM2 = from.AreaCM2 },
		},
		{"limits as shipped", sayLimits, func(into, from *knowledge.Board) {
			into.Limit.PowerW, into.Limit.CurrentA = from.Limit.PowerW, from.Limit.CurrentA
		}},
	}
}

func sayInductors(b *knowledge.Board, _ *knowledge.Stage) string {
	r := b.Regulator
	return fmt.Sprintf("%s nH, %s mΩ, %s W core", plain(r.InductorNH), plain(r.InductorMOhm), plain(r.CoreLossW))
}

func copyInductors(into, from *knowledge.Board) {
	into.Regulator.InductorNH = from.Regulator.InductorNH
	into.Regulator.InductorMOhm = from.Regulator.InductorMOhm
	into.Regulator.CoreLossW = from.Regulator.CoreLossW
}

func sayHeatsink(b *knowledge.Board, _ *knowledge.Stage) string {
	s := b.Heatsink
	text := s.Shape
	if s.MassG != nil {
		text += ", " + plain(*s.MassG) + " g"
	}
	if s.AreaCM2 != nil {
		text += ", " + plain(*s.AreaCM2) + " cm²"
	}
	return text
}

func sayLimits(b *knowledge.Board, _ *knowledge.Stage) string {
	return orUnstated(b.Limit.PowerW, "W") + ", " + orUnstated(b.Limit.CurrentA, "A")
}

func orUnstated(v *float64, unit string) string {
	if v == nil {
		return "no " + unit + " stated"
	}
	return plain(*v) + " " + unit
}

// ExchangeParts exchanges the parts of a board for those of another, one at a
// time, under the conditions of a question, and works out what each does to the
// expected hot spot. The clock is the one that the caps allow: lowering it for
// heat would hide the difference. Parts are compared by what is believed of
// boards in general; what runs add stands by itself. The error is a *Refusal.
func ExchangeParts(ctx context.Context, s *Snapshot, q Question, from, to string) (Exchange, error) {
	if err := ctx.Err(); err != nil {
		return Exchange{}, err
	}
	a, err := s.sceneOf(q, from)
	if err != nil {
		return Exchange{}, err
	}
	b, err := s.sceneOf(q, to)
	if err != nil {
		return Exchange{}, err
	}
	x := Exchange{From: from, To: to, Parts: []Exchanged{}}
	start, end := s.plainHot(a, *a.parts.board), s.plainHot(b, *b.parts.board)
	for _, p := range exchangeable() {
		was, is := p.say(a.parts.board, a.parts.stage), p.say(b.parts.board, b.parts.stage)
		if was == is {
			continue
		}
		hybrid := *a.parts.board
		p.copy(&hybrid, b.parts.board)
		x.Parts = append(x.Parts, Exchanged{Part: p.name, From: was, To: is, DeltaC: value(s.plainHot(a, hybrid) - start)})
	}
	x.sum(end-start, s.capHot(b)-s.capHot(a))
	return x, nil
}

// sum carries the difference that parts make, and the whole one, both in K.
func (x *Exchange) sum(parts, total float64) {
	alone := 0.0
	for _, p := range x.Parts {
		alone += known(p.DeltaC)
	}
	x.PartsC, x.TogetherC = value(parts), value(parts-alone)
	x.LearnedC, x.TotalC = value(total-parts), value(total)
}

func (s *Snapshot) sceneOf(q Question, board string) (*scene, error) {
	q.Board = board
	return s.resolve(q)
}

// capHot gives the hot spot in °C at the clock that the caps allow; +Inf when
// it cannot settle.
func (s *Snapshot) capHot(sc *scene) float64 {
	e := sc.estimate(sc.allowed.Demand, sc.roomC, sc.guessC)
	return e.hot()
}

// plainHot gives the same for a build in place of the scene's board, believed
// as boards in general are.
func (s *Snapshot) plainHot(sc *scene, build knowledge.Board) float64 {
	p, err := newParts(s.base, &build)
	if err != nil {
		return known(nil)
	}
	p.belief = s.general.Bounded()
	other := *sc
	other.parts = p
	other.caps = capsFor(sc.question, &build, sc.chip)
	other.hold()
	return s.capHot(&other)
}
