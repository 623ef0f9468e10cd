package sentence

import "strings"

// A pattern is a run of words to look for: alternatives stand with strokes
// between them, a word with a question mark in front may be missing, and
// "..." lets up to five words stand between. PLACE stands for the words of
// places. It is matched as it is written, since a short program reads one
// sentence and would spend more on taking patterns apart.
type pattern string

// longestGap is how many words "..." lets stand between (our own choice).
const longestGap = 5

// match gives where the pattern ends when it begins at a token.
func (p pattern) match(list []token, at int) (end int, ok bool) {
	if p == "" {
		return at, true
	}
	field, left, _ := strings.Cut(string(p), " ")
	rest := pattern(left)
	if field == "..." {
		return rest.matchAfterGap(list, at)
	}
	words, optional := strings.CutPrefix(field, "?")
	if at < len(list) && !list[at].used && oneOf(list[at].fold, words) {
		if end, ok = rest.match(list, at+1); ok {
			return end, true
		}
	}
	if optional {
		return rest.match(list, at)
	}
	return 0, false
}

// matchAfterGap lets words stand before the pattern, but no stop.
func (p pattern) matchAfterGap(list []token, at int) (end int, ok bool) {
	for skip := 0; skip <= longestGap && at+skip <= len(list); skip++ {
		if end, ok = p.match(list, at+skip); ok {
			return end, true
		}
		if at+skip < len(list) && list[at+skip].stop {
			break
		}
	}
	return 0, false
}

// oneOf reports whether a word is in a list, between blanks or strokes.
func oneOf(word, list string) bool {
	if before, after, ok := strings.Cut(list, "PLACE"); ok {
		return oneOf(word, places) || oneOf(word, before) || oneOf(word, after)
	}
	for at := 0; word != ""; {
		i := strings.Index(list[at:], word)
		if i < 0 {
			return false
		}
		from, to := at+i, at+i+len(word)
		if (from == 0 || apartFrom(list[from-1])) && (to == len(list) || apartFrom(list[to])) {
			return !strings.ContainsAny(word, " |")
		}
		at = to
	}
	return false
}

// apartFrom reports whether a byte stands between the words of a list.
func apartFrom(b byte) bool { return b == ' ' || b == '|' }

// find looks for the pattern anywhere.
func (p pattern) find(list []token) (from, to int, ok bool) {
	for at := range list {
		if end, ok := p.match(list, at); ok {
			return at, end, true
		}
	}
	return 0, 0, false
}
