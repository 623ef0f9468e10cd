package document

import (
	"bytes"
	"go/token"
	"slices"
)

// source is a file's text and where its lines begin.
type source struct {
	file  string
	text  []byte
	lines []int // offset of the first byte of each line

	shared string // the text, for the values that are read from it
}

func newSource(file string, text []byte) *source {
	lines := make([]int, 1, 1+bytes.Count(text, []byte{'\n'}))
	for i, c := range text {
		if c == '\n' {
			lines = append(lines, i+1)
		}
	}
	return &source{file: file, text: text, lines: lines}
}

// share gives a token's content as a string, without a copy where it stands in
// the text as it is, or in quotes, at the offset.
func (s *source) share(content []byte, at int) string {
	if s.shared == "" {
		s.shared = string(s.text)
	}
	for _, i := range [2]int{at, at + 1} {
		if end := i + len(content); end <= len(s.shared) && s.shared[i:end] == string(content) {
			return s.shared[i:end]
		}
	}
	return string(content)
}

// at gives the place of the byte at an offset.
func (s *source) at(offset int) token.Position {
	n, exact := slices.BinarySearch(s.lines, offset)
	if !exact {
		n--
	}
	return token.Position{Filename: s.file, Offset: offset, Line: n + 1, Column: offset - s.lines[n] + 1}
}

// line gives a line, counted from 1, without its ending.
func (s *source) line(n int) string {
	if n < 1 || n > len(s.lines) {
		return ""
	}
	end := len(s.text)
	if n < len(s.lines) {
		end = s.lines[n] - 1
	}
	return string(bytes.TrimSuffix(s.text[s.lines[n-1]:end], []byte{'\r'}))
}

func (s *source) problem(at token.Position, what, mend string) Problem {
	return Problem{At: at, What: what, Mend: mend, Source: s.line(at.Line)}
}
