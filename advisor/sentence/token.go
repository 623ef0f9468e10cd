package sentence

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"hotroom/advisor/lookup"
)

// token is one word of the sentence.
type token struct {
	raw    string // as typed, without the punctuation around it
	fold   string // compact: lower case letters and digits
	number string // "1600" where the word is a number, with its unit or without
	unit   string // the unit as typed, or empty
	used   bool   // something was made of it
}

// punctuation stands around words and means nothing here; a sign and a degree
// mark belong to the word.
const punctuation = "\"'`“”‘’«»?!.,;:()[]{}<>*_~…"

// numeral cuts a word into a number and a unit written on to it, perhaps with
// a hyphen: "1,600", "-5°C", "10-core".
func numeral(word string) (number, unit string, ok bool) {
	rest := strings.TrimLeft(word, "+-−")
	sign := word[:len(word)-len(rest)]
	end := len(rest) - len(strings.TrimLeft(rest, "0123456789.,"))
	number, unit = rest[:end], strings.TrimPrefix(rest[end:], "-")
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

// isUnitWord: nothing, or letters and degree marks with digits and strokes in
// between ("m3/h").
func isUnitWord(text string) bool {
	for i, r := range text {
		letter := unicode.IsLetter(r) || strings.ContainsRune("°º℃℉", r)
		if !letter && (i == 0 || r != '/' && (r < '0' || r > '9')) {
			return false
		}
	}
	return true
}

// tokens splits a sentence into words.
func tokens(text string) []token {
	fields := strings.FieldsFunc(text, func(r rune) bool { return unicode.IsSpace(r) || r == '&' })
	list := make([]token, 0, len(fields))
	for _, f := range splitSums(fields) {
		raw := strings.Trim(f, punctuation)
		if raw == "" {
			continue
		}
		t := token{raw: raw, fold: compact(raw)}
		t.number, t.unit, _ = numeral(raw)
		list = append(list, t)
	}
	return list
}

// splitSums takes "board+chip" apart, but not a number with its sign.
func splitSums(fields []string) []string {
	var list []string
	for _, f := range fields {
		if _, _, ok := numeral(f); ok {
			list = append(list, f)
			continue
		}
		list = append(list, strings.Split(f, "+")...)
	}
	return list
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
