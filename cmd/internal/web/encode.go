package web

import (
	"encoding/json"
	"math"
	"reflect"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"

	"hotroom/advisor"
)

// encoder appends a value as JSON, as encoding/json writes it but for two
// things: a list that is nil is empty, and a number that is none is null. It is
// put together once for a type, which takes a third of the time of finding the
// type's way anew for each answer.
type encoder func(b []byte, v reflect.Value) []byte

// encoders are those of the types that are sent.
type encoders struct {
	known map[reflect.Type]encoder
	space sync.Pool // of *[]byte
}

func newEncoders(routes []*route) *encoders {
	e := &encoders{known: map[reflect.Type]encoder{}}
	e.space.New = func() any { return new([]byte) }
	e.known[reflect.TypeFor[Problem]()] = encoderOf(reflect.TypeFor[Problem]())
	for _, rt := range routes {
		for _, t := range []reflect.Type{rt.asks, rt.gives} {
			if t != nil && t != reflect.TypeFor[answers]() && t != reflect.TypeFor[advisor.Advice]() && t.Kind() == reflect.Struct {
				e.known[t] = encoderOf(t)
			}
		}
	}
	return e
}

// written is the bytes of an answer. Those that were written here stand in a
// space that reuse takes back when nobody looks at them any more.
type written struct {
	bytes []byte
	space *[]byte // nil where they are somebody else's
}

// write writes an answer down.
func (e *encoders) write(value any) (written, error) {
	if r, ok := value.(rendered); ok {
		text, err := r.render()
		return written{bytes: text}, err
	}
	space := e.space.Get().(*[]byte)
	out, err := e.append((*space)[:0], value)
	if err != nil {
		return written{}, err
	}
	*space = append(out, '\n')
	return written{*space, space}, nil
}

// longestSpace is the longest answer whose space is used again, bytes: a few
// long ones would hold much memory for nothing.
const longestSpace = 64 << 10

func (e *encoders) reuse(w written) {
	if w.space != nil && cap(*w.space) <= longestSpace {
		e.space.Put(w.space)
	}
}

func (e *encoders) append(b []byte, value any) ([]byte, error) {
	switch v := value.(type) {
	case answers:
		return e.appendAll(b, v)
	case advisor.Advice:
		return appendAdvice(b, &v), nil
	}
	if encode := e.known[reflect.TypeOf(value)]; encode != nil {
		return encode(b, reflect.ValueOf(value)), nil
	}
	text, err := json.Marshal(value)
	return append(b, text...), err
}

// appendAll writes the one answer, or all in an array.
func (e *encoders) appendAll(b []byte, all answers) ([]byte, error) {
	if all.single {
		return e.append(b, all.list[0])
	}
	b = append(b, '[')
	var err error
	for i, one := range all.list {
		if i > 0 {
			b = append(b, ',')
		}
		if b, err = e.append(b, one); err != nil {
			return nil, err
		}
	}
	return append(b, ']'), nil
}

func encoderOf(t reflect.Type) encoder {
	switch t.Kind() {
	case reflect.String:
		return func(b []byte, v reflect.Value) []byte { return appendText(b, v.String()) }
	case reflect.Bool:
		return func(b []byte, v reflect.Value) []byte { return strconv.AppendBool(b, v.Bool()) }
	case reflect.Int:
		return func(b []byte, v reflect.Value) []byte { return strconv.AppendInt(b, v.Int(), 10) }
	case reflect.Float64:
		return func(b []byte, v reflect.Value) []byte { return appendNumber(b, v.Float()) }
	case reflect.Pointer:
		inner := encoderOf(t.Elem())
		return func(b []byte, v reflect.Value) []byte {
			if v.IsNil() {
				return append(b, "null"...)
			}
			return inner(b, v.Elem())
		}
	case reflect.Slice:
		return listEncoder(encoderOf(t.Elem()))
	case reflect.Struct:
		if held, ok := recorded(t); ok {
			inner := structEncoder(held, keyed)
			return func(b []byte, v reflect.Value) []byte { return inner(b, v.Field(0)) }
		}
		return structEncoder(t, keysOf(t))
	}
	return func(b []byte, v reflect.Value) []byte { return appendText(b, v.String()) } // no type that is sent comes here: a test holds it
}

func listEncoder(inner encoder) encoder {
	return func(b []byte, v reflect.Value) []byte {
		b = append(b, '[')
		for i := range v.Len() {
			if i > 0 {
				b = append(b, ',')
			}
			b = inner(b, v.Index(i))
		}
		return append(b, ']')
	}
}

// part is a field of a struct: what stands before its value, and its encoder.
type part struct {
	before string
	index  int
	omit   bool // where it is empty
	encode encoder
}

