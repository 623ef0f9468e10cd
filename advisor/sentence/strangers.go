package sentence

import (
	"strings"
	"unicode"
)

// strangers asks back where the sentence names a board or a chip that the
// knowledge does not hold, so that none from the lines before takes its place:
// a word of letters and digits, or unknown words behind an article where no
// board is named.
func (r *reader) strangers() {
	for i, t := range r.tokens {
		if t.used || t.negated || !modelLike(t) {
			continue
		}
		from := i
		for from > 0 && !r.tokens[from-1].used && !r.tokens[from-1].stop && !ordinary(r.tokens[from-1].fold) && !filler(r.tokens[from-1].fold) {
			from--
		}
		if kind := r.strangeKind(r.text(from, i+1)); kind != "" {
			r.ask(r.names.unknown(kind, r.text(from, i+1)))
		}
		return
	}
	if len(r.found[board]) == 0 && len(r.found[chip]) > 0 {
		r.strangeBoard()
	}
}

// modelLike: letters and digits in one word, as in model names.
func modelLike(t token) bool {
	return t.number == "" && strings.IndexFunc(t.fold, unicode.IsDigit) >= 0 && strings.IndexFunc(t.fold, unicode.IsLetter) >= 0
}

// strangeKind decides whether an unknown name stands for the chip or the
// board: whichever the sentence does not name, the nearer one of both.
func (r *reader) strangeKind(text string) string {
	noBoard, noChip := len(r.found[board]) == 0, len(r.found[chip]) == 0 && r.cores == ""
	switch {
	case noBoard && noChip:
		if r.names.nearer(text) {
			return chip
		}
		return board
	case noBoard:
		return board
	case noChip:
		return chip
	}
	return ""
}

// nearer reports whether a text looks more like a chip than like a board: as
// short as the chips' ids are.
func (n *Names) nearer(text string) bool {
	longest := 0
	for _, c := range n.base.Chips {
		longest = max(longest, len(c.ID))
	}
	return len(compact(text)) <= longest
}

// strangeBoard: "will the Thunderbolt take a V10".
func (r *reader) strangeBoard() {
	for i := range r.tokens {
		if !r.strange(i) || i > 0 && !r.before(i, "the my this a an on board motherboard with called for about") {
			continue
		}
		to := i + 1
		for to < len(r.tokens) && !r.tokens[to-1].stop && r.strange(to) {
			to++
		}
		acts := to < len(r.tokens) && oneOf(r.tokens[to].fold, verbsOfBoards)
		if acts || r.known.Board != "" && (to == len(r.tokens) || r.tokens[to].used) {
			r.ask(r.names.unknown(board, r.text(i, to)))
			return
		}
	}
}

const verbsOfBoards = "cope copes handle handles take takes carry carries hold holds run runs survive feed board motherboard mobo work support with"

// strange: a word that nothing is known of.
func (r *reader) strange(i int) bool {
	t := r.tokens[i]
	return !t.used && !t.negated && t.number == "" && len(t.fold) > 2 && !filler(t.fold) && !ordinary(t.fold)
}
