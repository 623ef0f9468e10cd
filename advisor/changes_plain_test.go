package advisor_test

import (
	"cmp"
	"math"
	"slices"
	"sort"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor"
	"hotroom/advisor/chip"
	"hotroom/knowledge"
)

// plainSearch looks for changes as the advisor does, but answers each changed
// question in full. It is what the quicker search must agree with.
type plainSearch struct {
	*testing.T
	s *advisor.Snapshot
	a advisor.Advice
}

// yes answers a changed question; nil unless the answer is a yes.
func (p *plainSearch) yes(change func(*advisor.Question)) *advisor.Advice {
	q := p.a.Question
	change(&q)
	a, err := advisor.AdviseBriefly(p.Context(), p.s, q)
	if err != nil || a.Verdict != advisor.Yes {
		return nil
	}
	return &a
}

func (p *plainSearch) highest(top, bottom, step float64, change func(*advisor.Question, float64)) *advisor.Advice {
	steps := int(math.Floor((top-bottom)/step)) + 1
	if steps < 1 {
		return nil
	}
	at := func(i int) *advisor.Advice {
		return p.yes(func(q *advisor.Question) { change(q, top-step*float64(i)) })
	}
	return at(sort.Search(steps-1, func(i int) bool { return at(i) != nil }))
}

func (p *plainSearch) all() []advisor.Change {
	list := []advisor.Change{}
	if p.a.Verdict == advisor.Yes {
		return list
	}
	for _, look := range []func() *advisor.Advice{p.lowerCap, p.lighterLoad, p.coolerRoom, p.moreAir, p.otherCooler} {
		if a := look(); a != nil && len(list) < 3 {
			list = append(list, advisor.Change{Question: a.Question, Verdict: a.Verdict, MarginKeptC: a.Margin.KeptC})
		}
	}
	return list
}

func (p *plainSearch) lowerCap() *advisor.Advice {
	q, base := p.a.Question, p.s.Base()
	k, _ := base.Chip(q.Chip)
	b, _ := base.Board(q.Board)
	load, _ := base.Load(q.Load)
	curve, err := chip.NewCurve(k)
	if err != nil {
		p.Fatal(err)
	}
	caps := map[string]chip.Caps{
		advisor.SetupRated: chip.RatedCaps(k), advisor.SetupShipped: chip.ShippedCaps(b, k), advisor.SetupCustom: {PowerW: q.PowerW, CurrentA: q.CurrentA},
	}[q.Setup]
	held := curve.Hold(*q.GHz, load.Activity, caps)
	return p.highest(5*math.Ceil(held.PackageW/5-1), curve.At(curve.First(), load.Activity).PackageW, 5, func(q *advisor.Question, watts float64) {
		q.Setup, q.PowerW, q.CurrentA = advisor.SetupCustom, &watts, caps.CurrentA
	})
}

func (p *plainSearch) lighterLoad() *advisor.Advice {
	loads := slices.Clone(p.s.Base().Loads)
	slices.SortFunc(loads, func(x, y knowledge.Load) int {
		return cmp.Or(cmp.Compare(y.Activity, x.Activity), cmp.Compare(x.ID, y.ID))
	})
	is, _ := p.s.Base().Load(p.a.Question.Load)
	for _, l := range loads {
		if l.Activity < is.Activity {
			if a := p.yes(func(q *advisor.Question) { q.Load = l.ID }); a != nil {
				return a
			}
		}
	}
	return nil
}

func (p *plainSearch) coolerRoom() *advisor.Advice {
	return p.highest(math.Ceil(*p.a.Question.RoomC)-1, 16, 1, func(q *advisor.Question, roomC float64) { q.RoomC = &roomC })
}

func (p *plainSearch) moreAir() *advisor.Advice {
	is, _ := p.s.Base().Enclosure(p.a.Question.Enclosure)
	if is.FlowM3H == nil {
		return nil
	}
	var more []knowledge.Enclosure
	for _, e := range p.s.Base().Enclosures {
		if e.FlowM3H != nil && *e.FlowM3H > *is.FlowM3H {
			more = append(more, e)
		}
	}
	slices.SortFunc(more, func(x, y knowledge.Enclosure) int {
		return cmp.Or(cmp.Compare(*x.FlowM3H, *y.FlowM3H), cmp.Compare(x.ID, y.ID))
	})
	for _, e := range more {
		if a := p.yes(func(q *advisor.Question) { q.Enclosure = e.ID }); a != nil {
			return a
		}
	}
	return nil
}

func (p *plainSearch) otherCooler() *advisor.Advice {
	coolers := slices.Clone(p.s.Base().Coolers)
	slices.SortFunc(coolers, func(x, y knowledge.Cooler) int {
		return cmp.Or(cmp.Compare(x.AirspeedMS, y.AirspeedMS), cmp.Compare(x.ID, y.ID))
	})
	for _, c := range coolers {
		if c.ID != p.a.Question.Cooler {
			if a := p.yes(func(q *advisor.Question) { q.Cooler = c.ID }); a != nil {
				return a
			}
		}
	}
	return nil
}

// sameChange reports whether two changes lead to the same question with the same
// margin.
func sameChange(x, y advisor.Change) bool {
	number := func(x, y *float64) bool { return (x == nil) == (y == nil) && (x == nil || *x == *y) }
	p, q := x.Question, y.Question
	return p.Load == q.Load && p.Enclosure == q.Enclosure && p.Cooler == q.Cooler && p.Setup == q.Setup && x.Verdict == y.Verdict &&
		number(p.RoomC, q.RoomC) && number(p.PowerW, q.PowerW) && number(p.CurrentA, q.CurrentA) &&
		math.Abs(*x.MarginKeptC-*y.MarginKeptC) < 1.5e-4 // a last digit that was rounded the other way
}

// In random worlds the search for changes finds what the plain search finds.
func TestChangesAreThoseOfThePlainSearch(t *testing.T) {
	found := 0
	rapid.Check(t, func(r *rapid.T) {
		s, q := drawChoices(r)
		a, err := advisor.Advise(t.Context(), s, q)
		if err != nil {
			r.Fatal(err)
		}
		p := plainSearch{t, s, a}
		want := p.all()
		if !slices.EqualFunc(a.Changes, want, sameChange) {
			r.Fatalf("got %+v, want %+v", a.Changes, want)
		}
		found += len(want)
	})
	if found == 0 {
		t.Error("no world had a change to find")
	}
}

// drawChoices draws a world with several loads, enclosures and coolers.
func drawChoices(r *rapid.T) (*advisor.Snapshot, advisor.Question) {
	w := drawWorld().Draw(r, "world")
	base := knowledge.Base{Chips: []knowledge.Chip{w.chip}, Boards: []knowledge.Board{w.board}, Stages: []knowledge.Stage{w.stage}}
	for _, id := range []string{"a", "b", "c"} {
		other := drawWorld().Draw(r, "other "+id)
		other.enclosure.ID, other.cooler.ID, other.load.ID = "e"+id, "k"+id, "l"+id
		base.Enclosures, base.Coolers, base.Loads = append(base.Enclosures, other.enclosure), append(base.Coolers, other.cooler), append(base.Loads, other.load)
	}
	s, err := advisor.NewSnapshot(knowledge.New(base), defaultBook(), "test")
	if err != nil {
		r.Fatal(err)
	}
	q := w.question
	q.Enclosure, q.Cooler, q.Load = "ea", "kb", "lc"
	return s, q
}
