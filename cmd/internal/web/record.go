package web

import (
	"bytes"
	"encoding/json"
	"reflect"
	"strings"
)

// Record is a record of the knowledge, written in JSON by the keys of its
// file. Keys that a maker left unsaid are null; "defaulted" lists those that
// were filled in.
type Record[T any] struct{ value T }

func records[T any](list []T) []Record[T] {
	out := make([]Record[T], len(list))
	for i := range list {
		out[i] = Record[T]{list[i]}
	}
	return out
}

// MarshalJSON writes the record.
func (r Record[T]) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	err := writeRecord(&b, reflect.ValueOf(r.value))
	return b.Bytes(), err
}

// keyed gives the key that a field has in its file, and whether it has one.
func keyed(f reflect.StructField) (key string, ok bool) {
	key, _, _ = strings.Cut(f.Tag.Get("toml"), ",")
	if f.Name == "Defaulted" {
		return "defaulted", true
	}
	return key, key != "" && key != "-"
}

func writeRecord(b *bytes.Buffer, v reflect.Value) error {
	switch v.Kind() {
	case reflect.Struct:
		return writeFields(b, v)
	case reflect.Pointer:
		if v.IsNil() {
			b.WriteString("null")
			return nil
		}
		return writeRecord(b, v.Elem())
	case reflect.Slice:
		b.WriteByte('[')
		for i := range v.Len() {
			if i > 0 {
				b.WriteByte(',')
			}
			if err := writeRecord(b, v.Index(i)); err != nil {
				return err
			}
		}
		b.WriteByte(']')
		return nil
	}
	text, err := json.Marshal(v.Interface())
	b.Write(text)
	return err
}

func writeFields(b *bytes.Buffer, v reflect.Value) error {
	separator := byte('{')
	for i := range v.NumField() {
		key, ok := keyed(v.Type().Field(i))
		if !ok {
			continue
		}
		b.WriteByte(separator)
		b.WriteString(`"` + key + `":`)
		if err := writeRecord(b, v.Field(i)); err != nil {
			return err
		}
		separator = ','
	}
	b.WriteByte('}')
	return nil
}
