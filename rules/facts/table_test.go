package facts

import (
	"flag"
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write table.go from the struct")

// The table that saves every program's start from looking through the struct
// says exactly what the struct says.
func TestTableIsOfTheStruct(t *testing.T) {
	if *update {
		if err := os.WriteFile("table.go", []byte(table()), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	got, err := os.ReadFile("table.go")
	if err != nil {
		t.Fatal(err)
	}
	if string(got) != table() {
		t.Error("table.go is behind the struct: run go generate here")
	}
}

func table() string {
	var b, copies, texts strings.Builder
	numbers, words := 0, 0
	b.WriteString("// Code generated from the struct Facts by table_test.go; DO NOT EDIT.\n\npackage facts\n\n" +
		"//go:generate go test -run TestTableIsOfTheStruct -update .\n\n" +
		"// groups is every fact in the order of the struct.\nvar groups = [...]group{\n")
	of := reflect.TypeFor[Facts]()
	for i := range of.NumField() {
		g := of.Field(i)
		fmt.Fprintf(&b, "\t{%q, []Fact{\n", g.Tag.Get("expr"))
		for j := range g.Type.NumField() {
			f := g.Type.Field(j)
			b.WriteString(line(g, f, numbers, words))
			switch f.Type.Kind() {
			case reflect.Float64:
				fmt.Fprintf(&copies, "\tinto[%d] = f.%s.%s\n", numbers, g.Name, f.Name)
				numbers++
			case reflect.Bool:
				fmt.Fprintf(&copies, "\tinto[%d] = oneIf(f.%s.%s)\n", numbers, g.Name, f.Name)
				numbers++
			default:
				fmt.Fprintf(&texts, "\tinto[%d] = f.%s.%s\n", words, g.Name, f.Name)
				words++
			}
		}
		b.WriteString("\t}},\n")
	}
	b.WriteString("}\n")
	fmt.Fprintf(&b, "\n// NumberCount is how many facts are numbers, or a yes or no.\nconst NumberCount = %d\n"+
		"\n// Numbers copies all numbers, each in its fact's unit, to their places, and a\n// yes or no as 1 or 0.\n"+
		"func (f *Facts) Numbers(into *[NumberCount]float64) {\n%s}\n", numbers, copies.String())
	fmt.Fprintf(&b, "\n// WordCount is how many facts are words.\nconst WordCount = %d\n"+
		"\n// Words copies all words to their places.\n"+
		"func (f *Facts) Words(into *[WordCount]string) {\n%s}\n", words, texts.String())
	return b.String()
}

// line writes the entry of one fact, given the places of the next number and
// the next word.
func line(g, f reflect.StructField, place, wordPlace int) string {
	kind, field := "Word", fmt.Sprintf("place: %d, word", wordPlace)
	switch f.Type.Kind() {
	case reflect.Float64:
		kind, field = "Number", fmt.Sprintf("place: %d, number", place)
	case reflect.Bool:
		kind, field = "YesNo", fmt.Sprintf("place: %d, yesNo", place)
	}
	return fmt.Sprintf("\t\t{Name: %q, Type: %s, Unit: %q, Meaning: %q, %s: func(f *Facts) *%s { return &f.%s.%s }},\n",
		g.Tag.Get("expr")+"."+f.Tag.Get("expr"), kind, f.Tag.Get("unit"), f.Tag.Get("doc"), field, f.Type, g.Name, f.Name)
}

func TestFactsAreFoundByName(t *testing.T) {
	for _, want := range List() {
		if got, ok := Find(want.Name); !ok || got.Name != want.Name || got.Meaning != want.Meaning {
			t.Errorf("%s gives %+v", want.Name, got)
		}
	}
	for _, name := range []string{"", "board", "board.", "board.idx", ".id", "id", "boar.id", "board.id.id"} {
		if got, ok := Find(name); ok {
			t.Errorf("%q gives %s", name, got.Name)
		}
	}
}

func TestFactsStandAtTheirPlaces(t *testing.T) {
	var f Facts
	all := List()
	for i, fact := range all {
		fact.Set(&f, float64(i))
		fact.Set(&f, i%2 == 0)
		fact.Set(&f, fact.Name)
	}
	var numbers [NumberCount]float64
	f.Numbers(&numbers)
	var words [WordCount]string
	f.Words(&words)
	for i, fact := range all {
		if fact.Type == Number && numbers[fact.Place()] != float64(i) {
			t.Errorf("%s stands elsewhere than at %d", fact.Name, fact.Place())
		}
		if fact.Type == Word && words[fact.Place()] != fact.Name {
			t.Errorf("%s stands elsewhere than at %d", fact.Name, fact.Place())
		}
		if fact.Type == YesNo && numbers[fact.Place()] != float64(1-i%2) {
			t.Errorf("%s stands elsewhere than at %d", fact.Name, fact.Place())
		}
	}
}

// Every fact reads and writes its own field and no other.
func TestEveryFactHasItsOwnField(t *testing.T) {
	var f Facts
	seen := map[any]string{}
	for _, fact := range List() {
		var field any
		switch fact.Type {
		case Number:
			field = fact.number(&f)
		case Word:
			field = fact.word(&f)
		case YesNo:
			field = fact.yesNo(&f)
		}
		if other := seen[field]; other != "" {
			t.Errorf("%s and %s share a field", fact.Name, other)
		}
		seen[field] = fact.Name
	}
}
