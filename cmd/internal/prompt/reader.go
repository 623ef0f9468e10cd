package prompt

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
)

// LineReader gives the lines that a person or a pipe sends.
type LineReader interface {
	// Line asks for the next line. It fails with io.EOF when there are no more
	// and with errCleared when the person threw the line away.
	Line(prompt string) (string, error)
	Close() error
}

// errCleared is a line that the person threw away with Ctrl-C; errTooLong is
// one that was passed over.
var (
	errCleared = errors.New("the line was cleared")
	errTooLong = fmt.Errorf("the line is longer than %d KiB and was not read: ask in one sentence of at most 1000 bytes", longestLine>>10)
)

// longestLine is the most bytes that are taken as one piped line.
const longestLine = 64 << 10

// pipe reads lines without a terminal.
type pipe struct{ lines *bufio.Reader }

func newPipe(from io.Reader) *pipe { return &pipe{bufio.NewReaderSize(from, longestLine)} }

func (p *pipe) Line(string) (string, error) {
	line, err := p.lines.ReadSlice('\n')
	if !errors.Is(err, bufio.ErrBufferFull) {
		if len(line) > 0 && errors.Is(err, io.EOF) {
			err = nil // the last line ends with the input
		}
		return strings.TrimSuffix(string(line), "\n"), err
	}
	for errors.Is(err, bufio.ErrBufferFull) {
		_, err = p.lines.ReadSlice('\n')
	}
	return "", errTooLong
}

func (p *pipe) Close() error { return nil }
