package rules

import (
	"crypto/sha256"
	"fmt"
	"testing"

	"hotroom/knowledge/document"
	"hotroom/rules/expression"
	"hotroom/rules/facts"
)

func defaultBook(t testing.TB) *Book {
	t.Helper()
	book, problems := Load(Default())
	for _, p := range problems {
		t.Error(p.String() + "\n" + p.Excerpt())
	}
	if book == nil {
		t.Fatal("the default catalogue does not load")
	}
	return book
}

func BenchmarkLoadDefault(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		defaultBook(b)
	}
}

func BenchmarkJudgeDefault(b *testing.B) {
	book, calm := defaultBook(b), facts.Calm()
	b.ReportAllocs()
	for b.Loop() {
		book.Judge(calm)
	}
}

// records reads the rule records of a catalogue as they stand in the file.
func records(t testing.TB, file string, src []byte) []ruleRecord {
	t.Helper()
	table, problems := document.Parse(file, src)
	var c catalogue
	problems = append(problems, table.Decode(&c)...)
	if problems.Fatal() {
		t.Fatal(problems)
	}
	return c.Rule
}

// exampleFacts gives the facts of an example.
func exampleFacts(t testing.TB, text document.Text) facts.Facts {
	t.Helper()
	l := &loader{compiler: expression.NewCompiler()}
	f := facts.Calm()
	if !l.assign(&f, text) {
		t.Fatal(l.problems)
	}
	return f
}

func TestHashIsOfTheSource(t *testing.T) {
	_, src := Default()
	if got, want := defaultBook(t).Hash(), fmt.Sprintf("%x", sha256.Sum256(src)); got != want {
		t.Errorf("got %s, want %s", got, want)
	}
}
