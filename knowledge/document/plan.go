package document

import (
	"go/token"
	"reflect"
	"strconv"
	"strings"
	"sync"
)

// plan is how a struct is filled.
type plan struct {
	fields        []field
	keys          []string
	byKey         map[string]int
	at, defaulted int // field indexes, -1 for none
}

// field is how one field is filled.
type field struct {
	key        string
	index      int
	kind       fieldKind
	pointer    bool
	list       bool // a slice of records
	record     reflect.Type
	need       bool
	date       bool
	formula    bool // a Text that may be written as a bare number
	oneof      []string
	standard   float64
	hasDefault bool
}

type fieldKind uint8

const (
	unfitField fieldKind = iota
	textField
	boolField
	wholeField
	numberField
	textsField
	recordField
)

var (
	placeType = reflect.TypeFor[token.Position]()
	textType  = reflect.TypeFor[Text]()
	textsType = reflect.TypeFor[[]string]()
)

// plans holds the plans made so far. A type never changes, so neither does its
// plan.
var plans sync.Map // of *plan by reflect.Type

// planOf gives the plan of a struct type.
func planOf(record reflect.Type) *plan {
	if p, ok := plans.Load(record); ok {
		return p.(*plan)
	}
	p, _ := plans.LoadOrStore(record, newPlan(record))
	return p.(*plan)
}

func newPlan(record reflect.Type) *plan {
	p := &plan{byKey: make(map[string]int, record.NumField()), at: -1, defaulted: -1}
	for i := range record.NumField() {
		sf := record.Field(i)
		key := sf.Tag.Get("toml")
		switch {
		case sf.Name == "At" && sf.Type == placeType:
			p.at = i
		case sf.Name == "Defaulted" && sf.Type == textsType:
			p.defaulted = i
		case key != "" && key != "-":
			p.byKey[key] = len(p.fields)
			p.keys = append(p.keys, key)
			p.fields = append(p.fields, newField(key, i, &sf))
		}
	}
	return p
}

func newField(key string, index int, sf *reflect.StructField) field {
	f := field{key: key, index: index, need: sf.Tag.Get("need") == "yes"}
	f.date, f.formula = sf.Tag.Get("kind") == "date", sf.Tag.Get("kind") == "formula"
	f.sort(sf.Type)
	if words := sf.Tag.Get("oneof"); words != "" {
		f.oneof = strings.Split(words, "|")
	}
	if number, err := strconv.ParseFloat(sf.Tag.Get("default"), 64); err == nil {
		f.standard, f.hasDefault = number, true
	}
	return f
}

// sort finds out what the field's type takes.
func (f *field) sort(t reflect.Type) {
	if t.Kind() == reflect.Pointer {
		f.pointer = true
		t = t.Elem()
	}
	switch {
	case t == textType || t.Kind() == reflect.String:
		f.kind = textField
	case t == textsType:
		f.kind = textsField
	case t.Kind() == reflect.Bool:
		f.kind = boolField
	case t.Kind() == reflect.Int:
		f.kind = wholeField
	case t.Kind() == reflect.Float64:
		f.kind = numberField
	case t.Kind() == reflect.Struct:
		f.kind, f.record = recordField, t
	case t.Kind() == reflect.Slice && t.Elem().Kind() == reflect.Struct:
		f.kind, f.record, f.list = recordField, t.Elem(), true
	}
}

// setNumber stores a number in an int, float64 or *float64 field.
func setNumber(into reflect.Value, n float64) {
	if into.Kind() == reflect.Pointer {
		into.Set(reflect.New(into.Type().Elem()))
		into = into.Elem()
	}
	if into.Kind() == reflect.Int {
		into.SetInt(int64(n))
		return
	}
	into.SetFloat(n)
}