func structEncoder(t reflect.Type, keys func(reflect.StructField) (string, bool)) encoder {
	var parts []part
	for i := range t.NumField() {
		f := t.Field(i)
		if key, ok := keys(f); ok {
			parts = append(parts, part{`"` + key + `":`, i, strings.HasSuffix(f.Tag.Get("json"), ",omitempty"), encoderOf(f.Type)})
		}
	}
	return func(b []byte, v reflect.Value) []byte {
		b = append(b, '{')
		first := true
		for i := range parts {
			p := &parts[i]
			field := v.Field(p.index)
			if p.omit && (field.IsZero() || field.Kind() == reflect.Slice && field.Len() == 0) {
				continue
			}
			if !first {
				b = append(b, ',')
			}
			first = false
			b = p.encode(append(b, p.before...), field)
		}
		return append(b, '}')
	}
}

// appendGiven writes what a pointer points to, or null.
func appendGiven[T any](b []byte, v *T, one func([]byte, T) []byte) []byte {
	if v == nil {
		return append(b, "null"...)
	}
	return one(b, *v)
}

func appendList[T any](b []byte, list []T, one func([]byte, T) []byte) []byte {
	b = append(b, '[')
	for i, v := range list {
		if i > 0 {
			b = append(b, ',')
		}
		b = one(b, v)
	}
	return append(b, ']')
}

func appendStructs[T any](b []byte, list []T, one func([]byte, *T) []byte) []byte {
	b = append(b, '[')
	for i := range list {
		if i > 0 {
			b = append(b, ',')
		}
		b = one(b, &list[i])
	}
	return append(b, ']')
}

// appendNumber writes a number as ECMAScript does, as encoding/json has it.
func appendNumber(b []byte, v float64) []byte {
	if short, ok := appendShort(b, v); ok {
		return short
	}
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return append(b, "null"...)
	}
	if size := math.Abs(v); size != 0 && (size < 1e-6 || size >= 1e21) {
		text, err := json.Marshal(v)
		if err != nil {
			return append(b, "null"...)
		}
		return append(b, text...)
	}
	return strconv.AppendFloat(b, v, 'f', -1, 64)
}

// appendShort writes a number of at most four decimals, as nearly all of an
// answer's are, from the whole number of its ten-thousandths. Below 1e9 no two
// of these share a float64, so it is the shortest text that reads as v.
func appendShort(b []byte, v float64) ([]byte, bool) {
	const perUnit, places = 10_000, 4
	whole := math.Round(v * perUnit)
	if !(math.Abs(v) < 1e9) || whole/perUnit != v || v == 0 && math.Signbit(v) {
		return b, false
	}
	n := int64(whole)
	if n < 0 {
		b, n = append(b, '-'), -n
	}
	b = strconv.AppendInt(b, n/perUnit, 10)
	rest := n % perUnit
	if rest == 0 {
		return b, true
	}
	b = append(b, '.')
	for range places {
		rest *= 10
		b = append(b, byte('0'+rest/perUnit))
		if rest %= perUnit; rest == 0 {
			break
		}
	}
	return b, true
}

// appendText writes a text between quotes; the few that need escapes are left
// to encoding/json.
func appendText(b []byte, text string) []byte {
	if special, wide := look(text); special || wide && escapedWide(text) {
		escaped, err := json.Marshal(text)
		if err != nil {
			return append(b, `""`...)
		}
		return append(b, escaped...)
	}
	b = append(b, '"')
	b = append(b, text...)
	return append(b, '"')
}

// escapedWide reports whether a text needs an escape for letters beyond ASCII:
// the two line ends of Unicode, and what is no UTF-8.
func escapedWide(text string) bool {
	return !utf8.ValidString(text) || strings.Contains(text, "\u2028") || strings.Contains(text, "\u2029")
}

// look says whether a text may need an escape for a byte of ASCII, and whether
// it has letters beyond. It takes eight bytes at a time; at the end, those
// before as well.
func look(text string) (special, wide bool) {
	if len(text) < 8 {
		w := ones * ' '
		for i := range len(text) {
			w = w<<8 | uint64(text[i])
		}
		return specials(w)&tops != 0, w&tops != 0
	}
	var found, high uint64
	for at := 0; at < len(text); at += 8 {
		t := text[min(at, len(text)-8):]
		w := uint64(t[0]) | uint64(t[1])<<8 | uint64(t[2])<<16 | uint64(t[3])<<24 |
			uint64(t[4])<<32 | uint64(t[5])<<40 | uint64(t[6])<<48 | uint64(t[7])<<56
		found |= specials(w)
		high |= w
	}
	return found&tops != 0, high&tops != 0
}

// Every byte of a word, and the top bit of each.
const (
	ones uint64 = 0x0101010101010101
	tops        = ones << 7
)

// specials sets the top bit of a byte of the word where one may need an escape,
// and perhaps of others; other bits mean nothing. Bytes that differ in some bits
// are looked for together: " and &, and <, > and \ with ^, | and ~. A byte less
// ' ', or less 1, borrows into its top bit where it is below that, and the byte
// itself has none (Warren, Hacker's Delight, 6-1, from memory).
func specials(w uint64) uint64 {
	q, l := w|ones*('"'^'&')^ones*'&', w&^(ones*(('<'^'>')|('<'^'\\')))^ones*('<'&'\\')
	return (w-ones*' ')&^w | (q-ones)&^q | (l-ones)&^l
}
