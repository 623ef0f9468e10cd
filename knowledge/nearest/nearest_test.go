package nearest

import (
	"testing"

	"github.com/agnivade/levenshtein"
	"pgregory.net/rapid"
)

func TestWord(t *testing.T) {
	tests := []struct {
		given string
		known []string
		want  string
	}{
		{"nmae", []string{"id", "name"}, "name"},
		{"phase", []string{"phases", "stage"}, "phases"},
		{"fined", []string{"none", "block", "finned", "fin-stack"}, "finned"},
		{"Polymer", []string{"liquid", "polymer"}, "polymer"},
		{"swiching_khz", []string{"switching_khz"}, "switching_khz"},
		{"di", []string{"id"}, "id"},
		{"x", []string{"y"}, ""},
		{"no", []string{"id", "name"}, ""},
		{"zebra", []string{"id", "name", "socket"}, ""},
		{"mass", []string{}, ""},
		{"", []string{"a"}, ""},
		{"hot", []string{"hat", "hit"}, "hat"},
	}
	for _, tt := range tests {
		got, ok := Word(tt.given, tt.known)
		if got != tt.want || ok != (tt.want != "") {
			t.Errorf("Word(%q) = %q, %v; want %q", tt.given, got, ok, tt.want)
		}
	}
}

// A swap counts once where plain Levenshtein counts it twice; otherwise the
// two never differ by more than the swaps there can be.
func TestDistanceAgainstLevenshtein(t *testing.T) {
	word := rapid.StringOfN(rapid.RuneFrom([]rune("abc")), 0, 8, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b := word.Draw(t, "a"), word.Draw(t, "b")
		got, plain := Distance(a, b), levenshtein.ComputeDistance(a, b)
		if got > plain || 2*got < plain {
			t.Fatalf("Distance(%q, %q) = %d, Levenshtein %d", a, b, got, plain)
		}
		if back := Distance(b, a); back != got {
			t.Fatalf("Distance(%q, %q) = %d, the other way %d", a, b, got, back)
		}
	})
}

func TestDistance(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want int
	}{
		{"", "", 0},
		{"", "abc", 3},
		{"board", "baord", 1},
		{"kitten", "sitting", 3}, // the classic example of Levenshtein's distance
		{"ca", "abc", 3},         // optimal string alignment; unrestricted Damerau gives 2
		{"é", "e", 1},
	} {
		if got := Distance(tt.a, tt.b); got != tt.want {
			t.Errorf("Distance(%q, %q) = %d, want %d", tt.a, tt.b, got, tt.want)
		}
	}
}

// To look no further than asked changes no answer.
func TestWithinIsTheDistance(t *testing.T) {
	word := rapid.StringOfN(rapid.RuneFrom([]rune("abé")), 0, 9, -1)
	rapid.Check(t, func(t *rapid.T) {
		a, b, most := word.Draw(t, "a"), word.Draw(t, "b"), rapid.IntRange(0, 5).Draw(t, "most")
		if got, want := Within(a, b, most), Distance(a, b) <= most; got != want {
			t.Fatalf("Within(%q, %q, %d) = %v", a, b, most, got)
		}
	})
}
