package sentence

import (
	"fmt"
	"slices"
	"strings"

	"hotroom/advisor"
)

// longestName is the most words that are tried together as one name.
const longestName = 7

// exactNames finds whole names, the longest first.
func (r *reader) exactNames() {
	for size := longestName; size >= 1; size-- {
		for from := 0; from+size <= len(r.tokens); from++ {
			if r.free(from, from+size) {
				r.exactName(from, from+size)
			}
		}
	}
}

func (r *reader) exactName(from, to int) {
	var key string
	for _, t := range r.tokens[from:to] {
		key += t.fold
	}
	things := r.names.exact[key]
	if len(things) == 0 || to-from == 1 && filler(key) || r.heldBack(things, from, to) {
		return
	}
	for _, kind := range kinds() {
		if ids := idsOf(things, kind); len(ids) > 0 {
			r.find(kind, find{ids: ids, text: r.text(from, to)})
			r.use(from, to)
			return
		}
	}
}

// heldBack holds back names that mean something else where they stand.
func (r *reader) heldBack(things []thing, from, to int) bool {
	switch things[0].kind {
	case room:
		if r.aWorry(from, to) {
			r.use(from, to)
			return true
		}
		return to-from == 1 && adjective(r.tokens[from].fold) && !r.ofSurroundings(from, to)
	case setup:
		return r.misleads(to)
	case load:
		return r.aPlace(from, to)
	}
	return false
}

// aWorry recognises a room's word that is said of the board and not of the
// room: "too hot", "does it run hot", "hot spot".
func (r *reader) aWorry(from, to int) bool {
	if to-from != 1 || r.ofSurroundings(from, to) {
		return false
	}
	return r.before(from, "too how so run runs running get gets getting stay stays keep keeps properly really very") ||
		to < len(r.tokens) && oneOf(r.tokens[to].fold, "spot spots")
}

// ofSurroundings reports whether a word like hot is said of a place: "a hot
// room", "my flat gets really hot", "hot in here", or alone between commas.
func (r *reader) ofSurroundings(from, to int) bool {
	if r.after(to, places) || r.back(from, 6, linking, places) >= 0 {
		return true
	}
	if to+1 < len(r.tokens) && r.tokens[to].fold == "in" && oneOf(r.tokens[to+1].fold, places) {
		return true
	}
	begins := from == 0 || r.tokens[from-1].stop || r.tokens[from-1].used
	ends := to == len(r.tokens) || r.tokens[to-1].stop || r.tokens[to].used
	return begins && ends && r.aboutParts() || r.before(from, "in a the room") && ends
}

// aboutParts reports whether the sentence names a board or a chip outright.
func (r *reader) aboutParts() bool {
	return slices.ContainsFunc(r.tokens, func(t token) bool {
		things := r.names.exact[t.fold]
		return len(things) > 0 && (things[0].kind == board || things[0].kind == chip)
	}) || len(r.found[board])+len(r.found[chip]) > 0
}

// aPlace holds back a load's word that names where somebody is: "in my
// office", "attic office", "my office is 30 °C".
func (r *reader) aPlace(from, to int) bool {
	if from > 0 && !r.tokens[from-1].stop && oneOf(r.tokens[from-1].fold, places) {
		return true
	}
	of := r.before(from, "a an my our the this your his her their")
	if of && to < len(r.tokens) && oneOf(r.tokens[to].fold, "is gets hits reaches can at sits stays will") {
		return true
	}
	return of && r.before(from-1, "in at inside")
}

func idsOf(things []thing, kind string) []string {
	var ids []string
	for _, t := range things {
		if t.kind == kind {
			ids = append(ids, t.id)
		}
	}
	return ids
}

// partNames tries what is left as parts of names and as misspelt names.
func (r *reader) partNames() {
	for size := 4; size >= 1; size-- {
		for from := 0; from+size <= len(r.tokens); from++ {
			if r.nameable(from, from+size) {
				r.partName(from, from+size)
			}
		}
	}
}

// nameable: free words of which the first and the last may belong to a name.
func (r *reader) nameable(from, to int) bool {
	first, last := r.tokens[from], r.tokens[to-1]
	if !r.free(from, to) || len(first.fold) == 0 || filler(first.fold) || filler(last.fold) {
		return false
	}
	for _, t := range r.tokens[from : to-1] {
		if t.stop {
			return false
		}
	}
	things := r.names.exact[first.fold]
	if len(things) > 0 && r.heldBack(things, from, from+1) {
		return false
	}
	return to-from > 1 || r.unusual(from, to) || len(r.candidates(to)) == 1
}

