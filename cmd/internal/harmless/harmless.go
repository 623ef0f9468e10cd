// Package harmless makes text out of files and questions safe to show.
package harmless

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Text makes a text harmless for a terminal, for HTML and for XML: control
// characters, direction marks, characters that XML forbids and broken UTF-8 are
// shown as escapes; line ends and tabs become spaces.
func Text(text string) string {
	if strings.IndexFunc(text, unfit) < 0 {
		return text
	}
	var b strings.Builder
	for i, r := range text {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			b.WriteByte(' ')
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], "\uFFFD"):
			fmt.Fprintf(&b, `\x%02x`, text[i])
		case unfit(r) && r < 0x100:
			fmt.Fprintf(&b, `\x%02x`, r)
		case unfit(r):
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// joiners hold letters together in some scripts and in pictures.
const joiners = "\u200c\u200d"

func unfit(r rune) bool {
	return r == utf8.RuneError || r == 0xFFFE || r == 0xFFFF || unicode.IsControl(r) ||
		unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) && !strings.ContainsRune(joiners, r)
}
