package lookup

import (
	"slices"
	"strings"

	"hotroom/knowledge/nearest"
)

// exactly: the same letters and digits, whatever stands between them.
func exactly(asked, known name) bool { return asked.compact == known.compact }

// byWords: every word asked is a word of the name, in any order. A lone word
// of fewer than two characters names nothing.
func byWords(asked, known name) bool {
	if len(asked.compact) < 2 {
		return false
	}
	for _, w := range asked.words {
		if !slices.Contains(known.words, w) {
			return false
		}
	}
	return true
}

// byPiece: what was asked is a run of the name that starts where a word or a
// number starts and does not cut a number short ("x57" is no part of "x570").
func byPiece(asked, known name) bool {
	if len(asked.compact) < 3 {
		return false
	}
	for from := 0; ; {
		at := strings.Index(known.compact[from:], asked.compact)
		if at < 0 {
			return false
		}
		at += from
		if starts(known, at) && !cutsNumber(known.compact, at+len(asked.compact)) {
			return true
		}
		from = at + 1
	}
}

// starts reports whether a word, or a number after letters, starts at a byte
// of the compact name.
func starts(n name, at int) bool {
	edge := 0
	for _, w := range n.words {
		if at == edge {
			return true
		}
		edge += len(w)
	}
	return at > 0 && isDigit(n.compact[at]) && !isDigit(n.compact[at-1])
}

// cutsNumber reports whether a byte stands between two digits.
func cutsNumber(text string, at int) bool {
	return at > 0 && at < len(text) && isDigit(text[at-1]) && isDigit(text[at])
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// misspelt: few letters of the whole name differ, and none of its numbers.
func misspelt(asked, known name) bool { return alike(asked.compact, known.compact) }

// misspeltPart: every word asked is a word of the name but for few letters.
func misspeltPart(asked, known name) bool {
	for _, w := range asked.words {
		if !slices.ContainsFunc(known.words, func(k string) bool { return w == k || alike(w, k) }) {
			return false
		}
	}
	return true
}

// Alike reports whether two folded words are the same but for a slip of the
// fingers.
func Alike(a, b string) bool { return a == b || alike(a, b) }

// alike allows one wrong letter from four characters on and two from eight
// on, or from five on where a word begins right and its letters are only out
// of order, perhaps with one missing ("gnies"); doubled letters are one. More would turn one short word
// into another (our own choice).
func alike(a, b string) bool {
	return (len(b) >= 3 && same(a, b, notDoubled) || slip(a, b)) && same(a, b, tellsModel)
}

// slip reports whether no more letters differ than the length allows.
func slip(a, b string) bool {
	shorter := min(len(a), len(b))
	switch {
	case shorter >= 8, shorter >= 5 && jumbled(a, b):
		return nearest.Within(a, b, 2)
	case shorter >= 4:
		return nearest.Within(a, b, 1)
	}
	return false
}

// same compares two texts by those of their bytes that are kept.
func same(a, b string, kept func(text string, i int) bool) bool {
	i, j := 0, 0
	for {
		for i < len(a) && !kept(a, i) {
			i++
		}
		for j < len(b) && !kept(b, j) {
			j++
		}
		if i == len(a) || j == len(b) {
			return i == len(a) && j == len(b)
		}
		if a[i] != b[j] {
			return false
		}
		i, j = i+1, j+1
	}
}

// notDoubled keeps doubled letters once.
func notDoubled(text string, i int) bool {
	return i == 0 || text[i] != text[i-1] || isDigit(text[i])
}

// tellsModel keeps what tells two models apart: the digits and the letters
// right beside them ("harrowx40pro" gives "x40p").
func tellsModel(text string, i int) bool {
	return isDigit(text[i]) || i > 0 && isDigit(text[i-1]) || i+1 < len(text) && isDigit(text[i+1])
}

// jumbled reports whether two words begin alike and have the same letters, but
// for one that may be missing.
func jumbled(a, b string) bool {
	if a[0] != b[0] {
		return false
	}
	if len(a) > len(b) {
		a, b = b, a
	}
	for i := range len(a) {
		at := strings.IndexByte(b, a[i])
		if at < 0 {
			return false
		}
		b = b[:at] + b[at+1:]
	}
	return len(b) <= 1
}
