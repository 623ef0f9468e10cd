package web

import (
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

// keyed gives the key that a field has in its file, and whether it has one.
func keyed(f reflect.StructField) (key string, ok bool) {
	key, _, _ = strings.Cut(f.Tag.Get("toml"), ",")
	if f.Name == "Defaulted" {
		return "defaulted", true
	}
	return key, key != "" && key != "-"
}
