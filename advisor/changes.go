package advisor

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"

	"hotroom/knowledge"
	"hotroom/rules"
)

// mostChanges is how many changes an answer lists.
const mostChanges = 3

// Steps in which a change is looked for.
const (
	capStepW  = 5.0  // of a power cap
	roomStepC = 1.0  // of the room
	coolRoomC = 16.0 // no cooler room is proposed, °C
)

// changes lists what would turn an answer that is not a yes into one, the
// cheapest first: what costs nothing (a cap, a lighter load, a cooler room)
// before what must be bought. Each is worked out in full.
func (s *Snapshot) changes(a *answer, verdict string) []Change {
	list := []Change{}
	if verdict == Yes {
		return list
	}
	for _, look := range []func(*answer) *Change{s.lowerCap, s.lighterLoad, s.coolerRoom, s.moreAir, s.otherCooler} {
		if c := look(a); c != nil {
			list = append(list, *c)
		}
		if len(list) == mostChanges {
			break
		}
	}
	return list
}

// changed answers a question with something changed in its scene; nil unless
// the answer is a yes.
func (s *Snapshot) changed(a *answer, change func(*scene) error) *answer {
	sc := *a.scene
	if err := change(&sc); err != nil {
		return nil
	}
	if a.held.settles {
		sc.guessC = a.held.state.HotC + sc.roomC - a.roomC
	}
	return s.yes(&sc)
}

// yes answers a question; nil unless the answer is a yes. It goes no further
// than it must to see that: no rule may overturn that a board cannot settle,
// that the chip must run below its table, or that the clock is lowered for heat;
// and what the rules say seldom waits for the ceilings.
func (s *Snapshot) yes(sc *scene) *answer {
	held := sc.untouched()
	if !held.settles || held.firstPoint || held.throttled(sc.parts.board) {
		return nil
	}
	a := s.begin(sc, held)
	known := a.gather()
	switch s.book.Foresee(&known) {
	case rules.SureYes:
		return a
	case rules.OpenYet:
		a.findCeilings()
		known.Ceiling = a.ceilingFacts()
		if s.book.Judge(known).Verdict == Yes {
			return a
		}
	}
	return nil
}

// highest finds the highest of the values top, top−step, … that makes a yes,
// by halving, and that answer; nil when none down to bottom does.
func highest(top, bottom, step float64, try func(float64) *answer) *answer {
	steps := int(math.Floor((top-bottom)/step)) + 1
	if steps < 1 {
		return nil
	}
	var found *answer
	at := -1
	i := sort.Search(steps-1, func(i int) bool {
		a := try(top - step*float64(i))
		if a != nil {
			found, at = a, i
		}
		return a != nil
	})
	if i == at {
		return found
	}
	return try(top - step*float64(i)) // the last of them was not tried yet
}

// lowerCap looks for the highest power cap, in whole 5 W, that is enough. The
// current cap in force stays.
func (s *Snapshot) lowerCap(a *answer) *Change {
	top := capStepW * math.Ceil(a.held.demand.PackageW/capStepW-1)
	bottom := a.curve.At(a.curve.First(), a.load.Activity).PackageW
	b := highest(top, bottom, capStepW, func(watts float64) *answer {
		return s.changed(a, func(sc *scene) error {
			q := &sc.question
			q.Setup, q.PowerW, q.CurrentA = SetupCustom, number(watts), a.caps.CurrentA
			err := s.resolveSetup(sc)
			sc.hold()
			return err
		})
	})
	if b == nil {
		return nil
	}
	return b.change("Cap the package power at %s W: it then holds %.2f GHz. Set the cap in the firmware as the board's manual says, and leave every other limit as it is.",
		plain(*b.question.PowerW), rounded(b.demand.GHz))
}

// lighterLoad looks for the heaviest of the lighter loads that is enough.
func (s *Snapshot) lighterLoad(a *answer) *Change {
	for _, l := range sorted(s.base.Loads, func(l *knowledge.Load) (float64, string) { return -l.Activity, l.ID }) {
		if l.Activity >= a.load.Activity {
			continue
		}
		b := s.changed(a, func(sc *scene) error {
			sc.question.Load = l.ID
			err := s.resolveLoad(sc)
			sc.hold()
			return err
		})
		if b != nil {
			return b.change("Work it no harder than %s: heavier work, even once, is not covered.", l.Name)
		}
	}
	return nil
}

// coolerRoom looks for the warmest room, in whole degrees, that is enough.
func (s *Snapshot) coolerRoom(a *answer) *Change {
	b := highest(math.Ceil(a.roomC)-roomStepC, coolRoomC, roomStepC, func(roomC float64) *answer {
		return s.changed(a, func(sc *scene) error {
			sc.question.RoomC = number(roomC)
			return s.resolveRoom(sc)
		})
	})
	if b == nil {
		return nil
	}
	return b.change("Keep the room at %s °C or below whenever it is worked hard.", plain(b.roomC))
}

// moreAir looks for the enclosure with the least air that is enough; an open
// bench is no enclosure to live with.
func (s *Snapshot) moreAir(a *answer) *Change {
	for _, e := range sorted(s.base.Enclosures, flow) {
		if e.FlowM3H == nil || a.enclosure.FlowM3H == nil || *e.FlowM3H <= *a.enclosure.FlowM3H {
			continue
		}
		b := s.changed(a, func(sc *scene) error {
			sc.question.Enclosure = e.ID
			return s.resolveSurroundings(sc)
		})
		if b != nil {
			return b.change("Give it the air of the enclosure %q (%s m³/h through it): unplug before you add or move fans, and check that everything fits.", e.Name, plain(*e.FlowM3H))
		}
	}
	return nil
}

// otherCooler looks for the other cooler with the least air that is enough.
func (s *Snapshot) otherCooler(a *answer) *Change {
	for _, c := range sorted(s.base.Coolers, func(c *knowledge.Cooler) (float64, string) { return c.AirspeedMS, c.ID }) {
		if c.ID == a.cooler.ID {
			continue
		}
		b := s.changed(a, func(sc *scene) error {
			sc.question.Cooler = c.ID
			return s.resolveSurroundings(sc)
		})
		if b != nil {
			return b.change("Change the cooler to the %s: check that it fits the socket, the case and the chip's rated power.", c.Name)
		}
	}
	return nil
}

func flow(e *knowledge.Enclosure) (flowM3H float64, id string) {
	if e.FlowM3H == nil {
		return math.Inf(1), e.ID
	}
	return *e.FlowM3H, e.ID
}

// sorted lists records by a number, lowest first, and equals by their ids.
func sorted[T any](records []T, by func(*T) (number float64, id string)) []*T {
	list := make([]*T, len(records))
	for i := range records {
		list[i] = &records[i]
	}
	slices.SortFunc(list, func(x, y *T) int {
		xNumber, xID := by(x)
		yNumber, yID := by(y)
		return cmp.Or(cmp.Compare(xNumber, yNumber), cmp.Compare(xID, yID))
	})
	return list
}

// change words a changed question that was answered with a yes.
func (a *answer) change(format string, args ...any) *Change {
	return &Change{Text: fmt.Sprintf(format, args...), Question: a.question, Verdict: Yes, MarginKeptC: value(a.kept())}
}
