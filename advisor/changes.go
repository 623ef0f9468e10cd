package advisor

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"

	"hotroom/knowledge"
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
		if c := look(a); c != nil && len(list) < mostChanges {
			list = append(list, *c)
		}
	}
	return list
}

// brief answers a question without looking for changes.
func (s *Snapshot) brief(q Question) (*answer, Advice, error) {
	a, judged, err := s.judged(q)
	if err != nil {
		return nil, Advice{}, err
	}
	return a, s.advice(a, judged), nil
}

// yes answers a changed question; nil unless it is a yes.
func (s *Snapshot) yes(q Question) *Advice {
	_, advice, err := s.brief(q)
	if err != nil || advice.Verdict != Yes {
		return nil
	}
	return &advice
}

// highest finds the highest of the values top, top−step, … that makes a yes of
// its question, and that answer; nil when none down to bottom does.
func (s *Snapshot) highest(top, bottom, step float64, ask func(float64) Question) *Advice {
	steps := int(math.Floor((top-bottom)/step)) + 1
	if steps < 1 {
		return nil
	}
	at := func(i int) *Advice { return s.yes(ask(top - step*float64(i))) }
	return at(sort.Search(steps-1, func(i int) bool { return at(i) != nil }))
}

// lowerCap looks for the highest power cap, in whole 5 W, that is enough. The
// current cap in force stays.
func (s *Snapshot) lowerCap(a *answer) *Change {
	top := capStepW * math.Ceil(a.held.demand.PackageW/capStepW-1)
	bottom := a.curve.At(a.curve.First(), a.load.Activity).PackageW
	advice := s.highest(top, bottom, capStepW, func(watts float64) Question {
		q := a.question
		q.Setup, q.PowerW, q.CurrentA = SetupCustom, number(watts), a.caps.CurrentA
		return q
	})
	if advice == nil {
		return nil
	}
	return change(advice, "Cap the package power at %s W: it then holds %.2f GHz. Set the cap in the firmware as the board's manual says, and leave every other limit as it is.",
		plain(*advice.Question.PowerW), advice.Clock.SustainedGHz)
}

// lighterLoad looks for the heaviest of the lighter loads that is enough.
func (s *Snapshot) lighterLoad(a *answer) *Change {
	for _, l := range sorted(s.base.Loads, func(l *knowledge.Load) float64 { return -l.Activity }) {
		if l.Activity >= a.load.Activity {
			continue
		}
		q := a.question
		q.Load = l.ID
		if advice := s.yes(q); advice != nil {
			return change(advice, "Work it no harder than %s: heavier work, even once, is not covered.", l.Name)
		}
	}
	return nil
}

// coolerRoom looks for the warmest room, in whole degrees, that is enough.
func (s *Snapshot) coolerRoom(a *answer) *Change {
	advice := s.highest(math.Ceil(a.roomC)-roomStepC, coolRoomC, roomStepC, func(roomC float64) Question {
		q := a.question
		q.RoomC = number(roomC)
		return q
	})
	if advice == nil {
		return nil
	}
	return change(advice, "Keep the room at %s °C or below whenever it is worked hard.", plain(*advice.Question.RoomC))
}

// moreAir looks for the enclosure with the least air that is enough; an open
// bench is no enclosure to live with.
func (s *Snapshot) moreAir(a *answer) *Change {
	for _, e := range sorted(s.base.Enclosures, flow) {
		if e.FlowM3H == nil || a.enclosure.FlowM3H == nil || *e.FlowM3H <= *a.enclosure.FlowM3H {
			continue
		}
		q := a.question
		q.Enclosure = e.ID
		if advice := s.yes(q); advice != nil {
			return change(advice, "Give it the air of the enclosure %q (%s m³/h through it): unplug before you add or move fans, and check that everything fits.", e.Name, plain(*e.FlowM3H))
		}
	}
	return nil
}

// otherCooler looks for the first other cooler that is enough.
func (s *Snapshot) otherCooler(a *answer) *Change {
	for i := range s.base.Coolers {
		c := &s.base.Coolers[i]
		q := a.question
		q.Cooler = c.ID
		if c.ID == a.cooler.ID {
			continue
		}
		if advice := s.yes(q); advice != nil {
			return change(advice, "Change the cooler to the %s: check that it fits the socket, the case and the chip's rated power.", c.Name)
		}
	}
	return nil
}

func flow(e *knowledge.Enclosure) float64 {
	if e.FlowM3H == nil {
		return math.Inf(1)
	}
	return *e.FlowM3H
}

// sorted lists records by a number, lowest first.
func sorted[T any](records []T, by func(*T) float64) []*T {
	list := make([]*T, len(records))
	for i := range records {
		list[i] = &records[i]
	}
	slices.SortStableFunc(list, func(x, y *T) int { return cmp.Compare(by(x), by(y)) })
	return list
}

// change words a changed question that was answered with a yes.
func change(advice *Advice, format string, args ...any) *Change {
	return &Change{
		Text: fmt.Sprintf(format, args...), Question: advice.Question, Verdict: advice.Verdict, MarginKeptC: advice.Margin.KeptC,
	}
}
