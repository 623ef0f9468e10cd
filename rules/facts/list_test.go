package facts

import (
	"math"
	"reflect"
	"regexp"
	"testing"
)

var snake = regexp.MustCompile(`^[a-z][a-z0-9]*(_[a-z0-9]+)*\.[a-z][a-z0-9]*(_[a-z0-9]+)*$`)

func TestEveryFactIsDocumented(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range List() {
		if !snake.MatchString(f.Name) {
			t.Errorf("%q is not group.name in snake case", f.Name)
		}
		if f.Unit == "" || f.Meaning == "" {
			t.Errorf("%s has no unit or no meaning", f.Name)
		}
		if seen[f.Name] {
			t.Errorf("%s stands twice", f.Name)
		}
		if (f.Unit == "word") != (f.Type == Word) || (f.Unit == "yes/no") != (f.Type == YesNo) {
			t.Errorf("%s is of type %s but has the unit %q", f.Name, f.Type, f.Unit)
		}
		seen[f.Name] = true
	}
	if len(seen) < 90 {
		t.Errorf("only %d facts are listed", len(seen))
	}
}

func TestEveryGroupIsDocumentedAndFlat(t *testing.T) {
	groups := reflect.TypeFor[Facts]()
	for i := range groups.NumField() {
		group := groups.Field(i)
		if group.Type.Kind() != reflect.Struct || group.Tag.Get("doc") == "" {
			t.Errorf("%s is not a documented group", group.Name)
			continue
		}
		for j := range group.Type.NumField() {
			switch field := group.Type.Field(j); field.Type.Kind() {
			case reflect.Float64, reflect.Bool, reflect.String:
			default:
				t.Errorf("%s.%s is neither number, word nor yes/no", group.Name, field.Name)
			}
		}
	}
}

func TestFactsAreReadAndSet(t *testing.T) {
	var all Facts
	values := map[Type]any{Number: 4.5, Word: "w", YesNo: true}
	for _, f := range List() {
		if f.Set(&all, 7) {
			t.Errorf("%s took a whole Go int", f.Name)
		}
		want := values[f.Type]
		if !f.Set(&all, want) || f.Value(&all) != want {
			t.Errorf("%s: set %v, read %v", f.Name, want, f.Value(&all))
		}
	}
	if all.Margin.KeptC != 4.5 || all.Board.ID != "w" || !all.Asked.Tuned {
		t.Errorf("the struct was not written: %+v", all)
	}
}

func TestUnknownIsNaN(t *testing.T) {
	f := Facts{Board: Board{Price: math.NaN()}}
	for _, fact := range List() {
		if got := fact.Unknown(&f); got != (fact.Name == "board.price") {
			t.Errorf("%s unknown = %v", fact.Name, got)
		}
	}
}
