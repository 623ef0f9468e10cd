package document

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// builder puts the parser's expressions into tables by TOML's rules on what
// may be given twice.
type builder struct {
	src      *Source
	root     *Table
	current  *Table       // what key = value lines go into
	base     int          // offset that the parser's own offsets count from
	done     int          // offset just past the last key or value read
	spoilt   map[int]bool // lines with bytes that are not UTF-8
	scratch  []part
	problems Problems
}

func (b *builder) expression(n *unstable.Node) {
	switch n.Kind {
	case unstable.KeyValue:
		b.keyValue(b.current, n, true)
		b.done = b.base + int(n.Raw.Offset+n.Raw.Length)
	case unstable.Table, unstable.ArrayTable:
		b.header(n)
	}
}

// part is one part of a dotted key and where it stands.
type part struct {
	name    string
	at, end int
}

// parts gives the parts of a dotted key; the next call overwrites them.
func (b *builder) parts(n *unstable.Node) []part {
	parts := b.scratch[:0]
	for it := n.Key(); it.Next(); {
		k := it.Node()
		at := b.base + int(k.Raw.Offset)
		parts = append(parts, part{b.src.share(k.Data, at), at, at + int(k.Raw.Length)})
	}
	b.scratch = parts
	return parts
}

// header opens the table of a [header] or [[header]].
func (b *builder) header(n *unstable.Node) {
	parts := b.parts(n)
	last := parts[len(parts)-1]
	b.done = last.end
	b.current = &Table{src: b.src, at: last.at} // takes the keys of a header that has no place
	if len(parts) > mostDeep {
		b.tooDeep(last.at)
		return
	}
	at := bytes.LastIndexByte(b.src.text[:parts[0].at], '[')
	if n.Kind == unstable.ArrayTable {
		at--
	}
	b.current.at = at
	parent := b.root
	for _, p := range parts[:len(parts)-1] {
		if parent = b.through(parent, p, at); parent == nil {
			return
		}
	}
	if n.Kind == unstable.ArrayTable {
		b.openElement(parent, last, at)
	} else {
		b.openTable(parent, last, at)
	}
}

// through goes down one part of a header, making the table where it is absent.
func (b *builder) through(parent *Table, p part, at int) *Table {
	e := parent.find(p.name)
	if e == nil {
		return b.child(parent, p, at, implied)
	}
	v := &e.value
	if v.headers() {
		return v.list.last()
	}
	if v.kind != tableKind || v.table.form == inline {
		b.twice(at, p.name, e)
		return nil
	}
	return v.table
}

// child adds a new table under a key.
func (b *builder) child(parent *Table, p part, at int, f form) *Table {
	t := &Table{src: b.src, at: at, form: f, path: append(slices.Clone(parent.path), p.name)}
	parent.add(entry{name: p.name, keyAt: p.at, value: value{kind: tableKind, at: at, table: t}})
	return t
}

func (b *builder) openTable(parent *Table, last part, at int) {
	e := parent.find(last.name)
	if e == nil {
		b.current = b.child(parent, last, at, headed)
		return
	}
	if t := e.value.table; t != nil && t.form == implied {
		t.form, t.at, e.value.at, e.keyAt = headed, at, at, last.at
		b.current = t
		return
	}
	b.twice(at, last.name, e)
}

func (b *builder) openElement(parent *Table, last part, at int) {
	e := parent.find(last.name)
	if e == nil {
		parent.add(entry{name: last.name, keyAt: last.at, value: value{kind: arrayKind, at: at, list: &list{headers: true}}})
		e = parent.find(last.name)
	}
	if !e.value.headers() {
		b.twice(at, last.name, e)
		return
	}
	t := &Table{src: b.src, at: at, form: element, path: append(slices.Clone(parent.path), last.name)}
	e.value.list.items = append(e.value.list.items, value{kind: tableKind, at: at, table: t})
	b.current = t
}

// keyValue adds one key = value line, or one pair of an inline table.
func (b *builder) keyValue(t *Table, n *unstable.Node, line bool) {
	parts := b.parts(n)
	last := parts[len(parts)-1]
	if line {
		b.done = last.end
	}
	if len(t.path)+len(parts) > mostDeep {
		b.tooDeep(last.at)
		return
	}
	for _, p := range parts[:len(parts)-1] {
		e := t.find(p.name)
		if e != nil && (e.value.table == nil || e.value.table.form != dotted) {
			b.twice(p.at, p.name, e)
			return
		}
		if e == nil {
			t = b.child(t, p, p.at, dotted)
		} else {
			t = e.value.table
		}
	}
	if e := t.find(last.name); e != nil {
		b.twice(last.at, last.name, e)
		return
	}
	v := b.value(n.Value(), b.valueStart(last.end), t, last.name, inline)
	t.add(entry{name: last.name, keyAt: last.at, value: v})
}

// valueStart gives the offset of the value after a key that ends at an offset.
func (b *builder) valueStart(i int) int {
	for i < len(b.src.text) && strings.IndexByte(" \t=", b.src.text[i]) >= 0 {
		i++
	}
	return i
}

// value reads the node of a table's key; the offset is used where the parser
// keeps none.
func (b *builder) value(n *unstable.Node, at int, in *Table, key string, f form) value {
	switch n.Kind {
	case unstable.Array:
		l := &list{}
		for it := n.Children(); it.Next(); {
			l.items = append(l.items, b.value(it.Node(), at, in, key, element))
		}
		return value{kind: arrayKind, at: at, list: l}
	case unstable.InlineTable:
		t := &Table{src: b.src, at: b.base + int(n.Raw.Offset), path: append(slices.Clone(in.path), key), form: f}
		for it := n.Children(); it.Next(); {
			b.keyValue(t, it.Node(), false)
		}
		return value{kind: tableKind, at: t.at, table: t}
	}
	at = b.base + int(n.Raw.Offset)
	v, err := scalar(n, b.src.share(n.Data, at))
	v.at = at
	if err != nil {
		b.report(b.src.Problem(b.src.Place(v.at),
			err.Error(), "write a value that exists"))
	}
	return v
}

// twice reports a key or table that an earlier one rules out.
func (b *builder) twice(at int, name string, first *entry) {
	line := b.src.Place(first.value.at).Line
	b.report(b.src.Problem(b.src.Place(at),
		fmt.Sprintf("%s is given twice", Quote(name)), fmt.Sprintf("it already stands in line %d: keep one", line)))
}
