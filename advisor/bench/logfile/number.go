package logfile

import (
	"bytes"
	"math"
	"strconv"
)

// numeral reads the numbers of one file. The first decimal mark that it meets
// is the file's; the other one is then a thousands separator, which is never
// guessed over.
type numeral struct {
	comma bool // a decimal comma is possible: the separator is not a comma
	mark  byte // 0 until one is met
}

// What became of reading a number.
type reading int

const (
	good      reading = iota
	empty             // nothing there, or a logger's sign for it
	grouped           // a thousands separator
	unnumeric         // anything else
)

// read reads a field.
func (n *numeral) read(field []byte) (float64, reading) {
	if len(field) == 0 {
		return 0, empty
	}
	if v, ok := n.plain(field); ok {
		return v, good
	}
	return n.odd(field)
}

// plain reads digits with one decimal mark: exact, because a whole number below
// 2⁵³ divided by a power of ten up to 10²² is rounded once (Clinger 1990).
func (n *numeral) plain(field []byte) (float64, bool) {
	i, negative := 0, false
	if field[0] == '-' || field[0] == '+' {
		negative = field[0] == '-'
		i++
	}
	whole, digits, decimals, mark := uint64(0), 0, 0, byte(0)
	for ; i < len(field); i++ {
		c := field[i]
		switch {
		case c >= '0' && c <= '9':
			whole = whole*10 + uint64(c-'0')
			digits++
			if mark != 0 {
				decimals++
			}
		case mark == 0 && n.mayMark(c):
			mark = c
		default:
			return 0, false
		}
	}
	if digits == 0 || digits > 15 {
		return 0, false
	}
	if mark != 0 {
		n.mark = mark
	}
	v := float64(whole) / powers[decimals]
	if negative {
		v = -v
	}
	return v, true
}

var powers = [...]float64{1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15}

// mayMark reports whether a byte can be the decimal mark here.
func (n *numeral) mayMark(c byte) bool {
	if n.mark != 0 {
		return c == n.mark
	}
	return c == '.' || c == ',' && n.comma
}

// odd sorts out what is no plain number.
func (n *numeral) odd(field []byte) (float64, reading) {
	text := field
	if n.mark == ',' {
		text = bytes.Replace(field, []byte{','}, []byte{'.'}, 1)
	}
	v, err := strconv.ParseFloat(string(text), 64)
	switch {
	case err == nil && !math.IsNaN(v) && !math.IsInf(v, 0) && !bytes.ContainsAny(field, "xXpP_"):
		return v, good
	case isOpen(field):
		return 0, empty
	case isGrouped(field):
		return 0, grouped
	}
	return 0, unnumeric
}

// isOpen recognises what loggers write when there is no reading.
func isOpen(field []byte) bool {
	if len(bytes.Trim(field, "-–—_*?.")) == 0 {
		return true
	}
	switch string(bytes.ToLower(bytes.Trim(field, "-+ "))) {
	case "ol", "o.l", "o.l.", "overload", "over", "overflow", "open", "opn", "nan", "inf", "null", "none", "n/a", "na", "#n/a", "err", "error", "fault", "burnout":
		return true
	}
	return false
}

// isGrouped recognises digits in groups of three.
func isGrouped(field []byte) bool {
	digits, marks := 0, 0
	for _, c := range bytes.TrimLeft(field, "+-") {
		switch {
		case c >= '0' && c <= '9':
			digits++
		case c == ',' || c == '.' || c == '\'' || c == ' ':
			marks++
		default:
			return false
		}
	}
	return digits > 3 && marks > 0
}
