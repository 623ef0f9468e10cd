package harmless

import (
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"
)

func TestText(t *testing.T) {
	for in, want := range map[string]string{
		"plain":               "plain",
		"32 °C – naïve 日本":    "32 °C – naïve 日本",
		"a\nb\tc":             "a b c",
		"\x1b[31m":            `\x1b[31m`,
		"\u009b31m":           `\x9b31m`,
		"\u202eright\u2066":   `\u202eright\u2066`,
		"bad\xffbyte\uFFFD?":  `bad\xffbyte` + `\ufffd?`,
		"joined \u200d pair":  "joined \u200d pair",
		"not a letter \uFFFE": `not a letter \ufffe`,
	} {
		if got := Text(in); got != want {
			t.Errorf("Text(%q) = %q, want %q", in, got, want)
		}
	}
}

// Harmless text stays as it is, and is valid UTF-8.
func TestTextTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		once := Text(string(rapid.SliceOf(rapid.Byte()).Draw(t, "text")))
		if Text(once) != once || !utf8.ValidString(once) {
			t.Fatalf("%q is not harmless", once)
		}
	})
}
