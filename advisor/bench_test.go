package advisor_test

import (
	"testing"

	"hotroom/advisor"
	"hotroom/knowledge"
	"hotroom/rules"
)

func demo(t testing.TB) *advisor.Snapshot {
	t.Helper()
	s, problems, err := advisor.Open(advisor.Source{}, "test")
	if s == nil {
		t.Fatal(problems, err)
	}
	return s
}

func BenchmarkOpenDemo(b *testing.B) {
	for b.Loop() {
		demo(b)
	}
}

func BenchmarkReadDemo(b *testing.B) {
	for b.Loop() {
		if base, problems := knowledge.Read(knowledge.Demo()); base == nil {
			b.Fatal(problems)
		}
	}
}

func BenchmarkLoadRules(b *testing.B) {
	for b.Loop() {
		if book, problems := rules.Load(rules.Default()); book == nil {
			b.Fatal(problems)
		}
	}
}

func BenchmarkSnapshot(b *testing.B) {
	s := demo(b)
	for b.Loop() {
		if _, err := advisor.NewSnapshot(s.Base(), s.Book(), "test"); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkAdvise(b *testing.B) {
	s := demo(b)
	q := advisor.Question{Board: "quarry", Chip: "v10", RoomC: number(33)}
	for b.Loop() {
		if _, err := advisor.Advise(b.Context(), s, q); err != nil {
			b.Fatal(err)
		}
	}
}
