package rules

import (
	"testing"

	"hotroom/rules/facts"
)

func loadDefault(t testing.TB) *Book {
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
		loadDefault(b)
	}
}

func BenchmarkJudgeDefault(b *testing.B) {
	book, calm := loadDefault(b), facts.Calm()
	b.ReportAllocs()
	for b.Loop() {
		book.Judge(calm)
	}
}
