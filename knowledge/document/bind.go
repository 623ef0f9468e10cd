package document

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"time"

	"hotroom/knowledge/nearest"
)

// bind stores a value in the field it is for, or reports why it does not fit.
func (d *decoder) bind(t *Table, f *field, v *value, into reflect.Value, list defaulted) {
	if v.kind == badKind {
		return
	}
	switch f.kind {
	case textField:
		d.bindText(t, f, v, into)
	case boolField:
		d.bindBool(t, f, v, into)
	case wholeField, numberField:
		d.bindNumber(t, f, v, into)
	case textsField:
		d.bindTexts(t, f, v, into)
	case recordField:
		if f.list {
			d.bindRecords(t, f, v, into, list)
		} else {
			d.bindRecord(t, f, v, into, list)
		}
	default:
		d.misfit(t, v, f.key+" is of a kind that the program cannot read", "report this")
	}
}

func (d *decoder) misfit(t *Table, v *value, what, mend string) {
	d.report(t, t.src.Place(v.at), what, mend)
}

func (d *decoder) bindText(t *Table, f *field, v *value, into reflect.Value) {
	if f.date {
		d.bindDate(t, f, v, into)
		return
	}
	if f.formula && (v.kind == intKind || v.kind == floatKind) {
		into.Set(reflect.ValueOf(t.text(v)))
		return
	}
	if v.kind != stringKind {
		d.misfit(t, v, f.key+" is "+v.String(), "give a text between quotes")
		return
	}
	if f.oneof != nil && !slices.Contains(f.oneof, v.text) {
		d.misfit(t, v, f.key+" is "+Quote(v.text), oneOf(v.text, f.oneof))
		return
	}
	if f.need && strings.TrimSpace(v.text) == "" {
		d.misfit(t, v, f.key+" is empty", "write something between the quotes")
		return
	}
	if into.Type() == textType {
		into.Set(reflect.ValueOf(t.text(v)))
		return
	}
	if len(v.text) > mostText {
		d.misfit(t, v, fmt.Sprintf("%s has %d bytes, and %d are allowed", f.key, len(v.text), mostText), "shorten it")
		return
	}
	if f.pointer {
		into.Set(reflect.New(into.Type().Elem()))
		into = into.Elem()
	}
	into.SetString(v.text)
}

// oneOf says which texts are allowed and which may have been meant.
func oneOf(given string, allowed []string) string {
	if best, ok := nearest.Word(given, allowed); ok {
		return "did you mean " + Quote(best) + "? (" + choices(allowed) + ")"
	}
	return "give one of " + choices(allowed)
}

func choices(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

func (d *decoder) bindDate(t *Table, f *field, v *value, into reflect.Value) {
	const mend = "give a date of the calendar as YYYY-MM-DD"
	switch v.kind {
	case dateKind:
		into.SetString(v.text)
	case stringKind:
		if _, err := time.Parse(time.DateOnly, v.text); err != nil {
			d.misfit(t, v, f.key+" is "+Quote(v.text), mend)
			return
		}
		into.SetString(v.text)
	default:
		d.misfit(t, v, f.key+" is "+v.String(), mend)
	}
}

func (d *decoder) bindBool(t *Table, f *field, v *value, into reflect.Value) {
	if v.kind != boolKind {
		d.misfit(t, v, f.key+" is "+v.String(), "write true or false, without quotes")
		return
	}
	if f.pointer {
		into.Set(reflect.New(into.Type().Elem()))
		into = into.Elem()
	}
	into.SetBool(v.text == "true")
}

func (d *decoder) bindNumber(t *Table, f *field, v *value, into reflect.Value) {
	switch {
	case v.kind == stringKind:
		d.misfit(t, v, f.key+" is "+v.String(), "give a number without quotes or unit")
	case v.kind != intKind && v.kind != floatKind:
		d.misfit(t, v, f.key+" is "+v.String(), "give a number")
	case math.IsNaN(v.number) || math.IsInf(v.number, 0):
		d.misfit(t, v, f.key+" is "+v.text, "give a finite number")
	case f.kind == wholeField && (v.number != math.Trunc(v.number) || math.Abs(v.number) > 1<<53):
		d.misfit(t, v, f.key+" is "+v.text, "give a whole number")
	default:
		setNumber(into, v.number)
	}
}

func (d *decoder) bindTexts(t *Table, f *field, v *value, into reflect.Value) {
	if v.kind != arrayKind {
		d.misfit(t, v, f.key+" is "+v.String(), `give a list of texts, ["…"]`)
		return
	}
	texts := make([]string, 0, len(v.list.items))
	for i := range v.list.items {
		item := &v.list.items[i]
		if item.kind != stringKind {
			d.misfit(t, item, f.key+" holds "+item.String(), "give texts between quotes")
			continue
		}
		texts = append(texts, item.text)
	}
	into.Set(reflect.ValueOf(texts))
}

func (d *decoder) bindRecord(t *Table, f *field, v *value, into reflect.Value, list defaulted) {
	if v.kind != tableKind {
		d.misfit(t, v, f.key+" is "+v.String(), "write its keys under "+t.below(f))
		return
	}
	if f.pointer {
		into.Set(reflect.New(f.record))
		into = into.Elem()
	}
	d.table(v.table, into, list.under(f.key))
}

func (d *decoder) bindRecords(t *Table, f *field, v *value, into reflect.Value, list defaulted) {
	if v.kind != arrayKind {
		d.misfit(t, v, f.key+" is "+v.String(), "start each one with "+t.below(f))
		return
	}
	records := reflect.MakeSlice(into.Type(), 0, len(v.list.items))
	for i := range v.list.items {
		item := &v.list.items[i]
		if item.kind != tableKind {
			d.misfit(t, item, f.key+" holds "+item.String(), "start each one with "+t.below(f))
			continue
		}
		records = reflect.Append(records, reflect.Zero(f.record))
		d.table(item.table, records.Index(records.Len()-1), list.under(f.key))
	}
	into.Set(records)
}
