package page

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hotroom/advisor"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", "golden", name)
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(want, got) {
		t.Errorf("%s has changed; look at it and run the test with -update\n%s", path, got[:min(len(got), 2000)])
	}
}

func demo(t testing.TB) *advisor.Snapshot {
	t.Helper()
	s, problems, err := advisor.Open(advisor.Source{}, "test")
	if err != nil || problems.Fatal() {
		t.Fatal(err, problems)
	}
	return s
}

func number(v float64) *float64 { return &v }

// mostCard is the most that a card may weigh, bytes.
const mostCard = 6000

func TestCardGolden(t *testing.T) {
	s := demo(t)
	for name, q := range map[string]advisor.Question{
		"card-brook": {Board: "brook", Chip: "v10", RoomC: number(38)},
		"card-kiln":  {Board: "kiln", Chip: "v10", RoomC: number(23)},
		"card-slate": {Board: "slate", Chip: "v10", RoomC: number(38)},
	} {
		a, err := advisor.Advise(t.Context(), s, q)
		if err != nil {
			t.Fatal(err)
		}
		got, err := Card(s.Base(), a, "/?board=b&chip=c")
		if err != nil {
			t.Fatal(err)
		}
		golden(t, name+".html", got)
		if len(got) > mostCard {
			t.Errorf("%s weighs %d bytes, more than %d", name, len(got), mostCard)
		}
	}
}

// Browsers take a style sheet inside a page only when the policy names its very
// bytes.
func TestCardStyleIsTheOneNamed(t *testing.T) {
	s := demo(t)
	a, err := advisor.Advise(t.Context(), s, advisor.Question{Board: "brook", Chip: "v10"})
	if err != nil {
		t.Fatal(err)
	}
	card, err := Card(s.Base(), a, "")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(card), "<style>")
	inside, _, _ := strings.Cut(rest, "</style>")
	if got := hashed(inside); got != Styles()[0] {
		t.Errorf("a card's style sheet hashes to %s, and the policy names %s", got, Styles()[0])
	}
}
