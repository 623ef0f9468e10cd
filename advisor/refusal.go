package advisor

import "strings"

// RefusalKind says why a question could not be answered.
type RefusalKind string

// The kinds of refusal.
const (
	BadValue   RefusalKind = "bad-value"   // a value that no knowledge could make right: 400 °C, 0 W
	NotFound   RefusalKind = "not-found"   // the knowledge holds nothing of that name
	Ambiguous  RefusalKind = "ambiguous"   // the name fits several things
	Missing    RefusalKind = "missing"     // the question does not say what it must
	Unfit      RefusalKind = "unfit"       // the board and the chip do not go together, or not that way
	NotAllowed RefusalKind = "not-allowed" // the makers do not allow it
)

// Refusal is a question that cannot be answered as asked: it says what is
// wrong, what is allowed, and what may have been meant.
type Refusal struct {
	Kind       RefusalKind
	Field      string   // the Question key it is about: "board", "room_c" …
	What       string   // what is wrong, naming the value seen
	Mend       string   // what is allowed or what to do
	Candidates []string // ids that may have been meant, best first
}

// Error gives one sentence: what is wrong, how to mend it.
func (r *Refusal) Error() string {
	var b strings.Builder
	b.WriteString(r.What)
	if r.Mend != "" {
		b.WriteString(": ")
		b.WriteString(r.Mend)
	}
	return b.String()
}
