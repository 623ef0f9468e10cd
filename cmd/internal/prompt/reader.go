package prompt

import (
	"bufio"
	"errors"
	"io"
)

// LineReader gives the lines that a person or a pipe sends.
type LineReader interface {
	// Line asks for the next line. It fails with io.EOF when there are no more
	// and with errCleared when the person threw the line away.
	Line(prompt string) (string, error)
	Close() error
}

// errCleared is a line that the person threw away with Ctrl-C.
var errCleared = errors.New("the line was cleared")

// longestLine is the most bytes that are taken as one piped line.
const longestLine = 64 << 10

// pipe reads lines without a terminal.
type pipe struct{ lines *bufio.Scanner }

func newPipe(from io.Reader) *pipe {
	lines := bufio.NewScanner(from)
	lines.Buffer(nil, longestLine)
	return &pipe{lines}
}

func (p *pipe) Line(string) (string, error) {
	if p.lines.Scan() {
		return p.lines.Text(), nil
	}
	if err := p.lines.Err(); err != nil {
		return "", err
	}
	return "", io.EOF
}

func (p *pipe) Close() error { return nil }
