package document

import (
	"bytes"
	"fmt"
	"go/token"
	"slices"
	"strings"
	"unicode/utf8"
)

// byteOrderMark may stand before the text, as some editors write it.
const byteOrderMark = "\ufeff"

// Source is a file's text and where its lines begin.
type Source struct {
	file  string
	text  []byte
	start int   // offset of the text, past any byte order mark
	lines []int // offset of the first byte of each line

	shared string // the text, for the values that are read from it
}

// Open takes a file's content as UTF-8 text. A byte order mark is passed over;
// the first byte of each line that is not UTF-8 is reported and every such byte
// read as a question mark. The source is nil when the file is UTF-16.
func Open(file string, src []byte) (*Source, Problems) {
	s := &Source{file: file, text: src, lines: make([]int, 1, 1+bytes.Count(src, []byte{'\n'}))}
	if bytes.HasPrefix(src, []byte(byteOrderMark)) {
		s.start = len(byteOrderMark)
	}
	s.lines[0] = s.start
	for i, c := range src {
		if c == '\n' {
			s.lines = append(s.lines, i+1)
		}
	}
	if bytes.HasPrefix(src, []byte{0xff, 0xfe}) || bytes.HasPrefix(src, []byte{0xfe, 0xff}) {
		return nil, Problems{{At: s.Place(0), What: "the file is UTF-16", Mend: "save it as UTF-8"}}
	}
	return s, s.utf8Only()
}

// Text gives the text past any byte order mark; it is not to be changed.
func (s *Source) Text() []byte { return s.text[s.start:] }

// utf8Only replaces each byte that is not UTF-8 by a question mark, so that
// the rest can be read, and reports the first such byte of every line.
func (s *Source) utf8Only() Problems {
	if utf8.Valid(s.text) {
		return nil
	}
	var problems Problems
	clean := bytes.Clone(s.text)
	for i := 0; i < len(clean); {
		r, n := utf8.DecodeRune(clean[i:])
		if r == utf8.RuneError && n == 1 {
			at := s.Place(i)
			if !problems.Full() && (len(problems) == 0 || problems[len(problems)-1].At.Line != at.Line) {
				what := fmt.Sprintf("byte 0x%02X is not UTF-8", clean[i])
				problems = problems.With(Problem{At: at, What: what, Mend: "save the file as UTF-8"})
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

// share gives a token's content as a string, without a copy where it stands in
// the text as it is, or in quotes, at the offset.
func (s *Source) share(content []byte, at int) string {
	text := s.whole()
	for _, i := range [2]int{at, at + 1} {
		if end := i + len(content); end <= len(text) && text[i:end] == string(content) {
			return text[i:end]
		}
	}
	return string(content)
}

// whole gives the text as a string.
func (s *Source) whole() string {
	if s.shared == "" {
		s.shared = string(s.text)
	}
	return s.shared
}

// Place gives the place of the byte at an offset of the file.
func (s *Source) Place(offset int) token.Position {
	offset = max(offset, s.start)
	n, exact := slices.BinarySearch(s.lines, offset)
	if !exact {
		n--
	}
	return token.Position{Filename: s.file, Offset: offset, Line: n + 1, Column: offset - s.lines[n] + 1}
}

// PlaceIn gives the place of a byte by its line and column, counted from 1.
func (s *Source) PlaceIn(line, column int) token.Position {
	line = min(max(line, 1), len(s.lines))
	return s.Place(min(s.lines[line-1]+column-1, len(s.text)))
}

// line gives a line, counted from 1, without its ending. All lines share one
// copy of the text, for a long one may be asked for many times.
func (s *Source) line(n int) string {
	if n < 1 || n > len(s.lines) {
		return ""
	}
	end := len(s.text)
	if n < len(s.lines) {
		end = s.lines[n] - 1
	}
	return strings.TrimSuffix(s.whole()[s.lines[n-1]:end], "\r")
}

// Problem makes a problem that shows the line at the place.
func (s *Source) Problem(at token.Position, what, mend string) Problem {
	return Problem{At: at, What: what, Mend: mend, Source: s.line(at.Line)}
}