// unusual: at least one of the words is not an ordinary word of the language,
// which might stand there by chance.
func (r *reader) unusual(from, to int) bool {
	for _, t := range r.tokens[from:to] {
		if !ordinary(t.fold) && !filler(t.fold) {
			return true
		}
	}
	return false
}

func (r *reader) free(from, to int) bool {
	for _, t := range r.tokens[from:to] {
		if t.used || t.negated {
			return false
		}
	}
	return true
}

// partName takes a run of words for the one kind of thing that it fits; where
// it fits two kinds equally well, it is asked which is meant.
func (r *reader) partName(from, to int) {
	text := r.text(from, to)
	if r.tokens[to-1].number != "" && to-from == 1 {
		return
	}
	whole := !r.unusual(from, to) && len(r.candidates(to)) > 1
	var fits []kindFind
	for _, k := range r.candidates(to) {
		f, ok := r.partOf(k, text, whole)
		switch {
		case !ok:
		case len(fits) == 0 || len(f.how) < len(fits[0].find.how):
			fits = []kindFind{{k, f}}
		case f.how == fits[0].find.how:
			fits = append(fits, kindFind{k, f})
		}
	}
	if len(fits) == 0 {
		return
	}
	r.use(from, to)
	if len(fits) > 1 {
		r.ask(couldBe(text, fits))
		return
	}
	r.find(fits[0].kind, fits[0].find)
}

type kindFind struct {
	kind string
	find find
}

func couldBe(text string, fits []kindFind) *advisor.Refusal {
	var kinds, ids []string
	for _, f := range fits {
		kinds = append(kinds, "the "+f.kind)
		ids = append(ids, f.find.ids...)
	}
	return &advisor.Refusal{
		Kind: advisor.Ambiguous, Field: fieldOf(fits[0].kind),
		What: fmt.Sprintf("%q could be %s", text, strings.Join(kinds, " or ")),
		Mend: "say which: " + strings.Join(ids, ", "), Candidates: ids,
	}
}

// The marks of an inexact find, the closer one shorter.
const (
	inPart   = "in part"
	misspelt = "spelt differently"
)

// shortestSlip is the fewest letters of a word that may be a misspelt part of
// a name of surroundings or loads (our own choice).
const shortestSlip = 5

// partOf looks for a name of one kind; whole asks for more than a part of it.
func (r *reader) partOf(kind, text string, whole bool) (find, bool) {
	key := compact(text)
	if len(key) < 2 {
		return find{}, false
	}
	m := r.names.index[kind].Find(text)
	switch {
	case m.Near && (len(key) < 4 || ordinary(key) || (kind == setup || kind == room) && m.Part), whole && (m.Part || m.Ambiguous):
		return find{}, false
	case m.Near && m.Part && kind != board && kind != chip && len(key) < shortestSlip:
		return find{}, false
	case (kind == setup || kind == room) && !m.Near:
		return find{}, false
	case m.ID != "" && m.Near:
		return find{[]string{m.ID}, text, misspelt}, true
	case m.ID != "":
		return find{[]string{m.ID}, text, inPart}, true
	case m.Ambiguous:
		return find{m.Candidates, text, inPart}, true
	}
	return find{}, false
}

// candidates are the kinds that a run of words may name, given the noun that
// follows it.
func (r *reader) candidates(next int) []string {
	if next < len(r.tokens) && !r.tokens[next-1].stop {
		for _, noun := range nouns {
			if oneOf(r.tokens[next].fold, noun.words) {
				return []string{noun.kind}
			}
		}
	}
	return []string{board, chip, enclosure, cooler, load, setup}
}

// nouns say of which kind the name before them is.
var nouns = []struct {
	kind  string
	words string
}{
	{board, "board motherboard mainboard mobo"},
	{chip, "chip cpu processor"},
	{enclosure, "case chassis enclosure box"},
	{cooler, "cooler cooling cooled"},
	{load, "load workload work"},
	{room, "room flat attic climate"},
}

func (r *reader) find(kind string, f find) { r.found[kind] = append(r.found[kind], f) }
