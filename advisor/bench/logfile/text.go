package logfile

import (
	"bufio"
	"bytes"
	"errors"
	"io"
)

// errTooLong is a line that does not fit the buffer.
var errTooLong = errors.New("the line is too long")

// text is a table of separated values.
type text struct {
	r         *bufio.Reader
	line      int
	separator byte
	fields    [][]byte
	unquoted  []byte
}

// separators are tried in this order: a comma may be a decimal mark where
// another one separates.
const separators = "\t;,"

// newText finds the separator out: the one that makes a header of one of the
// first lines, or else the commonest in the first line.
func newText(r *bufio.Reader) (*text, error) {
	head, err := r.Peek(1 << 15)
	if len(head) == 0 {
		if err != nil && !errors.Is(err, io.EOF) {
			return nil, err
		}
		return nil, errors.New("the log is empty: give a file with a header and a sample a row")
	}
	if bytes.IndexByte(head, 0) >= 0 {
		return nil, errors.New("line 1: the log is no text, or UTF-16 without a byte order mark: save it as UTF-8 text")
	}
	t := &text{r: r, separator: ','}
	if bytes.HasPrefix(head, byteOrderMark) {
		_, _ = r.Discard(len(byteOrderMark)) // it was just seen there
		head = head[len(byteOrderMark):]
	}
	t.separator = t.sniff(head)
	return t, nil
}

var byteOrderMark = []byte("\ufeff")

func (t *text) sniff(head []byte) byte {
	lines := bytes.SplitN(head, []byte{'\n'}, mostPreamble+1)
	for _, line := range lines {
		for _, s := range []byte(separators) {
			t.separator = s
			if _, ok := headerOf(t.split(bytes.TrimSpace(line))); ok {
				return s
			}
		}
	}
	most := byte(',')
	for _, s := range []byte(separators) {
		if bytes.Count(lines[0], []byte{s}) > bytes.Count(lines[0], []byte{most}) {
			most = s
		}
	}
	return most
}

func (t *text) next() ([][]byte, int, error) {
	t.line++
	line, err := t.r.ReadSlice('\n')
	if errors.Is(err, bufio.ErrBufferFull) {
		for errors.Is(err, bufio.ErrBufferFull) {
			_, err = t.r.ReadSlice('\n')
		}
		return nil, t.line, errTooLong
	}
	if len(line) == 0 && err != nil {
		return nil, t.line, err
	}
	return t.split(bytes.TrimRight(line, "\r\n")), t.line, nil
}

// split cuts a line into fields without the blanks and quotes around them.
func (t *text) split(line []byte) [][]byte {
	t.fields = t.fields[:0]
	if bytes.IndexByte(line, '"') >= 0 {
		return t.splitQuoted(line)
	}
	for {
		i := bytes.IndexByte(line, t.separator)
		if i < 0 {
			break
		}
		t.fields = append(t.fields, trim(line[:i]))
		line = line[i+1:]
	}
	t.fields = append(t.fields, trim(line))
	return t.fields
}

// trim is bytes.TrimSpace for what loggers write.
func trim(field []byte) []byte {
	for len(field) > 0 && (field[0] == ' ' || field[0] == '\t') {
		field = field[1:]
	}
	for len(field) > 0 && (field[len(field)-1] == ' ' || field[len(field)-1] == '\t') {
		field = field[:len(field)-1]
	}
	return field
}

// splitQuoted follows RFC 4180 within one line; a quote that is not closed ends
// with the line.
func (t *text) splitQuoted(line []byte) [][]byte {
	t.unquoted = t.unquoted[:0]
	inside := false
	var ends []int
	for i := 0; i < len(line); i++ {
		c := line[i]
		switch {
		case c == '"' && inside && i+1 < len(line) && line[i+1] == '"':
			t.unquoted = append(t.unquoted, c)
			i++
		case c == '"':
			inside = !inside
		case c == t.separator && !inside:
			ends = append(ends, len(t.unquoted))
		default:
			t.unquoted = append(t.unquoted, c)
		}
	}
	from := 0
	for _, end := range append(ends, len(t.unquoted)) {
		t.fields = append(t.fields, trim(t.unquoted[from:end]))
		from = end
	}
	return t.fields
}
