package document

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"github.com/pelletier/go-toml/v2"
	"github.com/pelletier/go-toml/v2/unstable"
)

type kind uint8

const (
	badKind kind = iota // already reported
	stringKind
	boolKind
	intKind
	floatKind
	dateKind
	timeKind // any of TOML's kinds with a time of day
	arrayKind
	tableKind
)

// value is one TOML value and where it starts.
type value struct {
	kind   kind
	at     int
	text   string  // strings decoded, everything else as written
	number float64 // integers, floats
	table  *Table
	list   *list // of arrays, never nil there
}

// list is what an array holds.
type list struct {
	items   []value
	headers bool // made by [[headers]], so never empty
}

func (l *list) last() *Table { return l.items[len(l.items)-1].table }

func (v *value) headers() bool { return v.list != nil && v.list.headers }

// String describes the value for a message.
func (v *value) String() string {
	switch v.kind {
	case stringKind:
		return Quote(v.text) + ", a text"
	case boolKind:
		return v.text + ", a yes or no"
	case dateKind:
		return v.text + ", a date"
	case timeKind:
		return v.text + ", a time"
	case arrayKind:
		return "a list"
	case tableKind:
		return "a table"
	}
	return v.text
}

// Quote puts a text between quotes for a message, cut after 40 characters.
func Quote(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		s = string(r[:most-1]) + "…"
	}
	return strconv.Quote(s)
}

// scalar reads a plain value from the parser's node and its text.
func scalar(n *unstable.Node, text string) (value, error) {
	v := value{text: text}
	var err error
	switch n.Kind {
	case unstable.String:
		v.kind = stringKind
	case unstable.Bool:
		v.kind = boolKind
	case unstable.Integer:
		v.kind, v.number, err = integer(v.text)
	case unstable.Float:
		v.kind, v.number, err = float(v.text)
	case unstable.LocalDate:
		v.kind, err = dateKind, unreal(text, new(toml.LocalDate).UnmarshalText(n.Data))
	default:
		v.kind, err = timeKind, unreal(text, timeOfDay(n))
	}
	if err != nil {
		v.kind = badKind
	}
	return v, err
}

func integer(text string) (kind, float64, error) {
	n, err := strconv.ParseInt(plain(text), 0, 64)
	if err != nil {
		return badKind, 0, fmt.Errorf("%s does not fit in 64 bits", text)
	}
	return intKind, float64(n), nil
}

func float(text string) (kind, float64, error) {
	if strings.TrimLeft(text, "+-") == "nan" {
		return floatKind, math.NaN(), nil // strconv reads no sign before it, TOML does
	}
	f, err := strconv.ParseFloat(plain(text), 64)
	if err != nil || (math.IsInf(f, 0) && !strings.HasSuffix(text, "inf")) {
		return badKind, 0, fmt.Errorf("%s is too large for a number", text)
	}
	return floatKind, f, nil
}

// plain takes the underscores out of a number.
func plain(text string) string {
	return strings.ReplaceAll(text, "_", "")
}

// unreal words the library's error about a date or time.
func unreal(text string, err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%s is no date or time (%s)", text, strings.TrimPrefix(err.Error(), "toml: "))
}

// timeOfDay checks the kinds of value that hold a time.
func timeOfDay(n *unstable.Node) error {
	switch n.Kind {
	case unstable.LocalTime:
		return new(toml.LocalTime).UnmarshalText(n.Data)
	case unstable.LocalDateTime:
		return new(toml.LocalDateTime).UnmarshalText(n.Data)
	}
	return toml.Unmarshal(append([]byte("t = "), n.Data...), &map[string]any{})
}
