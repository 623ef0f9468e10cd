package command

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// safe makes text out of files and questions harmless for a terminal: control
// characters, direction marks and broken UTF-8 are shown as escapes, and line
// ends and tabs become spaces.
func safe(text string) string {
	if strings.IndexFunc(text, unsafeRune) < 0 {
		return text
	}
	var b strings.Builder
	for i, r := range text {
		switch {
		case r == '\n' || r == '\t' || r == '\r':
			b.WriteByte(' ')
		case r == utf8.RuneError && !strings.HasPrefix(text[i:], "\uFFFD"):
			fmt.Fprintf(&b, `\x%02x`, text[i])
		case unsafeRune(r) && r < 0x100:
			fmt.Fprintf(&b, `\x%02x`, r)
		case unsafeRune(r):
			fmt.Fprintf(&b, `\u%04x`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// joiners hold letters together in some scripts and in pictures; they are let
// through.
const joiners = "\u200c\u200d"

func unsafeRune(r rune) bool {
	return r == utf8.RuneError || unicode.IsControl(r) ||
		unicode.In(r, unicode.Cf, unicode.Zl, unicode.Zp) && !strings.ContainsRune(joiners, r)
}

// safely makes every text of a list harmless.
func safely(list []string) []string {
	out := make([]string, len(list))
	for i, text := range list {
		out[i] = safe(text)
	}
	return out
}
