package rules

import (
	"fmt"
	"go/token"
	"unicode/utf8"

	"hotroom/knowledge/document"
	"hotroom/rules/expression"
)

// The bounds on a catalogue, so that one from a stranger is read in a blink,
// judges within 10 ms and takes little memory. In brackets what the default
// catalogue has.
const (
	// MostBytes is the largest rules file that is read, in bytes (24,000).
	MostBytes    = 128 << 10
	mostRules    = 500  // (47)
	mostVerdicts = 50   // (8)
	mostNamed    = 200  // bytes of a name
	mostSaid     = 1000 // bytes of a say (203), of a source (72) and of an example (61)
	mostPieces   = 20   // {…} in a say (7)
	mostFilled   = 2000 // bytes that a say may come to; the rest is cut (about 130)
	mostMistakes = 200  // mistakes after which the rest is not looked at
)

// tooLarge is what is wrong with a file that is not even parsed.
func tooLarge(file string, size int) document.Problems {
	return document.Problems{{
		At:   token.Position{Filename: file, Line: 1, Column: 1},
		What: fmt.Sprintf("the rules have %d bytes, and %d are allowed", size, MostBytes), Mend: "remove some",
	}}
}

// few reports records beyond the allowed number, and whether there are none.
func (l *loader) few(what string, count, most int, at func(i int) token.Position) bool {
	if count <= most {
		return true
	}
	l.report(l.table.Problem(at(most), fmt.Sprintf("the file has %d %s, and %d are allowed", count, what, most), "remove some"))
	return false
}

// short reports a text beyond the allowed length, and whether it is not.
func (l *loader) short(key string, text expression.Text, most int) bool {
	size := len(text.String())
	if size > most {
		l.report(text.Problem(0, fmt.Sprintf("%s has %d bytes, and %d are allowed", key, size, most), "shorten it"))
	}
	return size <= most
}

// weary reports whether so many mistakes are found that the rest is left.
func (l *loader) weary(at token.Position) bool {
	if len(l.problems) < mostMistakes {
		return false
	}
	l.report(l.table.Problem(at, fmt.Sprintf("from here on the file is not looked at, for it has %d mistakes before", len(l.problems)), "mend those first"))
	return true
}

// shorten keeps as much of the text that was added from a byte on as may still
// be said.
func shorten(b []byte, from int) []byte {
	room := mostFilled - from
	switch {
	case room < 0:
		return b[:from]
	case len(b)-from <= room:
		return b
	}
	for room > 0 && !utf8.RuneStart(b[from+room]) {
		room--
	}
	return append(b[:from+room], "…"...)
}
