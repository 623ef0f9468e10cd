package knowledge

import (
	"go/token"

	"hotroom/knowledge/document"
	"hotroom/knowledge/sheet"
)

// report gathers the problems of a load. A value that was already reported is
// not reported again: what follows from it would only repeat it.
type report struct {
	problems document.Problems
	seen     map[token.Position]bool
}

// take adds the problems of reading one file.
func (r *report) take(problems document.Problems) {
	for _, p := range problems {
		r.seen[p.At] = true
	}
	r.problems = append(r.problems, problems...)
}

// at reports the value at a key path of a table.
func (r *report) at(t *document.Table, path []string, what, mend string) {
	at := t.At(path...)
	if t.Has(path...) && r.seen[at] {
		return
	}
	r.seen[at] = r.seen[at] || t.Has(path...)
	r.problems = append(r.problems, t.Problem(at, what, mend))
}

// doubt warns of the value at a key path of a table.
func (r *report) doubt(t *document.Table, path []string, what, mend string) {
	p := t.Problem(t.At(path...), what, mend)
	p.Warning = true
	r.problems = append(r.problems, p)
}

// field reports a field of a row, or only warns of it.
func (r *report) field(row *sheet.Row, column, what, mend string, warning bool) {
	p := row.Problem(column, what, mend)
	if row.Has(column) {
		if r.seen[p.At] {
			return
		}
		r.seen[p.At] = !warning
	}
	p.Warning = warning
	r.problems = append(r.problems, p)
}
