package web

import (
	"cmp"
	"reflect"
	"strings"

	"hotroom/advisor"
	"hotroom/knowledge"
)

// forms makes JSON schemas out of the types that are sent, so that they cannot
// say anything else.
type forms struct{ schemas object }

func newForms() *forms { return &forms{schemas: object{}} }

// of gives the schema of a type; structs are named and referred to.
func (f *forms) of(t reflect.Type) object {
	switch t {
	case reflect.TypeFor[answers]():
		one := f.of(reflect.TypeFor[advisor.Advice]())
		either := object{"oneOf": []object{one, f.of(reflect.TypeFor[Problem]())}}
		return object{"oneOf": []object{one, {"type": "array", "items": either}}}
	case reflect.TypeFor[text]():
		return object{} // whatever its media type says
	}
	switch t.Kind() {
	case reflect.Struct:
		return f.named(t)
	case reflect.Pointer:
		inner := f.of(t.Elem())
		if name, ok := inner["type"].(string); ok {
			return object{"type": []string{name, "null"}}
		}
		return object{"oneOf": []object{inner, {"type": "null"}}}
	case reflect.Slice:
		return object{"type": "array", "items": f.of(t.Elem())}
	case reflect.Bool:
		return object{"type": "boolean"}
	case reflect.Int:
		return object{"type": "integer"}
	case reflect.Float64:
		return object{"type": "number"}
	}
	return object{"type": "string"}
}

func (f *forms) named(t reflect.Type) object {
	keys := keysOf(t)
	if held, ok := recorded(t); ok {
		t, keys = held, keyed
	}
	name := nameOf(t)
	if _, done := f.schemas[name]; !done {
		f.schemas[name] = object{} // for types that hold themselves
		f.schemas[name] = f.fields(t, keys)
	}
	return object{"$ref": "#/components/schemas/" + name}
}

// knowledgePath is where the records live that are written by the keys of
// their files.
var knowledgePath = reflect.TypeFor[knowledge.Board]().PkgPath()

// recorded gives the type that a Record holds.
func recorded(t reflect.Type) (reflect.Type, bool) {
	if !strings.HasPrefix(t.Name(), "Record[") {
		return nil, false
	}
	return t.Field(0).Type, true
}

// keysOf gives how the fields of a struct are called.
func keysOf(t reflect.Type) func(reflect.StructField) (key string, ok bool) {
	if t.PkgPath() == knowledgePath {
		return keyed
	}
	return jsonKey
}

func jsonKey(f reflect.StructField) (key string, ok bool) {
	key, _, _ = strings.Cut(f.Tag.Get("json"), ",")
	return cmp.Or(key, f.Name), key != "-" && f.IsExported()
}

func (f *forms) fields(t reflect.Type, keys func(reflect.StructField) (string, bool)) object {
	properties, required := object{}, []string{}
	for i := range t.NumField() {
		field := t.Field(i)
		key, ok := keys(field)
		if !ok {
			continue
		}
		schema := f.of(field.Type)
		if words := wordsOf(key, field.Type); words != nil {
			schema = object{"type": "string", "enum": words}
		}
		properties[key] = schema
		if !strings.Contains(field.Tag.Get("json"), "omitempty") {
			required = append(required, key)
		}
	}
	return object{"type": "object", "properties": properties, "required": required}
}

// wordsOf lists the words that a key's text is one of.
func wordsOf(key string, t reflect.Type) []string {
	switch {
	case t.Kind() != reflect.String:
		return nil
	case key == "verdict":
		return []string{advisor.Yes, advisor.WithCare, advisor.No, advisor.Unknown}
	case key == "evidence":
		return []string{advisor.Measured, advisor.Projected, advisor.Estimated}
	case key == "limited_by":
		return []string{"chip", "power", "current", "temperature"}
	}
	return nil
}

// nameOf names a type's schema. Types of other packages than the advisor's and
// ours carry the package's name, since several have rows.
func nameOf(t reflect.Type) string {
	name := t.Name()
	if of, inside, generic := strings.Cut(strings.TrimSuffix(name, "]"), "["); generic {
		inside = strings.TrimSuffix(inside, "]")
		return of + "Of" + inside[strings.LastIndexAny(inside, "./")+1:]
	}
	path := t.PkgPath()
	switch pkg := path[strings.LastIndexByte(path, '/')+1:]; pkg {
	case "advisor", "web", strings.ToLower(name):
		return name
	default:
		return strings.ToUpper(pkg[:1]) + pkg[1:] + name
	}
}
