package web

import (
	"encoding/json"
	"flag"
	"fmt"
	"go/format"
	"os"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor"
)

var update = flag.Bool("update", false, "write encode_advice.go from the struct")

// What writes an answer is written from the struct, field by field: an answer
// is what is sent most, and needs no reflection.
func TestAdviceIsWrittenFromTheStruct(t *testing.T) {
	want, err := format.Source([]byte(adviceEncoder()))
	if err != nil {
		t.Fatal(err)
	}
	if *update {
		if err := os.WriteFile("encode_advice.go", want, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile("encode_advice.go")
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != string(want) {
		t.Error("encode_advice.go is behind the struct: run go generate here")
	}
}

func adviceEncoder() string {
	w := &encoderWriter{}
	w.structure(reflect.TypeFor[advisor.Advice]())
	return "// Code generated from the struct advisor.Advice by encode_advice_test.go; DO NOT EDIT.\n\npackage web\n\n" +
		"//go:generate go test -run TestAdviceIsWrittenFromTheStruct -update .\n\n" +
		"import (\n\t\"strconv\"\n\n\t\"hotroom/advisor\"\n)\n" + strings.Join(w.functions, "")
}

// encoderWriter writes one function for each struct that it meets.
type encoderWriter struct {
	functions []string
	known     []reflect.Type
}

// structure writes the function of a struct and those of the structs in it.
func (w *encoderWriter) structure(t reflect.Type) {
	for _, k := range w.known {
		if k == t {
			return
		}
	}
	w.known = append(w.known, t)
	at := len(w.functions)
	w.functions = append(w.functions, "")
	var b strings.Builder
	fmt.Fprintf(&b, "\nfunc append%s(b []byte, v *advisor.%s) []byte {\n", t.Name(), t.Name())
	before := "{"
	for i := range t.NumField() {
		f := t.Field(i)
		fmt.Fprintf(&b, "b = append(b, `%s%q:`...)\n", before, f.Tag.Get("json"))
		b.WriteString("b = " + w.value(f.Type, "v."+f.Name) + "\n")
		before = ","
	}
	b.WriteString("return append(b, '}')\n}\n")
	w.functions[at] = b.String()
}

// value gives the call that appends a field.
func (w *encoderWriter) value(t reflect.Type, field string) string {
	switch t.Kind() {
	case reflect.String:
		return "appendText(b, " + field + ")"
	case reflect.Bool:
		return "strconv.AppendBool(b, " + field + ")"
	case reflect.Float64:
		return "appendNumber(b, " + field + ")"
	case reflect.Struct:
		w.structure(t)
		return "append" + t.Name() + "(b, &" + field + ")"
	case reflect.Pointer:
		return "appendGiven(b, " + field + ", " + w.function(t.Elem()) + ")"
	case reflect.Slice:
		if t.Elem().Kind() == reflect.Struct {
			w.structure(t.Elem())
			return "appendStructs(b, " + field + ", append" + t.Elem().Name() + ")"
		}
		return "appendList(b, " + field + ", " + w.function(t.Elem()) + ")"
	}
	return "no type that is sent: " + t.String() // does not compile
}

func (w *encoderWriter) function(t reflect.Type) string {
	return map[reflect.Kind]string{reflect.String: "appendText", reflect.Float64: "appendNumber"}[t.Kind()]
}

// It is written as encoding/json writes it.
func TestAdviceIsWrittenAsJSON(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var a advisor.Advice
		fill(t, reflect.ValueOf(&a).Elem())
		want, err := json.Marshal(a)
		if err != nil {
			t.Fatal(err)
		}
		if got := appendAdvice(nil, &a); string(got) != string(want) {
			t.Fatalf("got\n%s\nwant\n%s", got, want)
		}
	})
}
