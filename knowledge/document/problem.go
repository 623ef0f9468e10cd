package document

import (
	"cmp"
	"fmt"
	"go/token"
	"slices"
	"strings"
)

// Problem is one mistake in a file: where it stands, what is wrong and how to
// mend it.
type Problem struct {
	// At counts lines and columns from 1; columns count bytes, as go/token does.
	At token.Position
	// What says what is wrong, naming the value seen.
	What string
	// Mend says how to put it right.
	Mend string
	// Warning marks a doubt that never stops loading.
	Warning bool
	// Source is the line the problem stands on, without its line ending, for
	// the caret; empty where there is none to show.
	Source string
}

// String gives "file:line:column: what: how to mend".
func (p Problem) String() string {
	what := p.What
	if p.Warning {
		what = "warning: " + what
	}
	if p.Mend == "" {
		return fmt.Sprintf("%s: %s", p.At, what)
	}
	return fmt.Sprintf("%s: %s: %s", p.At, what, p.Mend)
}

// Excerpt gives the source line and a caret under the column, each ending in
// a newline, or "" where there is no line to show. Tabs are kept in the second
// line so that the caret stands under its column in any terminal.
func (p Problem) Excerpt() string {
	if p.Source == "" || p.At.Column < 1 {
		return ""
	}
	before := p.Source[:min(p.At.Column-1, len(p.Source))]
	pad := strings.Map(func(r rune) rune {
		if r == '\t' {
			return '\t'
		}
		return ' '
	}, before)
	return p.Source + "\n" + pad + "^\n"
}

// Problems is a list of mistakes; it is an error so that a loader can return
// all of them at once.
type Problems []Problem

// Error lists every problem on a line of its own.
func (ps Problems) Error() string {
	lines := make([]string, len(ps))
	for i, p := range ps {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}

// Sort orders problems by file, line and column, keeping the order of equals.
func (ps Problems) Sort() {
	slices.SortStableFunc(ps, func(a, b Problem) int {
		return cmp.Or(
			cmp.Compare(a.At.Filename, b.At.Filename),
			cmp.Compare(a.At.Line, b.At.Line),
			cmp.Compare(a.At.Column, b.At.Column),
		)
	})
}

// Fatal reports whether any problem is more than a warning.
func (ps Problems) Fatal() bool {
	return slices.ContainsFunc(ps, func(p Problem) bool { return !p.Warning })
}
