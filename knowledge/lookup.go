package knowledge

import (
	"cmp"
	"slices"
	"strings"
)

// index finds records by their ids.
type index struct {
	chips, boards, stages, enclosures, coolers, loads, rooms, thermometers map[string]int

	runs map[string][]*Run // by board
}

// New makes the indexes of a base put together in a program rather than read
// from a folder. Of records that share an id the first is found.
func New(b Base) *Base {
	b.index = index{
		chips:        byID(b.Chips, func(c *Chip) string { return c.ID }),
		boards:       byID(b.Boards, func(x *Board) string { return x.ID }),
		stages:       byID(b.Stages, func(s *Stage) string { return s.ID }),
		enclosures:   byID(b.Enclosures, func(e *Enclosure) string { return e.ID }),
		coolers:      byID(b.Coolers, func(c *Cooler) string { return c.ID }),
		loads:        byID(b.Loads, func(l *Load) string { return l.ID }),
		rooms:        byID(b.Rooms, func(r *Room) string { return r.Word }),
		thermometers: byID(b.Thermometers, func(t *Thermometer) string { return t.ID }),
		runs:         make(map[string][]*Run),
	}
	for i := range b.Runs {
		r := &b.Runs[i]
		b.index.runs[r.Board] = append(b.index.runs[r.Board], r)
	}
	for _, runs := range b.index.runs {
		slices.SortStableFunc(runs, byDate)
	}
	return &b
}

// byDate orders runs by their dates, those of a day by their ids.
func byDate(a, b *Run) int {
	return cmp.Or(strings.Compare(a.Date, b.Date), strings.Compare(a.ID, b.ID))
}

func byID[T any](list []T, id func(*T) string) map[string]int {
	m := make(map[string]int, len(list))
	for i := range list {
		if _, ok := m[id(&list[i])]; !ok {
			m[id(&list[i])] = i
		}
	}
	return m
}

func find[T any](list []T, m map[string]int, id string) (*T, bool) {
	i, ok := m[id]
	if !ok {
		return nil, false
	}
	return &list[i], true
}

// Chip finds a chip by its id.
func (b *Base) Chip(id string) (*Chip, bool) { return find(b.Chips, b.index.chips, id) }

// Board finds a board by its id.
func (b *Base) Board(id string) (*Board, bool) { return find(b.Boards, b.index.boards, id) }

// Stage finds a power stage by its id.
func (b *Base) Stage(id string) (*Stage, bool) { return find(b.Stages, b.index.stages, id) }

// Enclosure finds an enclosure by its id.
func (b *Base) Enclosure(id string) (*Enclosure, bool) {
	return find(b.Enclosures, b.index.enclosures, id)
}

// Cooler finds a cooler by its id.
func (b *Base) Cooler(id string) (*Cooler, bool) { return find(b.Coolers, b.index.coolers, id) }

// Load finds a load by its id.
func (b *Base) Load(id string) (*Load, bool) { return find(b.Loads, b.index.loads, id) }

// Room finds a room temperature by its word.
func (b *Base) Room(word string) (*Room, bool) { return find(b.Rooms, b.index.rooms, word) }

// Thermometer finds a thermometer by its id.
func (b *Base) Thermometer(id string) (*Thermometer, bool) {
	return find(b.Thermometers, b.index.thermometers, id)
}

// RunsOf gives the runs of a board in the order of their dates and ids, so
// that it does not matter how the file orders them; nobody changes the list.
func (b *Base) RunsOf(boardID string) []*Run { return b.index.runs[boardID] }

// DefaultEnclosure is the one marked default, else the first; nil when there
// is none.
func (b *Base) DefaultEnclosure() *Enclosure {
	return standard(b.Enclosures, func(e *Enclosure) bool { return e.Default })
}

// DefaultCooler is the one marked default, else the first; nil when there is
// none.
func (b *Base) DefaultCooler() *Cooler {
	return standard(b.Coolers, func(c *Cooler) bool { return c.Default })
}

// DefaultLoad is the one marked default, else the first; nil when there is
// none.
func (b *Base) DefaultLoad() *Load {
	return standard(b.Loads, func(l *Load) bool { return l.Default })
}

// DefaultRoom is the one marked default, else the first; nil when there is
// none.
func (b *Base) DefaultRoom() *Room {
	return standard(b.Rooms, func(r *Room) bool { return r.Default })
}

func standard[T any](list []T, marked func(*T) bool) *T {
	for i := range list {
		if marked(&list[i]) {
			return &list[i]
		}
	}
	if len(list) == 0 {
		return nil
	}
	return &list[0]
}
