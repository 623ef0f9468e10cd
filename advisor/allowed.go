package advisor

import (
	"fmt"
	"strconv"

	"hotroom/advisor/lookup"
	"hotroom/knowledge"
)

// within refuses a value outside a range, ends included.
func within(field, what string, value, low, high float64, unit string) error {
	if value >= low && value <= high {
		return nil
	}
	return &Refusal{
		Kind: BadValue, Field: field,
		What: fmt.Sprintf("%s of %s %s is not possible here", what, plain(value), unit),
		Mend: fmt.Sprintf("give one from %s to %s %s", plain(low), plain(high), unit),
	}
}

// capWithin refuses a cap that is given and not above zero, or absurdly high.
func capWithin(field, what string, value *float64, high float64, unit string) error {
	if value == nil || (*value > 0 && *value <= high) {
		return nil
	}
	return &Refusal{
		Kind: BadValue, Field: field,
		What: fmt.Sprintf("%s of %s %s is not possible here", what, plain(*value), unit),
		Mend: fmt.Sprintf("give one above 0 and up to %s %s", plain(high), unit),
	}
}

func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// unknown refuses a word that the knowledge does not hold, with what may have
// been meant.
func unknown(field, given string, entries []lookup.Entry) error {
	if given == "" {
		return &Refusal{Kind: Missing, Field: field, What: "the question names no " + field + " and the knowledge has no default", Mend: "name one"}
	}
	match := lookup.Find(given, entries)
	candidates := match.Candidates
	if match.ID != "" {
		candidates = []string{match.ID}
	}
	return &Refusal{
		Kind: NotFound, Field: field, What: fmt.Sprintf("the knowledge holds no %s %q", field, given),
		Mend: "take one that it holds", Candidates: candidates,
	}
}

// BoardEntries lists the boards of a knowledge with the names that people use.
func BoardEntries(base *knowledge.Base) []lookup.Entry {
	entries := make([]lookup.Entry, len(base.Boards))
	for i, b := range base.Boards {
		entries[i] = lookup.Entry{ID: b.ID, Name: b.Name, Also: withMaker(b.Maker, b.Name)}
	}
	return entries
}

// ChipEntries lists the chips of a knowledge with the names that people use.
func ChipEntries(base *knowledge.Base) []lookup.Entry {
	entries := make([]lookup.Entry, len(base.Chips))
	for i, k := range base.Chips {
		entries[i] = lookup.Entry{ID: k.ID, Name: k.Name, Also: withMaker(k.Maker, k.Name)}
	}
	return entries
}

// EnclosureEntries lists the enclosures of a knowledge.
func EnclosureEntries(base *knowledge.Base) []lookup.Entry {
	entries := make([]lookup.Entry, len(base.Enclosures))
	for i, e := range base.Enclosures {
		entries[i] = lookup.Entry{ID: e.ID, Name: e.Name}
	}
	return entries
}

// CoolerEntries lists the coolers of a knowledge.
func CoolerEntries(base *knowledge.Base) []lookup.Entry {
	entries := make([]lookup.Entry, len(base.Coolers))
	for i, c := range base.Coolers {
		entries[i] = lookup.Entry{ID: c.ID, Name: c.Name}
	}
	return entries
}

// LoadEntries lists the loads of a knowledge.
func LoadEntries(base *knowledge.Base) []lookup.Entry {
	entries := make([]lookup.Entry, len(base.Loads))
	for i, l := range base.Loads {
		entries[i] = lookup.Entry{ID: l.ID, Name: l.Name}
	}
	return entries
}

// withMaker gives a name with its maker in front.
func withMaker(maker, name string) []string {
	if maker == "" {
		return nil
	}
	return []string{maker + " " + name}
}

// boardIDs lists the boards with a socket, all of them for "".
func boardIDs(boards []knowledge.Board, socket string) []string {
	var ids []string
	for _, b := range boards {
		if socket == "" || b.Socket == socket {
			ids = append(ids, b.ID)
		}
	}
	return ids
}

// chipIDs lists the chips for a socket.
func chipIDs(chips []knowledge.Chip, socket string) []string {
	var ids []string
	for _, k := range chips {
		if k.Socket == socket {
			ids = append(ids, k.ID)
		}
	}
	return ids
}

// plain writes a number without an exponent and without needless zeros.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
