package document

import "fmt"

// The bounds on what is read of any file, far above what people write.
const (
	mostDeep     = 16   // parts of a dotted name, tables within tables
	mostText     = 1000 // bytes of a plain text, such as a name or a source
	mostProblems = 1000 // mistakes told of one file; the rest is not looked at
)

// Full reports whether no more problems are told.
func (ps Problems) Full() bool { return len(ps) >= mostProblems }

// With adds a problem; the last one that is told says that there may be more.
func (ps Problems) With(p Problem) Problems {
	if ps.Full() {
		return ps
	}
	if len(ps) == mostProblems-1 {
		p.Warning = false
		p.What, p.Mend = fmt.Sprintf("from here on the file is not looked at, for it has %d mistakes before", mostProblems-1), "mend those first"
	}
	return append(ps, p)
}

// tooDeep reports a table or key below too many others.
func (b *builder) tooDeep(at int) {
	b.report(b.src.Problem(b.src.Place(at), fmt.Sprintf("this lies in more than %d tables", mostDeep), "write it with less nesting"))
}

func (b *builder) report(p Problem) { b.problems = b.problems.With(p) }
