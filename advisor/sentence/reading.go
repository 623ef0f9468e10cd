// Package sentence reads what a person types, a plain sentence or the values
// of flags, into a question. It is deterministic, shows what it took each word
// for, reports what it could not place, and asks back instead of guessing.
package sentence

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"hotroom/advisor"
)

// The longest sentence that is read: more is not a question, and reading stays
// quick whatever is sent.
const (
	mostBytes = 1000
	mostWords = 120
)

// Reading is what was understood.
type Reading struct {
	// Asked is what the sentence itself asks; nothing of what was known before.
	Asked
	// Taken says in words what was understood, a line for each value.
	Taken []string
	// Unplaced are the words that nothing could be made of, as typed.
	Unplaced []string
	// Ask is what must be settled before the question can be answered; nil
	// when nothing stands open.
	Ask *advisor.Refusal
}

// reader is one sentence being read.
type reader struct {
	names   *Names
	known   advisor.Question
	context Asked // the lines before
	tokens  []token
	found   map[string][]find
	cores   string // "10" from "10-core"
	cue     *cue   // the kind of answer that the words ask for; nil: none
	out     Reading
}

// find is something that a run of words was taken for.
type find struct {
	ids  []string // more than one: it fits them all
	text string   // as typed
	how  string   // "", or how far it is from the name
}

// Read reads one plain sentence. What is known already, from flags or from
// the sentences before, narrows names that fit several things: a board's
// socket narrows the chips. Only the sentence's own values are in the result.
func (n *Names) Read(text string, known advisor.Question) Reading {
	return n.Follow(text, Asked{Question: known})
}

// Follow reads a sentence that comes after others, so that "the cheaper one"
// and "and the Kiln?" find what they point at.
func (n *Names) Follow(text string, before Asked) Reading {
	if refusal := unreadable(text); refusal != nil {
		return Reading{Ask: refusal}
	}
	r := &reader{names: n, known: before.Question, context: before, found: map[string][]find{}}
	r.tokens = tokens(text, func(fold string) bool { return len(n.exact[fold]) > 0 })
	if len(r.tokens) > mostWords {
		return Reading{Ask: longWinded(len(r.tokens))}
	}
	if n := invisible(text); n > 0 {
		r.out.Unplaced = append(r.out.Unplaced, fmt.Sprintf("characters that cannot be seen (%d)", n))
	}
	for _, pass := range []func(){
		r.otherChoice, r.kindCue, r.phrases, r.negations, r.exactNames, r.amounts, r.relative, r.byOtherWords, r.partNames, r.bareNumbers,
		r.decide, r.settleKind, r.strangers, r.leftOver,
	} {
		pass()
	}
	return r.out
}

// invisible counts control characters and direction marks, which are passed
// over; what joins letters or allows a hyphen is none.
func invisible(text string) int {
	n := 0
	for _, r := range text {
		if unicode.IsControl(r) && r != '\t' && r != '\n' && r != '\r' || unicode.Is(unicode.Cf, r) && !strings.ContainsRune("\u00ad\u200c\u200d", r) {
			n++
		}
	}
	return n
}

// unreadable refuses what is too long, and bytes that are no text.
func unreadable(text string) *advisor.Refusal {
	if refusal := tooLong(text); refusal != nil {
		return refusal
	}
	if utf8.ValidString(text) {
		return nil
	}
	return &advisor.Refusal{Kind: advisor.BadValue, What: "the sentence has bytes that are not UTF-8", Mend: "send plain text"}
}

func tooLong(text string) *advisor.Refusal {
	if len(text) <= mostBytes {
		return nil
	}
	return &advisor.Refusal{
		Kind: advisor.BadValue,
		What: fmt.Sprintf("the sentence is %d bytes long", len(text)),
		Mend: fmt.Sprintf("ask in at most %d bytes", mostBytes),
	}
}

func longWinded(words int) *advisor.Refusal {
	return &advisor.Refusal{
		Kind: advisor.BadValue,
		What: fmt.Sprintf("the sentence has %d words", words),
		Mend: fmt.Sprintf("ask in at most %d words", mostWords),
	}
}

// leftOver reports every word that is neither used nor without meaning; what
// is denied is reported in one piece.
func (r *reader) leftOver() {
	for i := 0; i < len(r.tokens); i++ {
		t := r.tokens[i]
		if t.negated {
			from := i
			for i+1 < len(r.tokens) && r.tokens[i+1].negated {
				i++
			}
			r.out.Unplaced = append(r.out.Unplaced, r.text(from, i+1))
			continue
		}
		if t.number != "" && t.unit == "" && !t.used && i+1 < len(r.tokens) && !r.tokens[i+1].used && unitOf(r.tokens[i+1].raw) != "" {
			r.out.Unplaced = append(r.out.Unplaced, r.text(i, i+2))
			i++
			continue
		}
		if !t.used && t.fold != "" && (t.number != "" || !filler(t.fold) && !ordinary(t.fold)) {
			r.out.Unplaced = append(r.out.Unplaced, t.raw)
		}
	}
}

// take records a value and says so.
func (r *reader) take(format string, args ...any) {
	r.out.Taken = append(r.out.Taken, fmt.Sprintf(format, args...))
}

// ask records the first thing that stands open.
func (r *reader) ask(refusal *advisor.Refusal) {
	if r.out.Ask == nil {
		r.out.Ask = refusal
	}
}

func (r *reader) use(from, to int) {
	for i := from; i < to; i++ {
		r.tokens[i].used = true
	}
}

// text gives the words from one token to another as typed.
func (r *reader) text(from, to int) string {
	words := make([]string, 0, to-from)
	for _, t := range r.tokens[from:to] {
		words = append(words, t.raw)
	}
	return spaced(words)
}
