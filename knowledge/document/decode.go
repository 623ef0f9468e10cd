package document

import (
	"fmt"
	"go/token"
	"reflect"
	"strings"

	"hotroom/knowledge/nearest"
)

// Decode fills a struct from the table by its fields' tags:
//
//	toml:"key"        the key; fields without one, or with "-", are left alone
//	need:"yes"        the key must be given
//	oneof:"a|b|c"     the only texts allowed
//	default:"0.25"    the number where the key is absent
//	kind:"date"       a text field that takes a date and keeps YYYY-MM-DD
//	kind:"formula"    a Text field that takes a bare number too
//
// Fields are string, Text, bool, int, float64, *float64, []string, structs,
// pointers to structs and slices of structs. A field At token.Position is set
// to where the table starts; a field Defaulted []string lists the keys below
// it, dotted, that took their default. All unknown keys, wrong types, missing
// keys and texts outside the set are reported, each at its place.
func (t *Table) Decode(into any) Problems {
	v := reflect.ValueOf(into)
	if v.Kind() != reflect.Pointer || v.IsNil() || v.Elem().Kind() != reflect.Struct {
		return Problems{t.Problem(t.At(), fmt.Sprintf("the program cannot read a table into %T", into), "report this")}
	}
	d := &decoder{}
	d.table(t, v.Elem(), defaulted{})
	d.problems.Sort()
	return d.problems
}

type decoder struct {
	problems Problems
}

// defaulted is where keys that took a default are listed, and the path from
// the struct that lists them.
type defaulted struct {
	list   *[]string
	prefix string
}

func (d defaulted) note(key string) {
	if d.list != nil {
		*d.list = append(*d.list, d.prefix+key)
	}
}

func (d defaulted) under(key string) defaulted {
	return defaulted{d.list, d.prefix + key + "."}
}

func (d *decoder) report(t *Table, at token.Position, what, mend string) {
	d.problems = d.problems.With(t.Problem(at, what, mend))
}

// table fills a struct from a table.
func (d *decoder) table(t *Table, into reflect.Value, list defaulted) {
	p := planOf(into.Type())
	if p.at >= 0 {
		into.Field(p.at).Set(reflect.ValueOf(t.At()))
	}
	if p.defaulted >= 0 {
		if own, ok := into.Field(p.defaulted).Addr().Interface().(*[]string); ok {
			list = defaulted{list: own}
		}
	}
	misspelt := d.unknown(t, p)
	for i := range p.fields {
		f := &p.fields[i]
		e := t.find(f.key)
		if e == nil && f.need && misspelt[f.key] {
			continue
		}
		if e == nil {
			d.absent(t, f, into.Field(f.index), list)
			continue
		}
		d.bind(t, f, &e.value, into.Field(f.index), list)
	}
}

// unknown reports the keys that the struct has no field for, and gives those
// that they seem to have been meant for.
func (d *decoder) unknown(t *Table, p *plan) (misspelt map[string]bool) {
	for i := range t.keys {
		name := t.keys[i].name
		if _, known := p.byKey[name]; known || d.problems.Full() {
			continue
		}
		mend := d.elsewhere(t, p, name)
		if best, near := nearest.Word(name, p.keys); mend == "" && near {
			mend = "did you mean " + Quote(best) + "?"
			if misspelt == nil {
				misspelt = make(map[string]bool)
			}
			misspelt[best] = true
		}
		if mend == "" {
			mend = t.heading() + " may have " + strings.Join(p.keys, ", ")
		}
		d.report(t, t.src.Place(t.keys[i].keyAt), "unknown key "+Quote(name), mend)
	}
	return misspelt
}

// elsewhere says where an unknown key belongs when a table below has it.
func (d *decoder) elsewhere(t *Table, p *plan, name string) string {
	for i := range p.fields {
		f := &p.fields[i]
		if f.record == nil {
			continue
		}
		if _, ok := planOf(f.record).byKey[name]; ok {
			return "move it under " + t.below(f)
		}
	}
	return ""
}

// below names the table that a field is read from.
func (t *Table) below(f *field) string {
	name := strings.Join(append(t.path[:len(t.path):len(t.path)], f.key), ".")
	if f.list {
		return "[[" + name + "]]"
	}
	return "[" + name + "]"
}

// absent fills the default of a key that is not given, or reports it.
func (d *decoder) absent(t *Table, f *field, into reflect.Value, list defaulted) {
	switch {
	case f.need:
		if !t.broken {
			d.report(t, t.At(), t.heading()+" has no "+f.key, t.remedy(f))
		}
	case f.hasDefault:
		setNumber(into, f.standard)
		list.note(f.key)
	case f.kind == recordField && !f.list && !f.pointer:
		d.defaults(f.record, into, list.under(f.key))
	}
}

// remedy says how to give a missing key.
func (t *Table) remedy(f *field) string {
	switch {
	case f.kind == recordField && f.list:
		return "add one or more " + t.below(f)
	case f.kind == recordField:
		return "add " + t.below(f)
	case f.oneof != nil:
		return "add " + f.key + " = one of " + choices(f.oneof)
	case f.kind == textField:
		return "add " + f.key + ` = "…"`
	case f.kind == textsField:
		return "add " + f.key + ` = ["…"]`
	case f.kind == boolField:
		return "add " + f.key + " = true or false"
	}
	return "add " + f.key + " = a number"
}

// defaults fills the defaults of a struct whose table is not given.
func (d *decoder) defaults(record reflect.Type, into reflect.Value, list defaulted) {
	p := planOf(record)
	for i := range p.fields {
		f := &p.fields[i]
		switch {
		case f.hasDefault:
			setNumber(into.Field(f.index), f.standard)
			list.note(f.key)
		case f.kind == recordField && !f.list && !f.pointer:
			d.defaults(f.record, into.Field(f.index), list.under(f.key))
		}
	}
}
