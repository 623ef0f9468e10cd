// Package lookup finds the thing that a name typed by a person means: folded
// for case, spaces, punctuation and accents, by a part of its name, or in
// spite of a spelling mistake. It never guesses between two things.
//
// It is a leaf: it knows strings and nothing of boards or chips.
package lookup

import (
	"cmp"
	"slices"
	"strings"

	"hotroom/knowledge/nearest"
)

// most is the number of candidates that a match lists; more are not read.
const most = 6

// Entry is one thing that can be named.
type Entry struct {
	ID   string
	Name string
	Also []string // further names: with the maker in front, a part number …
}

// Match is what a name was found to mean.
type Match struct {
	// ID is the thing that was meant; empty when nothing or several fit.
	ID string
	// Part says that only a part of the name was given.
	Part bool
	// Near says that the spelling differs, so that the taking is shown.
	Near bool
	// Ambiguous says that the name fits every one of Candidates.
	Ambiguous bool
	// Candidates are the ids that may have been meant, best first, when ID is
	// empty.
	Candidates []string
}

// Index is a list of entries made ready for many searches; nobody changes it.
type Index struct {
	known []folded
	plain map[string]bool // the ids that name nothing else, as they are written
}

// NewIndex makes entries ready.
func NewIndex(entries []Entry) *Index {
	x := &Index{known: foldAll(entries), plain: make(map[string]bool, len(entries))}
	const several = -1
	owners := make(map[string]int, 3*len(entries)) // of each name
	for i := range x.known {
		for _, n := range x.known[i].names {
			if owner, ok := owners[n.compact]; ok && owner != i {
				owners[n.compact] = several
			} else {
				owners[n.compact] = i
			}
		}
	}
	for i := range x.known {
		f := &x.known[i]
		if owner, ok := owners[f.plain]; ok && owner == i {
			x.plain[f.id] = true
		}
	}
	return x
}

// Each gives every name that the index knows, with its entry's id: its words,
// folded, and the words without anything between.
func (x *Index) Each(name func(id string, words []string, compact string)) {
	for _, f := range x.known {
		for _, n := range f.names {
			name(f.id, n.words, n.compact)
		}
	}
}

// Find looks for query among entries: the exact id or name first, then a part
// of one name, then a spelling mistake. Numbers and the letters beside them
// are never taken for a spelling mistake, because they tell models apart.
// Where nothing fits, Candidates are the nearest names.
func Find(query string, entries []Entry) Match {
	index := NewIndex(entries)
	match := index.Find(query)
	if match.ID == "" && !match.Ambiguous {
		match.Candidates = index.Nearest(query)
	}
	return match
}

// Find is like the function Find, but lists no candidates where nothing fits.
func (x *Index) Find(query string) Match {
	if x.plain[query] {
		return Match{ID: query}
	}
	asked := foldName(query)
	if asked.compact == "" {
		return Match{}
	}
	for _, way := range []struct {
		fits func(asked, known name) bool
		mark Match
	}{
		{exactly, Match{}},
		{byWords, Match{Part: true}},
		{byPiece, Match{Part: true}},
		{misspelt, Match{Near: true}},
		{misspeltPart, Match{Part: true, Near: true}},
	} {
		if found := pick(asked, x.known, way.fits); len(found) > 0 {
			return settle(found, way.mark)
		}
	}
	return Match{}
}

// Nearest lists the ids whose names are the least far from query, best first;
// a letter that is missing weighs half of one that is wrong.
func (x *Index) Nearest(query string) []string {
	asked := foldName(query)
	if asked.compact == "" {
		return nil
	}
	all := make([]scored, 0, len(x.known))
	for _, f := range x.known {
		best := 2 * longest
		for _, n := range f.names {
			missing := len(n.compact) - len(asked.compact)
			best = min(best, 2*nearest.Distance(asked.compact, n.compact)-max(missing, 0))
		}
		all = append(all, scored{f.id, best})
	}
	ids := ranked(all)
	return ids[:min(len(ids), most)]
}

// settle turns the ids that fit in one way into a match.
func settle(found []string, mark Match) Match {
	if len(found) == 1 {
		mark.ID = found[0]
		return mark
	}
	return Match{Ambiguous: true, Candidates: found[:min(len(found), most)]}
}

// folded is an entry made ready for comparing.
type folded struct {
	id    string
	plain string // the id's compact form
	names []name
}

func foldAll(entries []Entry) []folded {
	all := make([]folded, len(entries))
	for i, e := range entries {
		own := foldName(e.ID)
		all[i].id, all[i].plain = e.ID, own.compact
		if own.compact != "" {
			all[i].names = append(all[i].names, own)
		}
		for _, text := range append([]string{e.Name}, e.Also...) {
			if n := foldName(text); n.compact != "" {
				all[i].names = append(all[i].names, n)
			}
		}
	}
	return all
}

// pick lists the ids that fit, those with the closest name first.
func pick(asked name, known []folded, fits func(asked, known name) bool) []string {
	var found []scored
	for _, f := range known {
		best := -1
		for _, n := range f.names {
			if !fits(asked, n) {
				continue
			}
			d := 0
			if asked.compact != n.compact {
				d = nearest.Distance(asked.compact, n.compact)
			}
			if best < 0 || d < best {
				best = d
			}
		}
		if best >= 0 {
			found = append(found, scored{f.id, best})
		}
	}
	return ranked(found)
}

type scored struct {
	id   string
	away int
}

func ranked(list []scored) []string {
	slices.SortStableFunc(list, func(a, b scored) int {
		return cmp.Or(cmp.Compare(a.away, b.away), strings.Compare(a.id, b.id))
	})
	ids := make([]string, 0, len(list))
	for _, s := range list {
		if !slices.Contains(ids, s.id) {
			ids = append(ids, s.id)
		}
	}
	return ids
}
