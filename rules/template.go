package rules

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"hotroom/rules/expression"
)

// template is a text with expressions in it: "kept {margin.kept_c:1} K".
type template []piece

// piece is a stretch of plain text, or an expression with its format.
type piece struct {
	plain    string
	value    *expression.Expression
	decimals int // asDue, or how many
}

const (
	// asDue writes one decimal at most and none where it is zero.
	asDue = -1
	// mostDecimals is all that a {…:6} may ask for.
	mostDecimals = 6
	// plainBelow is where numbers begin to be written with a power of ten:
	// beyond it not every digit is one.
	plainBelow = 1e15
)

// template parses a say: {expression} or {expression:decimals}, {{ and }} for
// braces.
func (l *loader) template(text expression.Text, scope expression.Scope) template {
	if !l.short("say", text, mostSaid) {
		return nil
	}
	s := text.String()
	var pieces template
	plain := strings.Builder{}
	for i := 0; i < len(s); i++ {
		switch {
		case s[i] != '{' && s[i] != '}':
			plain.WriteByte(s[i])
		case i+1 < len(s) && s[i+1] == s[i]:
			plain.WriteByte(s[i])
			i++
		case s[i] == '}':
			l.report(text.Problem(i, "this } closes nothing", "write }} for a brace"))
		default:
			end := closing(s, i+1)
			if end < 0 {
				l.report(text.Problem(i, "this { is never closed", "close it with }, or write {{ for a brace"))
				return nil
			}
			if len(pieces) == 2*mostPieces {
				l.report(text.Problem(i, fmt.Sprintf("the text has more than %d parts in braces", mostPieces), "leave some out"))
				return nil
			}
			pieces = append(pieces, piece{plain: plain.String()}, l.piece(text, i+1, end, scope))
			plain.Reset()
			i = end
		}
	}
	return append(pieces, piece{plain: plain.String()})
}

// closing finds the } of a part, past words in quotes, or gives -1.
func closing(s string, from int) int {
	quote := byte(0)
	for i := from; i < len(s); i++ {
		switch c := s[i]; {
		case quote != 0 && c == quote:
			quote = 0
		case quote != 0:
		case c == '"' || c == '\'':
			quote = c
		case c == '}':
			return i
		}
	}
	return -1
}

// piece compiles one {…}. A colon and a digit at its end, without a space
// before them, say how many decimals.
func (l *loader) piece(text expression.Text, from, to int, scope expression.Scope) piece {
	s := text.String()
	p := piece{decimals: asDue}
	if at := to - 2; at > from && s[at] == ':' && s[at-1] != ' ' && s[at+1] >= '0' && s[at+1] <= '9' {
		p.decimals = int(s[at+1] - '0')
		if p.decimals > mostDecimals {
			l.report(text.Problem(at+1, "more than 6 decimals are asked for", "ask for 0 to 6"))
		}
		to = at
	}
	x, problems := l.compiler.Compile(expression.Part(text, from, to), expression.Bad, scope)
	l.problems = append(l.problems, problems...)
	if x != nil && p.decimals != asDue && x.Kind != expression.Number {
		l.report(text.Problem(to, "decimals are asked for, and this is "+x.Kind.String(), "remove the colon and the digit"))
	}
	p.value = x
	return p
}

// fill writes the text for a scene. What cannot be told is called unknown; an
// expression that breaks is an error, and the text is complete all the same.
func (t template) fill(e *expression.Evaluator) (string, error) {
	if len(t) == 1 && t[0].value == nil {
		return t[0].plain, nil
	}
	var broken []error
	b := make([]byte, 0, usualFilled)
	for i := range t {
		from := len(b)
		if t[i].value == nil {
			b = append(b, t[i].plain...)
		} else {
			var err error
			if b, err = t[i].append(b, e); err != nil {
				broken = append(broken, err)
			}
		}
		b = shorten(b, from)
	}
	return string(b), errors.Join(broken...)
}

// usualFilled is room for nearly every text, bytes.
const usualFilled = 240

func (p *piece) append(b []byte, e *expression.Evaluator) ([]byte, error) {
	if !e.Known(p.value) {
		return append(b, "unknown"...), nil
	}
	switch p.value.Kind {
	case expression.Number:
		v, err := e.Figure(p.value)
		if err != nil {
			return append(b, "unknown"...), err
		}
		return appendNumber(b, v, p.decimals), nil
	case expression.Word:
		v, err := e.Word(p.value)
		if err != nil {
			return append(b, "unknown"...), err
		}
		return append(b, v...), nil
	}
	value, err := e.Value(p.value)
	if err != nil {
		return append(b, "unknown"...), err
	}
	return append(b, format(value, p.decimals)...), nil
}

// format writes a value for people.
func format(value any, decimals int) string {
	switch v := value.(type) {
	case bool:
		if v {
			return "yes"
		}
		return "no"
	case float64:
		return string(appendNumber(nil, v, decimals))
	case string:
		return v
	}
	return "unknown"
}

func appendNumber(b []byte, v float64, decimals int) []byte {
	switch {
	case math.IsNaN(v) || math.IsInf(v, 0):
		return append(b, "unknown"...)
	case math.Abs(v) >= plainBelow:
		return strconv.AppendFloat(b, v, 'g', 6, 64)
	}
	from := len(b)
	switch decimals {
	case asDue:
		b = bytes.TrimSuffix(appendFixed(b, v, 1), []byte(".0"))
	default:
		b = appendFixed(b, v, decimals)
	}
	if s := b[from:]; s[0] == '-' && len(bytes.Trim(s, "-0.")) == 0 {
		b = append(b[:from], s[1:]...)
	}
	return b
}

// appendFixed writes a number with up to six decimals as strconv does. Most
// numbers of a text are small and not halfway between two decimals, so that they
// can be rounded as whole numbers, which is quicker.
func appendFixed(b []byte, v float64, decimals int) []byte {
	const small, near = 1e9, 1e-6
	unit := units[decimals]
	size := math.Abs(v) * float64(unit)
	whole := math.Floor(size + 0.5)
	if !(size < small) || math.Abs(size-whole) > 0.5-near {
		return strconv.AppendFloat(b, v, 'f', decimals, 64)
	}
	if math.Signbit(v) {
		b = append(b, '-')
	}
	n := int64(whole)
	b = strconv.AppendInt(b, n/unit, 10)
	if decimals == 0 {
		return b
	}
	b = append(b, '.')
	for n %= unit; unit > 1; n %= unit {
		unit /= 10
		b = append(b, byte('0'+n/unit))
	}
	return b
}

// units are the powers of ten up to that of the most decimals.
var units = [mostDecimals + 1]int64{1, 10, 100, 1_000, 10_000, 100_000, 1_000_000}
