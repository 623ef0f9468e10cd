package facts

import (
	"math"
	"reflect"
)

// Fact describes one leaf of Facts and reads it out of any Facts.
type Fact struct {
	Name    string // as rules write it: "margin.kept_c"
	Type    Type
	Unit    string // "K", "°C", "word", "yes/no" …
	Meaning string

	index []int // where it stands in Facts
}

// Type is the type of a fact.
type Type string

// The types of facts.
const (
	Number Type = "number"
	Word   Type = "word"
	YesNo  Type = "yes/no"
)

// List gives every fact in the order of the struct. It is worked out anew at
// each call; keep the result where it is needed often.
func List() []Fact {
	var all []Fact
	groups := reflect.TypeFor[Facts]()
	for g := range groups.NumField() {
		group := groups.Field(g)
		for i := range group.Type.NumField() {
			all = append(all, leaf(group, group.Type.Field(i)))
		}
	}
	return all
}

func leaf(group, field reflect.StructField) Fact {
	return Fact{
		Name:    group.Tag.Get("expr") + "." + field.Tag.Get("expr"),
		Type:    typeOf(field.Type),
		Unit:    field.Tag.Get("unit"),
		Meaning: field.Tag.Get("doc"),
		index:   []int{group.Index[0], field.Index[0]},
	}
}

func typeOf(t reflect.Type) Type {
	switch t.Kind() {
	case reflect.Float64:
		return Number
	case reflect.Bool:
		return YesNo
	default:
		return Word
	}
}

func (f Fact) field(from *Facts) reflect.Value {
	return reflect.ValueOf(from).Elem().Field(f.index[0]).Field(f.index[1])
}

// Number reads a number in the fact's unit; NaN when it is unknown.
func (f Fact) Number(from *Facts) float64 { return f.field(from).Float() }

// Word reads a word; empty where there is nothing to say.
func (f Fact) Word(from *Facts) string { return f.field(from).String() }

// YesNo reads a yes or no.
func (f Fact) YesNo(from *Facts) bool { return f.field(from).Bool() }

// Value reads the fact as a float64, a string or a bool.
func (f Fact) Value(from *Facts) any { return f.field(from).Interface() }

// Unknown reports whether the fact is a number that nobody knows.
func (f Fact) Unknown(from *Facts) bool {
	return f.Type == Number && math.IsNaN(f.Number(from))
}

// Set writes a float64, a string or a bool into the facts, and reports
// whether the value is of the fact's type.
func (f Fact) Set(into *Facts, value any) bool {
	given := reflect.ValueOf(value)
	field := f.field(into)
	if !given.IsValid() || given.Type() != field.Type() {
		return false
	}
	field.Set(given)
	return true
}
