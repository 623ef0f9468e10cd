package sentence

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"hotroom/advisor/lookup"
)

// token is one word of the sentence.
type token struct {
	raw     string // as typed, without the punctuation around it
	fold    string // compact: lower case letters and digits
	number  string // "1600" where the word is a number, with its unit or without
	unit    string // the unit as typed, or empty
	stop    bool   // a comma, a full stop or the like follows
	used    bool   // something was made of it
	negated bool   // "not" or the like is said of it
}

// Punctuation that stands around words; a sign and a degree mark belong to the
// word. Some of it ends a part of the sentence.
const (
	punctuation = "\"'`“”‘’«»?!.,;:()[]{}<>*_~…≈"
	stops       = ",.;:?!()…"
)

// tokens splits a sentence into words. What is known as a name stays whole,
// other words are taken apart at strokes, plus signs and hyphens.
func tokens(text string, known func(fold string) bool) []token {
	fields := strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("&=", r) })
	list := make([]token, 0, len(fields))
	for _, f := range fields {
		for _, part := range apart(spelledOut(f), known) {
			raw := strings.Trim(part, punctuation)
			stop := strings.ContainsAny(part[len(strings.TrimRight(part, punctuation)):], stops)
			if raw == "" {
				if stop && len(list) > 0 {
					list[len(list)-1].stop = true
				}
				continue
			}
			list = append(list, newToken(raw, stop))
		}
	}
	return list
}

func newToken(raw string, stop bool) token {
	t := token{raw: raw, fold: compact(raw), stop: stop}
	t.number, t.unit, _ = numeral(raw)
	return t
}

// spelledOut writes the signs that stand for a word as that word.
func spelledOut(field string) string {
	switch strings.ToLower(field) {
	case "@":
		return "at"
	case "w/":
		return "with"
	case "w/o":
		return "without"
	}
	return strings.TrimPrefix(field, "@")
}

// apart takes "board+chip", "board/chip/hot" and "ten-core" apart, but neither
// numbers with their units nor names.
func apart(field string, known func(fold string) bool) []string {
	parts := []string{field}
	for _, cut := range []string{"/", "+", ",", ";", "—", "–", "…", "-"} {
		var next []string
		for _, p := range parts {
			next = append(next, cutAt(p, cut, known)...)
		}
		parts = next
	}
	return parts
}

func cutAt(part, cut string, known func(fold string) bool) []string {
	core := strings.Trim(part, punctuation)
	if _, _, ok := numeral(core); ok || !strings.Contains(core, cut) || cut == "-" && known(compact(core)) {
		return []string{part}
	}
	pieces := strings.Split(part, cut)
	for i := range pieces[:len(pieces)-1] {
		if cut != "-" && cut != "+" {
			pieces[i] += "," // what stands apart is a part of its own
		}
	}
	return slices.DeleteFunc(pieces, func(p string) bool { return strings.Trim(p, punctuation) == "" })
}

// numeral cuts a word into a number and a unit written on to it, perhaps with
// a hyphen: "1,600", "-5°C", "10-core"; a currency sign may stand before it.
func numeral(word string) (number, unit string, ok bool) {
	rest := strings.TrimLeft(word, "+-−€£$")
	sign := word[:len(word)-len(rest)]
	money := strings.Trim(sign, "+-−")
	sign = strings.Trim(sign, "€£$")
	end := len(rest) - len(strings.TrimLeft(rest, "0123456789.,"))
	number, unit = rest[:end], strings.TrimPrefix(rest[end:], "-")
	if unit == "" {
		unit = money
	}
	if utf8.RuneCountInString(sign) > 1 || !isNumber(number) || !isUnitWord(unit) {
		return "", "", false
	}
	return plainNumber(sign + number), unit, true
}

// isNumber: digits in groups, 1,600 or 4.9 or 4,9, with at most one point.
func isNumber(text string) bool {
	if text == "" || strings.Count(text, ".") > 1 {
		return false
	}
	whole, part, pointed := strings.Cut(text, ".")
	groups := strings.Split(whole, ",")
	for i, group := range groups {
		tail := i == len(groups)-1 && !pointed
		if group == "" || i > 0 && len(group) != 3 && !tail {
			return false
		}
	}
	return !pointed || part != "" && !strings.Contains(part, ",")
}

// isUnitWord: nothing, or letters, degree marks and currency signs with digits
// and strokes in between ("m3/h").
func isUnitWord(text string) bool {
	for i, r := range text {
		letter := unicode.IsLetter(r) || strings.ContainsRune("°º℃℉€£$", r)
		if !letter && (i == 0 || r != '/' && (r < '0' || r > '9')) {
			return false
		}
	}
	return true
}

// plainNumber writes a number as a computer reads it: 1,600 is sixteen
// hundred, 4,9 is four point nine, and the minus may be a typographer's.
func plainNumber(text string) string {
	text = strings.Replace(text, "−", "-", 1)
	if at := strings.LastIndexByte(text, ','); at >= 0 && len(text)-at-1 != 3 && !strings.Contains(text, ".") {
		text = text[:at] + "." + text[at+1:]
	}
	return strings.ReplaceAll(text, ",", "")
}

// compact folds a text to its letters and digits.
func compact(text string) string { return join(lookup.Words(text)) }

func join(words []string) string   { return strings.Join(words, "") }
func spaced(words []string) string { return strings.Join(words, " ") }
