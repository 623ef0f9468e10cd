package sentence

import (
	"regexp"
	"strings"

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

// numeral is a number with an optional unit written on to it.
var numeral = regexp.MustCompile(`^([+\-−]?[0-9]+(?:,[0-9]{3})*(?:[.,][0-9]+)?)-?([\pL°º℃℉][\pL°º/0-9]*)?$`)

// tokens splits a sentence into words.
func tokens(text string) []token {
	fields := strings.Fields(text)
	list := make([]token, 0, len(fields))
	for _, f := range fields {
		raw := strings.Trim(f, punctuation)
		if raw == "" {
			continue
		}
		t := token{raw: raw, fold: compact(raw)}
		if m := numeral.FindStringSubmatch(raw); m != nil {
			t.number, t.unit = plainNumber(m[1]), m[2]
		}
		list = append(list, t)
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
