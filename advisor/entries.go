package advisor

import (
	"slices"
	"strings"

	"hotroom/advisor/lookup"
	"hotroom/knowledge"
)

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

// withMaker gives a name with its maker in front, or without it where the
// file's name begins with the maker.
func withMaker(maker, name string) []string {
	if maker == "" {
		return nil
	}
	words, of := lookup.Words(name), lookup.Words(maker)
	if len(words) > len(of) && slices.Equal(words[:len(of)], of) {
		return []string{strings.Join(words[len(of):], " ")}
	}
	return []string{maker + " " + name}
}
