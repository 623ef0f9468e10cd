package command

import (
	"slices"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
	"hotroom/advisor/sweep"
	"hotroom/knowledge"
)

// Completions lists the names of a kind that a question can still use: of the
// boards only those that take the chosen chip, and the other way round. Names
// that would disturb a terminal are left out.
func Completions(base *knowledge.Base, kind string, with advisor.Question) []string {
	var list []string
	switch kind {
	case "board":
		socket := chipSocket(base, with.Chip)
		for _, b := range base.Boards {
			if socket == "" || b.Socket == socket {
				list = append(list, b.ID)
			}
		}
	case "chip":
		socket := boardSocket(base, with.Board)
		for _, c := range base.Chips {
			if socket == "" || c.Socket == socket {
				list = append(list, c.ID)
			}
		}
	case "setup":
		return sentence.Setups()
	case "over":
		return []string{sweep.OverRoom, sweep.OverPower}
	case "format":
		return []string{asText, asMarkdown, asCSV}
	default:
		list = surroundings(base, kind)
	}
	return slices.DeleteFunc(list, func(name string) bool { return safe(name) != name })
}

func surroundings(base *knowledge.Base, kind string) []string {
	var list []string
	switch kind {
	case "enclosure":
		for _, e := range base.Enclosures {
			list = append(list, e.ID)
		}
	case "cooler":
		for _, c := range base.Coolers {
			list = append(list, c.ID)
		}
	case "load":
		for _, l := range base.Loads {
			list = append(list, l.ID)
		}
	case "room":
		for _, r := range base.Rooms {
			list = append(list, r.Word)
		}
	}
	return list
}

func chipSocket(base *knowledge.Base, id string) string {
	for _, c := range base.Chips {
		if c.ID == id {
			return c.Socket
		}
	}
	return ""
}

func boardSocket(base *knowledge.Base, id string) string {
	for _, b := range base.Boards {
		if b.ID == id {
			return b.Socket
		}
	}
	return ""
}
