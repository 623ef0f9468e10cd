package document

import "github.com/pelletier/go-toml/v2/unstable"

// Parse reads a TOML file. It reports every syntax error, key given twice and
// byte that is not UTF-8, and gives whatever could be read beside them; the
// table is nil only when nothing can be read. The file name is used in places
// alone.
func Parse(file string, src []byte) (*Table, Problems) {
	s, problems := Open(file, src)
	if s == nil {
		return nil, problems
	}
	b := &builder{src: s, root: &Table{src: s, form: headed}, base: s.start, problems: problems}
	b.current = b.root
	b.spoilt = make(map[int]bool, len(problems))
	for _, p := range problems {
		b.spoilt[p.At.Line] = true
	}
	b.read()
	b.root.broken = b.root.broken || b.problems.Full()
	b.problems.Sort()
	return b.root, b.problems
}

// read takes one expression after the other; after a syntax error it goes on
// at the next line that looks like the start of one.
func (b *builder) read() {
	for {
		var p unstable.Parser
		p.Reset(b.src.text[b.base:])
		b.done = b.base
		for !b.problems.Full() && p.NextExpression() {
			b.expression(p.Expression())
		}
		if err := p.Error(); b.problems.Full() || err == nil || !b.syntax(&p, err) {
			return
		}
	}
}
