package knowledge

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"hotroom/knowledge/document"
)

// span is the range that a number must lie in, from a field's range tag:
// "[0,1]" with both ends, "(0,1]" without the lower one. The upper ends are
// generous; they catch a wrong unit, not an unusual part.
type span struct {
	low, high float64
	above     bool // the lower end itself is not allowed
}

// parseSpan reads a range tag; false where there is none.
func parseSpan(tag string) (span, bool) {
	low, high, ok := strings.Cut(strings.Trim(tag, "([]"), ",")
	if !ok {
		return span{}, false
	}
	s := span{above: tag[0] == '('}
	s.low, _ = strconv.ParseFloat(low, 64)
	s.high, _ = strconv.ParseFloat(high, 64)
	return s, true
}

func (s span) holds(n float64) bool {
	return n <= s.high && (n > s.low || n == s.low && !s.above)
}

// String says what the range allows.
func (s span) String() string {
	if s.above {
		return fmt.Sprintf("give more than %s and at most %s", number(s.low), number(s.high))
	}
	return fmt.Sprintf("give %s to %s", number(s.low), number(s.high))
}

func number(n float64) string { return strconv.FormatFloat(n, 'f', -1, 64) }

// numbers lists the numeric keys of a record type and their ranges.
type numbers []numeric

type numeric struct {
	index []int    // field index, for reflect's FieldByIndex
	path  []string // key path in the record
	span  span
}

// numbersOf gathers the numeric fields of a struct, tables below it included;
// a list of tables is left to its own elements.
func numbersOf(t reflect.Type, index []int, path []string) numbers {
	var list numbers
	for i := range t.NumField() {
		f := t.Field(i)
		key := f.Tag.Get("toml")
		if key == "" || key == "-" {
			continue
		}
		at, keys := append(index[:len(index):len(index)], i), append(path[:len(path):len(path)], key)
		ft := f.Type
		if ft.Kind() == reflect.Pointer {
			ft = ft.Elem()
		}
		if ft.Kind() == reflect.Struct {
			list = append(list, numbersOf(ft, at, keys)...)
		} else if s, ok := parseSpan(f.Tag.Get("range")); ok {
			list = append(list, numeric{at, keys, s})
		}
	}
	return list
}

// check reports each number of a record that is out of its range.
func (ns numbers) check(t *document.Table, record reflect.Value, r *report) {
	for _, n := range ns {
		if !t.Has(n.path...) {
			continue
		}
		v, err := record.FieldByIndexErr(n.index)
		if err != nil {
			continue
		}
		if v.Kind() == reflect.Pointer {
			v = v.Elem()
		}
		if !v.IsValid() {
			continue
		}
		given := v.Convert(reflect.TypeFor[float64]()).Float()
		if !n.span.holds(given) {
			r.at(t, n.path, fmt.Sprintf("%s is %s", n.path[len(n.path)-1], number(given)), n.mend(given))
		}
	}
}

// mend says what the range allows and, where a bound has a reason, the reason.
func (n *numeric) mend(given float64) string {
	if n.path[len(n.path)-1] == "hot_spot_c" && given < n.span.low {
		return n.span.String() + "; a hot spot is never below the room"
	}
	return n.span.String()
}

// keys gives the dotted names of the numbers.
func (ns numbers) keys() []string {
	names := make([]string, len(ns))
	for i, n := range ns {
		names[i] = strings.Join(n.path, ".")
	}
	return names
}
