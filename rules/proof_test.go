package rules

import (
	"math"
	"reflect"
	"sync"
	"testing"

	"hotroom/rules/expression"
	"hotroom/rules/facts"

	"pgregory.net/rapid"
)

// checkedDefault loads the embedded catalogue as if a user had written it:
// every check is made and every example run.
func checkedDefault(t testing.TB) *Book {
	t.Helper()
	file, src := Default()
	book, problems := load(file, defaultBook(t).hash, src)
	if book == nil || len(problems) > 0 {
		t.Fatalf("the embedded catalogue has mistakes:\n%s", printed(problems))
	}
	return book
}

// What Load leaves out for the embedded catalogue makes no difference: it is
// read to the same words at the same places, all of it compiles, and nothing
// is left to be found wrong when it is first needed.
func TestEmbeddedCatalogueIsProven(t *testing.T) {
	file, _ := Default()
	quick, full := loadDefault(file, defaultBook(t).hash), checkedDefault(t)
	if quick == nil {
		t.Fatal("the embedded catalogue is no longer written plainly enough: see plainReader")
	}
	if !reflect.DeepEqual(quick.Rules(), full.Rules()) || quick.score != full.score || quick.hash != full.hash {
		t.Error("rules, score or hash differ")
	}
	for i := range full.rules {
		q, f := &quick.rules[i], &full.rules[i]
		q.say.once.Do(q.say.compile)
		sameExpression(t, q.Name+" when", q.when, f.when)
		sameExpression(t, q.Name+" points", q.points.expression(), f.points.expression())
		sameTemplate(t, q.Name+" say", q.say.pieces, f.say.pieces)
	}
	if len(quick.verdicts) != len(full.verdicts) {
		t.Fatalf("%d verdicts, want %d", len(quick.verdicts), len(full.verdicts))
	}
	for i := range full.verdicts {
		q, f := &quick.verdicts[i], &full.verdicts[i]
		q.say.once.Do(q.say.compile)
		if q.id != f.id || q.at != f.at {
			t.Errorf("verdict %s at %s, want %s at %s", q.id, q.at, f.id, f.at)
		}
		sameExpression(t, q.name()+" when", q.when, f.when)
		sameTemplate(t, q.name()+" say", q.say.pieces, f.say.pieces)
	}
}

func sameExpression(t *testing.T, what string, a, b *expression.Expression) {
	t.Helper()
	if (a == nil) != (b == nil) {
		t.Errorf("%s: one of the two is absent", what)
		return
	}
	if a != nil && (a.Kind != b.Kind || a.Constant != b.Constant || factNames(a.Mentions) != factNames(b.Mentions) || factNames(a.Needs) != factNames(b.Needs)) {
		t.Errorf("%s: %+v, want %+v", what, a, b)
	}
}

func sameTemplate(t *testing.T, what string, a, b template) {
	t.Helper()
	if len(a) != len(b) {
		t.Errorf("%s: %d pieces, want %d", what, len(a), len(b))
		return
	}
	for i := range a {
		if a[i].plain != b[i].plain || a[i].decimals != b[i].decimals {
			t.Errorf("%s: piece %+v, want %+v", what, a[i], b[i])
		}
		sameExpression(t, what, a[i].value, b[i].value)
	}
}

func factNames(all []facts.Fact) string {
	s := ""
	for _, f := range all {
		s += f.Name + " "
	}
	return s
}

// scattered draws facts on both sides of most of what the catalogue asks.
func scattered(t *rapid.T) facts.Facts {
	f := facts.Calm()
	number := rapid.OneOf(rapid.Float64Range(-40, 250), rapid.Float64Range(-1, 5), rapid.SampledFrom([]float64{0, math.NaN()}))
	words := rapid.SampledFrom([]string{"", "none", "power", "current", "temperature", "measured", "estimated", "open", "custom", "board"})
	for _, fact := range facts.List() {
		if rapid.IntRange(0, 2).Draw(t, "keep") == 0 {
			continue
		}
		switch fact.Type {
		case facts.Number:
			fact.Set(&f, number.Draw(t, fact.Name))
		case facts.Word:
			fact.Set(&f, words.Draw(t, fact.Name))
		case facts.YesNo:
			fact.Set(&f, rapid.Bool().Draw(t, fact.Name))
		}
	}
	return f
}

// The quickly loaded book says what the fully checked one says.
func TestQuickBookJudgesAlike(t *testing.T) {
	quick, full := defaultBook(t), checkedDefault(t)
	rapid.Check(t, func(t *rapid.T) {
		f := scattered(t)
		if got, want := quick.Judge(f), full.Judge(f); !reflect.DeepEqual(got, want) {
			t.Fatalf("got %+v\nwant %+v", got, want)
		}
	})
}

// First judgements side by side compile each text once and agree.
func TestFirstJudgementsSideBySide(t *testing.T) {
	f := facts.Calm()
	f.Margin.KeptC, f.Clock.LimitedBy, f.Board.HeatsinkShape = 2, "temperature", "none"
	want := checkedDefault(t).Judge(f)
	fresh := defaultBook(t)
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			if got := fresh.Judge(f); !reflect.DeepEqual(got, want) {
				t.Errorf("got %+v\nwant %+v", got, want)
			}
		})
	}
	wg.Wait()
}

// A catalogue that is not the embedded one is checked in full.
func TestChangedCatalogueIsChecked(t *testing.T) {
	file, src := Default()
	src = append(src, "\n[[rule]]\nname = \"mine\"\nkind = \"merit\"\nwhen = \"margin.kept > 5\"\npoints = \"3\"\nsay = \"s\"\n"...)
	if book, problems := Load(file, src); book != nil || len(problems) != 1 {
		t.Errorf("got %v", problems)
	}
}

// What is no longer plain is left to the full reader.
func TestPlainReaderGivesUp(t *testing.T) {
	for _, src := range []string{
		"a", "x = 1", "[[rule]]\nname = \"a\\\"b\"", "[[rule]]\nname = 'a' # b", "[[rule]]\nname = \"\"\"\na", "[[rule]]\nname = \"a", "[[rule]]\nname = \"",
		"[[rule]]\nnames = \"a\"", "[[rule]]\nname=\"a\"", "[score]\nstart = x", "[score]\nbegin = 1", "[other]", "[[rule]] # x",
		"[[verdict]]\nname = \"a\"", "[[rule]]\nname = \"\"\"\na\"\"\"b\n\"\"\"\n", "[[rule]]\r\nname = 'a'", "[[rule]]\nname = \"a\"\r\n", "[[rule]]\nname = 5",
	} {
		if got := readPlain("x", src); got != nil {
			t.Errorf("%q gives %+v", src, got)
		}
	}
}
