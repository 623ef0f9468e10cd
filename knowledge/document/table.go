package document

import (
	"go/token"
	"strings"
)

// Table is one TOML table: the file itself, a [table], one element of a
// [[table]], an inline table, or a table made by a dotted key.
type Table struct {
	src    *Source
	at     int      // offset where the table starts
	path   []string // its dotted name in the file
	form   form
	broken bool // a syntax error hides some of its keys
	keys   []entry
	index  map[string]int // made once there are many keys
}

// form says how a table came to be, which decides whether it may grow.
type form uint8

const (
	implied form = iota // on the way to a longer header
	headed              // by its own [header]
	element             // by a [[header]], or inside an array
	dotted              // by a dotted key
	inline              // by { … }
)

type entry struct {
	name  string
	keyAt int // offset of the key
	value value
}

// usualKeys is room for the keys of most tables.
const usualKeys = 6

// manyKeys is where a map beats looking through the keys one by one.
const manyKeys = 24

// find gives the entry of a key, or nil; it is valid until a key is added.
func (t *Table) find(name string) *entry {
	if t.index != nil {
		if i, ok := t.index[name]; ok {
			return &t.keys[i]
		}
		return nil
	}
	for i := range t.keys {
		if t.keys[i].name == name {
			return &t.keys[i]
		}
	}
	return nil
}

func (t *Table) add(e entry) {
	if t.keys == nil {
		t.keys = make([]entry, 0, usualKeys)
	}
	t.keys = append(t.keys, e)
	switch {
	case t.index != nil:
		t.index[e.name] = len(t.keys) - 1
	case len(t.keys) == manyKeys:
		t.index = make(map[string]int, 2*manyKeys)
		for i := range t.keys {
			t.index[t.keys[i].name] = i
		}
	}
}

// walk follows a key path through tables. It gives the last table reached and
// the entry of the whole path, nil where it is absent.
func (t *Table) walk(path []string) (*Table, *entry) {
	for i, name := range path {
		e := t.find(name)
		if e == nil {
			return t, nil
		}
		if i == len(path)-1 {
			return t, e
		}
		if e.value.table == nil {
			return t, nil
		}
		t = e.value.table
	}
	return t, nil
}

// At gives the place of the value at a key path: of a table or an array of
// tables its header. Where the value is absent it is the start of the last
// table on the way, and with no path the start of this table.
func (t *Table) At(path ...string) token.Position {
	last, e := t.walk(path)
	if e == nil {
		return t.src.Place(last.at)
	}
	return t.src.Place(e.value.at)
}

// KeyAt gives the place of the key itself, or what At gives where it is absent.
func (t *Table) KeyAt(path ...string) token.Position {
	if _, e := t.walk(path); e != nil {
		return t.src.Place(e.keyAt)
	}
	return t.At(path...)
}

// Has reports whether there is a value at a key path.
func (t *Table) Has(path ...string) bool {
	_, e := t.walk(path)
	return e != nil
}

// Keys gives the table's own keys in the order of the file.
func (t *Table) Keys() []string {
	names := make([]string, len(t.keys))
	for i := range t.keys {
		names[i] = t.keys[i].name
	}
	return names
}

// Tables gives the elements of an array of tables, or of an array of inline
// tables, in order; nil where the key is absent or holds something else.
func (t *Table) Tables(key string) []*Table {
	e := t.find(key)
	if e == nil || e.value.kind != arrayKind {
		return nil
	}
	tables := make([]*Table, 0, len(e.value.list.items))
	for _, v := range e.value.list.items {
		if v.kind == tableKind {
			tables = append(tables, v.table)
		}
	}
	return tables
}

// Text gives a string value with the places of its bytes, and whether the key
// holds a string.
func (t *Table) Text(key string) (Text, bool) {
	e := t.find(key)
	if e == nil || e.value.kind != stringKind {
		return Text{}, false
	}
	return t.text(&e.value), true
}

// Truth reports whether a key holds true.
func (t *Table) Truth(key string) bool {
	e := t.find(key)
	return e != nil && e.value.kind == boolKind && e.value.text == "true"
}

// Texts gives the strings of an array with the places of their bytes.
func (t *Table) Texts(key string) []Text {
	e := t.find(key)
	if e == nil || e.value.kind != arrayKind {
		return nil
	}
	var texts []Text
	for i := range e.value.list.items {
		if v := &e.value.list.items[i]; v.kind == stringKind {
			texts = append(texts, t.text(v))
		}
	}
	return texts
}

func (t *Table) text(v *value) Text {
	return Text{src: t.src, from: v.at, value: v.text}
}

// Problem makes a problem that shows the file's line at the place.
func (t *Table) Problem(at token.Position, what, mend string) Problem {
	return t.src.Problem(at, what, mend)
}

// heading names the table as a person would write it.
func (t *Table) heading() string {
	name := strings.Join(t.path, ".")
	switch {
	case name == "":
		return "the file"
	case t.form == element:
		return "[[" + name + "]]"
	}
	return "[" + name + "]"
}
