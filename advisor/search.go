package advisor

import (
	"fmt"
	"math"
	"sort"

	"hotroom/advisor/balance"
	"hotroom/rules"
	"hotroom/rules/facts"
)

// search looks for changes to a question that was answered that turn the answer
// into a yes. What is worked out of the question at hand takes the place of that
// of the one before.
type search struct {
	*Snapshot
	from  *answer
	scene scene
	hand  answer
	known facts.Facts
}

func newSearch(s *Snapshot, from *answer) *search {
	return &search{Snapshot: s, from: from, known: facts.Facts{Board: from.boardFacts(), Chip: from.chipFacts()}}
}

// turned is a changed question that is answered with a yes.
type turned struct {
	question Question
	keptK    float64
	ghz      float64
}

// change words it.
func (t *turned) change(format string, args ...any) *Change {
	return &Change{Text: fmt.Sprintf(format, args...), Question: t.question, Verdict: Yes, MarginKeptC: value(t.keptK)}
}

// try answers the question with something changed in its scene; nil unless the
// answer is a yes.
func (x *search) try(change func(*scene) error) *turned {
	x.scene = *x.from.scene
	if change(&x.scene) != nil || !x.yes() {
		return nil
	}
	return &turned{x.scene.question, x.hand.kept(), x.hand.demand.GHz}
}

// yes answers the changed question, and goes no further than it must to see
// whether that is a yes. No rule may overturn that a board cannot settle, that
// the chip must run below its table, or that the clock is lowered for heat; what
// is no yes whatever the heat does needs no balance; and what the rules say
// seldom waits for the ceilings.
func (x *search) yes() bool {
	a, sc := &x.hand, &x.scene
	if sc.allowed.FirstPoint {
		return false
	}
	drawn := estimate{demand: sc.allowed.Demand}
	a.begin(sc, sustained{estimate: drawn, limitedBy: sc.allowed.LimitedBy, held: drawn})
	a.gatherCold(&x.known)
	if x.book.Barred(&x.known) || !x.warm() {
		return false
	}
	a.gatherWarm(&x.known)
	switch x.book.Foresee(&x.known) {
	case rules.SureYes:
		return true
	case rules.OpenYet:
		a.findCeilings()
		x.known.Ceiling = a.ceilingFacts()
		return x.book.IsYes(&x.known)
	}
	return false
}

// warm balances the heat, unless the board gets too warm for a yes.
func (x *search) warm() bool {
	a, sc := &x.hand, &x.scene
	c, e := sc.prepare(sc.allowed.Demand, sc.roomC)
	e.settle(sc.parts, &c, e.warmest(sc.parts, sc.roomC, x.book.LeastKept()), x.guess())
	a.sustained.estimate, a.held = e, e
	if !e.settles || a.throttled(sc.parts.board) {
		return false
	}
	a.warm()
	return true
}

// warmest gives a temperature in °C above which the board throttles, or keeps
// less than a margin in K, in a room in °C. It is a little more than that, so
// that the last digits do not decide.
func (e *estimate) warmest(p *parts, roomC, leastKept float64) float64 {
	const moreK = 1e-3
	stageW := min(e.loss.Semiconductor.At(roomC), e.loss.Semiconductor.At(balance.RunawayC))
	limitC, _ := p.limits.Lowest(stageW) // the most that it can be at any temperature
	top := limitC - leastKept
	if throttleC := p.board.Limit.HotSpotC; throttleC != nil {
		top = min(top, *throttleC)
	}
	return min(top+moreK, balance.RunawayC)
}

// mostW gives a package power in W above which no cap makes a yes: that at which
// the margin is used up, where the rules want one; +Inf where it is not known.
func (x *search) mostW() float64 {
	switch a := x.from; {
	case !a.settles || a.powerAtLeast || !(x.book.LeastKept() >= 0):
		return math.Inf(1)
	case math.IsNaN(a.powerCeilingW): // even the first point has none
		return math.Inf(-1)
	default:
		return a.powerCeilingW
	}
}

// warmestRoomC gives a room in °C above which there is no yes, likewise.
func (x *search) warmestRoomC() float64 {
	switch a := x.from; {
	case !(x.book.LeastKept() >= 0) || a.held.kept() >= 0:
		return math.Inf(1)
	case math.IsNaN(a.roomCeilingC): // even the coldest has none
		return math.Inf(-1)
	default:
		return a.roomCeilingC
	}
}

// guess looks for the hot spot as far above the room as the answer's is, and
// further by as much as more power is drawn.
func (x *search) guess() float64 {
	held := &x.from.held
	if !held.settles {
		return usual(x.scene.roomC)
	}
	return x.scene.roomC + (held.state.HotC-x.from.roomC)*x.scene.allowed.PackageW/held.demand.PackageW
}

// highest finds the highest of the values top, top−step, … that makes a yes,
// by halving; nil when none down to bottom does.
func highest(top, bottom, step float64, try func(float64) *turned) *turned {
	if !(top >= bottom) {
		return nil
	}
	steps := int(math.Floor((top-bottom)/step)) + 1
	var found *turned
	at := -1
	i := sort.Search(steps-1, func(i int) bool {
		t := try(top - step*float64(i))
		if t != nil {
			found, at = t, i
		}
		return t != nil
	})
	if i == at {
		return found
	}
	return try(top - step*float64(i)) // the last of them was not tried yet
}
