package page

import (
	"cmp"
	"slices"

	"hotroom/advisor"
	"hotroom/knowledge"
)

// field is one thing to pick or to fill in.
type field struct {
	Name, Label, Hint, Value string
	Groups                   []group  // of a list; nil: free text
	Words                    []string // that a free text may be
	Wrong                    bool
}

// group is a part of a list under a heading of its own; "" for none.
type group struct {
	Name    string
	Options []option
}

type option struct {
	Value, Text, Socket string
	Chosen              bool
}

// form puts the fields together, filled in with what is asked.
func (a *asking) form() []field {
	base, q := a.Snapshot.Base(), a.question
	said := a.asked.Said
	number := func(v *float64, typed string) string {
		if values := Query(advisor.Question{RoomC: v}); v != nil {
			return values.Get("room")
		}
		return typed
	}
	fields := []field{
		{Name: "board", Label: "Board", Groups: boardGroups(base, q)},
		{Name: "chip", Label: "Chip", Groups: chipGroups(base, q)},
		{Name: "room", Label: "Room", Hint: "32, 90F, or " + roomWords(base), Value: number(q.RoomC, said.Room), Words: wordsOf(base)},
		{Name: "enclosure", Label: "Enclosure", Groups: list(base.Enclosures, q.Enclosure, func(e *knowledge.Enclosure) (string, string) { return e.ID, e.Name })},
		{Name: "cooler", Label: "Cooler", Groups: list(base.Coolers, q.Cooler, func(c *knowledge.Cooler) (string, string) { return c.ID, c.Name })},
		{Name: "load", Label: "Load", Groups: list(base.Loads, q.Load, func(l *knowledge.Load) (string, string) { return l.ID, l.Name })},
		{Name: "setup", Label: "Power setup", Groups: []group{{"", setups(q.Setup)}}},
		{Name: "power", Label: "Own power cap, W", Value: number(q.PowerW, said.Power)},
		{Name: "current", Label: "Own current cap, A", Value: number(q.CurrentA, said.Current)},
		{Name: "ghz", Label: "Clock wanted, GHz", Value: number(q.GHz, said.GHz)},
		{Name: "graphics", Label: "Graphics card, W", Value: number(q.GraphicsW, said.Graphics)},
		{Name: "altitude", Label: "Altitude, m", Value: number(q.AltitudeM, said.Altitude)},
	}
	if a.view.Problem != nil {
		for i := range fields {
			fields[i].Wrong = fields[i].Name == a.view.Problem.Field
		}
	}
	return fields
}

// list makes a list of things that all fit.
func list[T any](things []T, chosen string, of func(*T) (id, name string)) []group {
	g := group{Options: []option{{Text: "as usual"}}}
	for i := range things {
		id, name := of(&things[i])
		g.Options = append(g.Options, option{Value: id, Text: name, Chosen: id == chosen})
	}
	return []group{g}
}

func setups(chosen string) []option {
	options := []option{{Text: "as usual"}}
	for _, s := range [][2]string{
		{advisor.SetupShipped, "as the board is shipped"},
		{advisor.SetupRated, "as the chip is rated"},
		{advisor.SetupOpen, "no cap"},
		{advisor.SetupCustom, "own caps"},
	} {
		options = append(options, option{Value: s[0], Text: s[1], Chosen: s[0] == chosen})
	}
	return options
}

// boardGroups lists the boards by maker.
func boardGroups(base *knowledge.Base, q advisor.Question) []group {
	groups := []group{{Options: []option{{Text: "choose a board"}}}}
	for i := range base.Boards {
		b := &base.Boards[i]
		groups = into(groups, cmp.Or(b.Maker, "Others"), option{b.ID, b.Name, b.Socket, b.ID == q.Board})
	}
	return groups
}

// chipGroups lists the chips by socket: only those of the chosen board's, where
// one is chosen.
func chipGroups(base *knowledge.Base, q advisor.Question) []group {
	socket := ""
	if b, ok := base.Board(q.Board); ok {
		socket = b.Socket
	}
	groups := []group{{Options: []option{{Text: "choose a chip"}}}}
	for i := range base.Chips {
		if c := &base.Chips[i]; socket == "" || c.Socket == socket || c.ID == q.Chip {
			groups = into(groups, "Socket "+c.Socket, option{c.ID, c.Name, c.Socket, c.ID == q.Chip})
		}
	}
	return groups
}

func into(groups []group, name string, o option) []group {
	i := slices.IndexFunc(groups, func(g group) bool { return g.Name == name })
	if i < 0 {
		return append(groups, group{name, []option{o}})
	}
	groups[i].Options = append(groups[i].Options, o)
	return groups
}

func wordsOf(base *knowledge.Base) []string {
	var words []string
	for i := range base.Rooms {
		words = append(words, base.Rooms[i].Word)
	}
	return words
}

// roomWords lists the words for rooms with their temperatures.
func roomWords(base *knowledge.Base) string {
	text := ""
	for i := range base.Rooms {
		if i > 0 {
			text += ", "
		}
		text += base.Rooms[i].Word + " (" + whole(base.Rooms[i].Celsius) + ")"
	}
	return text
}

// choice is a board that may be compared.
type choice struct {
	ID, Name, Socket string
	Chosen           bool
}

// choices lists the boards that take the chip, or all.
func (a *asking) choices() []choice {
	base := a.Snapshot.Base()
	socket := ""
	if c, ok := base.Chip(a.question.Chip); ok {
		socket = c.Socket
	}
	var list []choice
	for i := range base.Boards {
		b := &base.Boards[i]
		if socket == "" || b.Socket == socket {
			chosen := b.ID == a.question.Board || slices.Contains(a.asked.Boards, b.ID)
			list = append(list, choice{b.ID, b.Name, b.Socket, chosen})
		}
	}
	return list
}
