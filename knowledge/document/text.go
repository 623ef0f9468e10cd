package document

import (
	"bytes"
	"go/token"
	"unicode/utf8"
)

// Text is a string value that knows where each of its bytes stands in the
// file. The zero value is the empty text of an absent key.
type Text struct {
	src   *Source
	from  int // offset of the opening quote, or of a bare number
	value string
}

// String gives the decoded text.
func (t Text) String() string { return t.value }

// At gives the place in the file of the decoded byte at an offset: of a byte
// that an escape made, the backslash; at the text's length, just past the last
// byte. Offsets outside the text are taken to its nearer end.
func (t Text) At(offset int) token.Position {
	if t.src == nil {
		return token.Position{}
	}
	offset = min(max(offset, 0), len(t.value))
	return t.src.Place(t.raw(offset))
}

// Problem makes a problem at the decoded byte at an offset.
func (t Text) Problem(offset int, what, mend string) Problem {
	if t.src == nil {
		return Problem{What: what, Mend: mend}
	}
	return t.src.Problem(t.At(offset), what, mend)
}

// raw gives the offset in the file of the decoded byte at an offset.
func (t Text) raw(offset int) int {
	text := t.src.text
	quote := text[t.from]
	if quote != '\'' && quote != '"' {
		return t.from + offset // a number, which has no quotes
	}
	i, long := opening(text, t.from)
	if quote == '\'' {
		return i + offset
	}
	past := i
	for decoded := 0; ; {
		for long && text[i] == '\\' && blank(text[i+1]) {
			i = joinLines(text, i+1)
		}
		if decoded == len(t.value) {
			return past
		}
		rawLen, made := step(text[i:])
		if offset < decoded+made {
			return i
		}
		decoded += made
		i += rawLen
		past = i
	}
}

// opening gives the offset of a string's first content byte and whether the
// string is of the multi-line kind, whose first newline is no content.
func opening(text []byte, from int) (start int, long bool) {
	quotes := bytes.Repeat(text[from:from+1], 3)
	if !bytes.HasPrefix(text[from:], quotes) {
		return from + 1, false
	}
	rest := text[from+3:]
	switch {
	case bytes.HasPrefix(rest, []byte("\n")):
		return from + 4, true
	case bytes.HasPrefix(rest, []byte("\r\n")):
		return from + 5, true
	}
	return from + 3, true
}

func blank(c byte) bool {
	return c == ' ' || c == '\t' || c == '\n' || c == '\r'
}

// joinLines skips the white space that a backslash at a line's end removes.
func joinLines(text []byte, i int) int {
	for i < len(text) && blank(text[i]) {
		i++
	}
	return i
}

// step gives the raw and decoded lengths of the next piece of a basic string:
// one plain byte or one escape.
func step(text []byte) (raw, made int) {
	if text[0] != '\\' {
		return 1, 1
	}
	switch text[1] {
	case 'x':
		return 4, codeLen(text[2:4])
	case 'u':
		return 6, codeLen(text[2:6])
	case 'U':
		return 10, codeLen(text[2:10])
	}
	return 2, 1
}

// codeLen gives the UTF-8 length of a code point written in hexadecimal.
func codeLen(hex []byte) int {
	var r rune
	for _, c := range hex {
		r = r<<4 | rune(digit(c))
	}
	return utf8.RuneLen(r)
}

func digit(c byte) byte {
	if c >= 'a' {
		return c - 'a' + 10
	}
	if c >= 'A' {
		return c - 'A' + 10
	}
	return c - '0'
}
