package document

import (
	"bytes"
	"errors"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// syntax reports the parser's error and moves the base to where reading can go
// on; false when there is no such place.
func (b *builder) syntax(p *unstable.Parser, err error) bool {
	text := b.src.text
	start := b.nextStart()
	at := start
	var perr *unstable.ParserError
	if errors.As(err, &perr) {
		at = b.base + int(p.Range(perr.Highlight).Offset)
	}
	b.reportSyntax(start, at, err.Error())
	b.spoil()
	if start < len(text) && text[start] == '[' {
		b.current = &Table{src: b.src, at: start} // takes the keys of a header that nobody can read
	}
	b.base = b.resume(start, at)
	return b.base < len(text)
}

// spoil marks the tables that the current one stands in, and itself: what they
// lack may be hidden by the error.
func (b *builder) spoil() {
	t := b.root
	t.broken = true
	for _, name := range b.current.path {
		e := t.find(name)
		switch {
		case e == nil:
			return
		case e.value.headers():
			t = e.value.list.last()
		case e.value.table != nil:
			t = e.value.table
		}
		t.broken = true
	}
}

// nextStart gives the offset of the expression after the last one read.
func (b *builder) nextStart() int {
	text := b.src.text
	i := b.done
	if i > b.base { // past the rest of the line it stands on
		i = lineAfter(text, i)
	}
	for i < len(text) {
		rest := bytes.TrimLeft(text[i:], " \t\r\n")
		i = len(text) - len(rest)
		if len(rest) == 0 || rest[0] != '#' {
			break
		}
		i = lineAfter(text, i)
	}
	return i
}

// resume gives the next line, after the start of the broken expression and not
// before the error, that looks like a header or a key.
func (b *builder) resume(start, at int) int {
	text := b.src.text
	i := lineAfter(text, start)
	if line := b.src.lines[b.src.Place(min(at, len(text))).Line-1]; line > i {
		i = line
	}
	for i < len(text) && !startsExpression(text[i:]) {
		i = lineAfter(text, i)
	}
	return i
}

func lineAfter(text []byte, i int) int {
	n := bytes.IndexByte(text[min(i, len(text)):], '\n')
	if n < 0 {
		return len(text)
	}
	return i + n + 1
}

// startsExpression reports whether a line begins with a [ in its first column,
// or with a bare key and an equals sign.
func startsExpression(text []byte) bool {
	if text[0] == '[' {
		return true
	}
	text = bytes.TrimLeft(text, " \t")
	key := bytes.TrimLeftFunc(text, func(r rune) bool {
		return r == '_' || r == '-' || r == '.' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z'
	})
	return len(key) < len(text) && bytes.HasPrefix(bytes.TrimLeft(key, " \t"), []byte("="))
}

// reportSyntax words the parser's message, at the start of a string or list
// that is never closed rather than where the file ends. A line reported for its
// bytes is not reported again.
func (b *builder) reportSyntax(start, at int, message string) {
	open := strings.Contains(message, "not terminated") || strings.Contains(message, "incomplete")
	if open {
		at = start
	}
	place := b.src.Place(at)
	if b.spoilt[place.Line] {
		return
	}
	b.report(b.src.Problem(place, message, b.remedy(at, message)))
}

// remedy gives a way out of the parser's commonest complaints.
func (b *builder) remedy(at int, message string) string {
	if at > 0 && at < len(b.src.text) && b.src.text[at] == ',' && isDigit(b.src.text[at-1]) {
		return "write a decimal point, not a comma"
	}
	for _, r := range [][2]string{
		{"not terminated", "close the text with the quotes it starts with"},
		{"unterminated", "close the text with a quote on the same line"},
		{"cannot have new lines", "close the text with a quote on the same line"},
		{"strings must be quoted", "put text between quotes"},
		{"at start of value", "put text between quotes"},
		{"expected keyword", "put text between quotes, or write true or false"},
		{"invalid escape", `write \\ for a backslash, or put the text between '…'`},
		{"to close table name", "close the header with ]"},
		{"to close array table name", "close the header with ]]"},
		{"incomplete", "close the list or table that starts here"},
		{"leading zeroes", "drop the leading zero"},
		{"decimal point must", "write a digit after the decimal point"},
	} {
		if strings.Contains(message, r[0]) {
			return r[1]
		}
	}
	return "write one key = value on a line, text between quotes"
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }
