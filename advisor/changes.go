package advisor

import (
	"cmp"
	"math"
	"slices"

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
// before what must be bought. Each was answered, and leads to a yes.
func (s *Snapshot) changes(a *answer, verdict string) []Change {
	list := []Change{}
	if verdict == Yes {
		return list
	}
	x := newSearch(s, a)
	for _, look := range []func(*search) *Change{(*search).lowerCap, (*search).lighterLoad, (*search).coolerRoom, (*search).moreAir, (*search).otherCooler} {
		if c := look(x); c != nil {
			list = append(list, *c)
		}
		if len(list) == mostChanges {
			break
		}
	}
	return list
}

// lowerCap looks for the highest power cap, in whole 5 W, that is enough. The
// current cap in force stays.
func (x *search) lowerCap() *Change {
	a := x.from
	top := min(capStepW*math.Ceil(a.held.demand.PackageW/capStepW-1), capStepW*math.Floor(x.mostW()/capStepW))
	bottom := a.curve.At(a.curve.First(), a.load.Activity).PackageW
	b := highest(top, bottom, capStepW, func(watts float64) *turned {
		return x.try(func(sc *scene) error {
			q := &sc.question
			q.Setup, q.PowerW, q.CurrentA = SetupCustom, number(watts), a.caps.CurrentA
			err := x.resolveSetup(sc)
			sc.hold()
			return err
		})
	})
	if b == nil {
		return nil
	}
	return b.change("Cap the package power at %s W: it then holds %.2f GHz. Set the cap in the firmware as the board's manual says, and leave every other limit as it is.",
		plain(*b.question.PowerW), rounded(b.ghz))
}

// lighterLoad looks for the heaviest of the lighter loads that is enough.
func (x *search) lighterLoad() *Change {
	for _, l := range sorted(x.base.Loads, func(l *knowledge.Load) (float64, string) { return -l.Activity, l.ID }) {
		if l.Activity >= x.from.load.Activity {
			continue
		}
		b := x.try(func(sc *scene) error {
			sc.question.Load = l.ID
			err := x.resolveLoad(sc)
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
func (x *search) coolerRoom() *Change {
	top := min(math.Ceil(x.from.roomC)-roomStepC, roomStepC*math.Floor(x.warmestRoomC()/roomStepC))
	b := highest(top, coolRoomC, roomStepC, func(roomC float64) *turned {
		return x.try(func(sc *scene) error {
			sc.question.RoomC = number(roomC)
			return x.resolveRoom(sc)
		})
	})
	if b == nil {
		return nil
	}
	return b.change("Keep the room at %s °C or below whenever it is worked hard.", plain(*b.question.RoomC))
}

// moreAir looks for the enclosure with the least air that is enough; an open
// bench is no enclosure to live with.
func (x *search) moreAir() *Change {
	for _, e := range sorted(x.base.Enclosures, flow) {
		if e.FlowM3H == nil || x.from.enclosure.FlowM3H == nil || *e.FlowM3H <= *x.from.enclosure.FlowM3H {
			continue
		}
		b := x.try(func(sc *scene) error {
			sc.question.Enclosure = e.ID
			return x.resolveSurroundings(sc)
		})
		if b != nil {
			return b.change("Give it the air of the enclosure %q (%s m³/h through it): unplug before you add or move fans, and check that everything fits.", e.Name, plain(*e.FlowM3H))
		}
	}
	return nil
}

// otherCooler looks for the other cooler with the least air that is enough.
func (x *search) otherCooler() *Change {
	for _, c := range sorted(x.base.Coolers, func(c *knowledge.Cooler) (float64, string) { return c.AirspeedMS, c.ID }) {
		if c.ID == x.from.cooler.ID {
			continue
		}
		b := x.try(func(sc *scene) error {
			sc.question.Cooler = c.ID
			return x.resolveSurroundings(sc)
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
