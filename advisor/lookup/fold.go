package lookup

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// longest is the number of bytes of a name that are compared, so that a
// hostile query costs little.
const longest = 200

// name is a text made ready for comparing.
type name struct {
	words   []string // runs of letters and digits, lower case, no accents
	compact string   // the words without anything between
}

// foldName folds a text into its words; a longer text is cut at 200 bytes.
func foldName(text string) name {
	if len(text) > longest {
		text = text[:longest]
	}
	words := Words(text)
	return name{words: words, compact: strings.Join(words, "")}
}

// Words splits a text into its runs of letters and digits, in lower case and
// without accents: "Çelik-Pro 7" gives celik, pro, 7.
func Words(text string) []string {
	return strings.FieldsFunc(Fold(text), func(r rune) bool {
		return !unicode.IsLetter(r) && !unicode.IsDigit(r)
	})
}

// Fold puts a text into lower case without accents and with the plain form of
// full-width and other compatibility characters.
func Fold(text string) string {
	if ascii(text) {
		return strings.ToLower(text)
	}
	var b strings.Builder
	for _, r := range norm.NFKD.String(text) {
		if unicode.Is(unicode.Mn, r) {
			continue
		}
		if plain, ok := undivided(r); ok {
			b.WriteString(plain)
			continue
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}

func ascii(text string) bool {
	for i := range len(text) {
		if text[i] >= utf8.RuneSelf {
			return false
		}
	}
	return true
}

// undivided gives the plain spelling of letters that Unicode does not take
// apart into a letter and an accent.
func undivided(r rune) (string, bool) {
	switch r {
	case 'ß', 'ẞ':
		return "ss", true
	case 'ø', 'Ø':
		return "o", true
	case 'ł', 'Ł':
		return "l", true
	case 'æ', 'Æ':
		return "ae", true
	case 'ı':
		return "i", true
	}
	return "", false
}
