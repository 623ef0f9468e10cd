package document

import (
	"bytes"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2/unstable"
)

// byteOrderMark gives the bytes that may stand before the text, as some editors write it.
func byteOrderMark() []byte { return []byte("\ufeff") }

// Parse reads a TOML file. It reports every syntax error, key given twice and
// byte that is not UTF-8, and gives whatever could be read beside them; the
// table is nil only when nothing can be read. The file name is used in places
// alone.
func Parse(file string, src []byte) (*Table, Problems) {
	s := newSource(file, src)
	if wide(src) {
		return nil, Problems{s.problem(s.at(0), "the file is UTF-16", "save it as UTF-8")}
	}
	b := &builder{src: s, root: &Table{src: s, form: headed}, problems: utf8Only(s)}
	b.spoilt = make(map[int]bool, len(b.problems))
	for _, p := range b.problems {
		b.spoilt[p.At.Line] = true
	}
	b.current = b.root
	if bytes.HasPrefix(s.text, byteOrderMark()) {
		b.base = len(byteOrderMark())
	}
	b.read()
	b.problems.Sort()
	return b.root, b.problems
}

func wide(src []byte) bool {
	return bytes.HasPrefix(src, []byte{0xff, 0xfe}) || bytes.HasPrefix(src, []byte{0xfe, 0xff})
}

// utf8Only replaces each byte that is not UTF-8 by a question mark, so that
// the rest can be read, and reports the first such byte of every line.
func utf8Only(s *source) Problems {
	if utf8.Valid(s.text) {
		return nil
	}
	var problems Problems
	clean := bytes.Clone(s.text)
	for i := 0; i < len(clean); {
		r, n := utf8.DecodeRune(clean[i:])
		if r == utf8.RuneError && n == 1 {
			at := s.at(i)
			if len(problems) == 0 || problems[len(problems)-1].At.Line != at.Line {
				problems = append(problems, s.problem(at, "byte "+hexByte(clean[i])+" is not UTF-8", "save the file as UTF-8"))
			}
			clean[i] = '?'
		}
		i += n
	}
	s.text = clean
	for i := range problems {
		problems[i].Source = s.line(problems[i].At.Line)
	}
	return problems
}

func hexByte(c byte) string {
	const digits = "0123456789ABCDEF"
	return "0x" + string(digits[c>>4]) + string(digits[c&15])
}

// read takes one expression after the other; after a syntax error it goes on
// at the next line that looks like the start of one.
func (b *builder) read() {
	for {
		var p unstable.Parser
		p.Reset(b.src.text[b.base:])
		b.done = b.base
		for p.NextExpression() {
			b.expression(p.Expression())
		}
		if err := p.Error(); err == nil || !b.syntax(&p, err) {
			return
		}
	}
}
