package sentence

import (
	"math"
	"strconv"
)

// fieldOf gives the Question's key for a value's short name, which is also its
// flag's.
func fieldOf(name string) string {
	switch name {
	case room:
		return "room_c"
	case power:
		return "power_w"
	case current:
		return "current_a"
	case graphics:
		return "graphics_w"
	case altitude:
		return "altitude_m"
	}
	return name
}

// Value writes a question's number with its unit, for people; name is the
// flag's name. Clocks keep two decimals, temperatures one, the rest none.
func Value(name string, value float64) string {
	keep := map[string]float64{ghz: 100, room: 10}[name]
	keep = max(keep, 1)
	return strconv.FormatFloat(math.Round(value*keep)/keep, 'f', -1, 64) + " " + unitFor(name)
}

func unitFor(name string) string {
	switch name {
	case room:
		return "°C"
	case power, graphics:
		return "W"
	case current:
		return "A"
	case altitude:
		return "m"
	case ghz:
		return "GHz"
	}
	return ""
}

// say gives an id with the name that it stands for.
func (n *Names) say(t thing) string {
	name := n.display[t]
	if name == "" || name == t.id || t.kind == setup {
		return t.id
	}
	return t.id + " (" + name + ")"
}

// socket gives the socket of a board or chip, or "" when there is no such.
func (n *Names) socket(t thing) string {
	switch t.kind {
	case board:
		for _, b := range n.base.Boards {
			if b.ID == t.id {
				return b.Socket
			}
		}
	case chip:
		for _, c := range n.base.Chips {
			if c.ID == t.id {
				return c.Socket
			}
		}
	}
	return ""
}

// celsius gives the temperature behind a room word that is known, °C.
func (n *Names) celsius(word string) float64 {
	for _, r := range n.base.Rooms {
		if r.Word == word {
			return r.Celsius
		}
	}
	return math.NaN()
}

// Fit reports whether a board and a chip have the same socket.
func (n *Names) Fit(boardID, chipID string) bool {
	return n.socket(thing{board, boardID}) == n.socket(thing{chip, chipID})
}

// chipsWith lists the chips with a number of cores.
func (n *Names) chipsWith(cores int) []string {
	var ids []string
	for _, c := range n.base.Chips {
		if c.Cores == cores {
			ids = append(ids, c.ID)
		}
	}
	return ids
}
