package sentence

import (
	"slices"
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
	if len(things) > 0 && r.aWorry(things, from, to) {
		r.use(from, to)
		return
	}
	if len(things) == 0 || to-from == 1 && filler(key) || r.misleading(things, to) || r.aPlace(things, from) {
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

// misleading holds back setup words that belong to another noun: "open case",
// "rated 125 W chip".
func (r *reader) misleading(things []thing, next int) bool {
	if things[0].kind != setup || next >= len(r.tokens) {
		return false
	}
	return slices.Contains([]string{"bench", "case", "air", "frame"}, r.tokens[next].fold)
}

// aWorry recognises a room's word that is said of the board and not of the
// room: "too hot", "does it run hot", "hot spot".
func (r *reader) aWorry(things []thing, from, to int) bool {
	return things[0].kind == room && to-from == 1 &&
		(r.before(from, "too", "how", "so", "run", "runs", "running", "get", "gets", "getting", "stay", "stays", "keep") ||
			to < len(r.tokens) && slices.Contains([]string{"spot", "spots"}, r.tokens[to].fold))
}

// aPlace holds back a load's word that names where somebody is: "in my
// office".
func (r *reader) aPlace(things []thing, from int) bool {
	if things[0].kind != load || from < 2 {
		return false
	}
	return slices.Contains([]string{"a", "an", "my", "our", "the", "this", "your"}, r.tokens[from-1].fold) &&
		slices.Contains([]string{"in", "at", "inside"}, r.tokens[from-2].fold)
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

// nameable: free words that neither begin nor end with filler.
func (r *reader) nameable(from, to int) bool {
	first, last := r.tokens[from], r.tokens[to-1]
	things := r.names.exact[first.fold]
	if len(things) > 0 && r.aPlace(things, from) {
		return false
	}
	return r.free(from, to) && !filler(first.fold) && !filler(last.fold) && len(first.fold) > 0
}

func (r *reader) free(from, to int) bool {
	for _, t := range r.tokens[from:to] {
		if t.used {
			return false
		}
	}
	return true
}

// partName takes a run of words for the one kind of thing that it fits; where
// it fits two kinds, the noun after it decides, and without one it is left.
func (r *reader) partName(from, to int) {
	text := r.text(from, to)
	var kind string
	var best find
	for _, k := range r.candidates(to) {
		f, ok := r.partOf(k, text)
		if !ok || kind != "" && len(best.how) <= len(f.how) && best.how != f.how {
			continue
		}
		if kind != "" && best.how == f.how {
			return
		}
		kind, best = k, f
	}
	if kind != "" {
		r.find(kind, best)
		r.use(from, to)
	}
}

// The marks of an inexact find, the closer one shorter.
const (
	inPart   = "in part"
	misspelt = "spelt differently"
)

func (r *reader) partOf(kind, text string) (find, bool) {
	key := compact(text)
	if len(key) < 2 {
		return find{}, false
	}
	m := r.names.index[kind].Find(text)
	switch {
	case m.Near && len(key) < 5:
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
// follows it. Rooms and setups are only taken by their whole words.
func (r *reader) candidates(next int) []string {
	if next < len(r.tokens) {
		switch r.tokens[next].fold {
		case "board", "motherboard", "mainboard", "mobo":
			return []string{board}
		case "chip", "cpu", "processor":
			return []string{chip}
		case "case", "chassis", "enclosure":
			return []string{enclosure}
		case "cooler", "cooling":
			return []string{cooler}
		case "load", "workload":
			return []string{load}
		}
	}
	return []string{board, chip, enclosure, cooler, load}
}

func (r *reader) find(kind string, f find) { r.found[kind] = append(r.found[kind], f) }
