package logfile

import (
	"bufio"
	"io"
	"unicode/utf16"
	"unicode/utf8"
)

// fromUTF16 turns UTF-16 with a byte order mark into UTF-8.
func fromUTF16(r *bufio.Reader) io.Reader {
	mark := make([]byte, 2)
	_, err := io.ReadFull(r, mark)
	return &utf16Reader{r: r, low: mark[0] == 0xff, err: err}
}

type utf16Reader struct {
	r    *bufio.Reader
	low  bool // the low byte comes first
	left []byte
	err  error
}

// Read never splits a character of the text it is made from.
func (u *utf16Reader) Read(p []byte) (int, error) {
	for len(u.left) == 0 {
		if u.err != nil {
			return 0, u.err
		}
		u.fill()
	}
	n := copy(p, u.left)
	u.left = u.left[n:]
	return n, nil
}

// fill turns the next few characters into UTF-8.
func (u *utf16Reader) fill() {
	u.left = u.left[:0]
	for len(u.left) < 4096 && u.err == nil {
		c, ok := u.unit()
		if !ok {
			return
		}
		if utf16.IsSurrogate(c) {
			second, _ := u.unit()
			c = utf16.DecodeRune(c, second)
		}
		u.left = utf8.AppendRune(u.left, c)
	}
}

func (u *utf16Reader) unit() (rune, bool) {
	var two [2]byte
	if _, err := io.ReadFull(u.r, two[:]); err != nil {
		u.err = err
		if err == io.ErrUnexpectedEOF {
			u.err = io.EOF // half a character at the end
		}
		return 0, false
	}
	if u.low {
		return rune(two[0]) | rune(two[1])<<8, true
	}
	return rune(two[1]) | rune(two[0])<<8, true
}
