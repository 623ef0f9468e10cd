// Package unit keeps a number and its unit together where lines are broken.
package unit

import "strings"

// space is the space at which no line is broken (U+00A0).
const space = "\u00a0"

// Follows reports whether a word is a unit that belongs to the word before it,
// which ends in a number.
func Follows(before, word string) bool {
	if before == "" || before[len(before)-1] < '0' || before[len(before)-1] > '9' {
		return false
	}
	switch strings.TrimRight(word, ".,;:)") {
	case "°C", "K", "%", "W", "A", "V", "GHz", "kHz", "min", "h", "m", "m/s", "g", "cm²", "m³/h", "months", "years":
		return true
	}
	return false
}

// Keep puts a space at which no line is broken between every number and its
// unit.
func Keep(text string) string {
	words := strings.Split(text, " ")
	var b strings.Builder
	for i, word := range words {
		switch {
		case i > 0 && Follows(words[i-1], word):
			b.WriteString(space)
		case i > 0:
			b.WriteByte(' ')
		}
		b.WriteString(word)
	}
	return b.String()
}
