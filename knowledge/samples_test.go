package knowledge

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hotroom/knowledge/document"
)

var update = flag.Bool("update", false, "write what is said now into the want.txt files; read them before believing them")

const samples = "../testdata/knowledge"

// Each folder in bad/ holds a knowledge folder, or the few files of one that
// matter, and want.txt: every message with its line and caret.
func TestBadSamples(t *testing.T) {
	for _, dir := range folders(t, "bad") {
		t.Run(filepath.Base(dir), func(t *testing.T) {
			base, problems := Read(os.DirFS(dir))
			if (base == nil) != problems.Fatal() {
				t.Errorf("base %v with problems %v", base, problems)
			}
			got, file := shown(problems), filepath.Join(dir, "want.txt")
			if *update {
				if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			if got != string(want) || got == "" {
				t.Errorf("got\n%s\nwant\n%s", got, want)
			}
		})
	}
}

func TestGoodSamples(t *testing.T) {
	for _, dir := range folders(t, "good") {
		t.Run(filepath.Base(dir), func(t *testing.T) {
			if base, problems := Read(os.DirFS(dir)); base == nil || problems != nil {
				t.Errorf("base %v, problems\n%s", base, shown(problems))
			}
		})
	}
}

func folders(t *testing.T, sort string) []string {
	t.Helper()
	list, err := filepath.Glob(filepath.Join(samples, sort, "*"))
	if err != nil || len(list) == 0 {
		t.Fatalf("no samples in %s: %v", sort, err)
	}
	return list
}

func shown(problems document.Problems) string {
	var b strings.Builder
	for _, p := range problems {
		b.WriteString(p.String() + "\n" + p.Excerpt())
	}
	return b.String()
}
