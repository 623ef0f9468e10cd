package rules

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hotroom/knowledge/document"
	"hotroom/knowledge/storm"
)

var update = flag.Bool("update", false, "write what the bad samples give beside them; read it before you keep it")

const samples = "../testdata/rules"

func printed(problems document.Problems) string {
	var b strings.Builder
	for _, p := range problems {
		b.WriteString(p.String() + "\n" + p.Excerpt())
	}
	return b.String()
}

// Every bad sample gives exactly the messages in the text file beside it.
func TestBadSamples(t *testing.T) {
	files, _ := filepath.Glob(samples + "/bad/*.toml")
	if len(files) == 0 {
		t.Fatal("there are no bad samples")
	}
	for _, file := range files {
		src := read(t, file)
		book, problems := Load(filepath.Base(file), src)
		if book != nil {
			t.Errorf("%s loads", file)
		}
		beside := strings.TrimSuffix(file, ".toml") + ".txt"
		if *update {
			if err := os.WriteFile(beside, []byte(printed(problems)), 0o666); err != nil {
				t.Fatal(err)
			}
		}
		if got, want := printed(problems), string(read(t, beside)); got != want {
			t.Errorf("%s gives\n%s\nwant\n%s", file, got, want)
		}
	}
}

func TestGoodSamples(t *testing.T) {
	files, _ := filepath.Glob(samples + "/good/*.toml")
	if len(files) == 0 {
		t.Fatal("there are no good samples")
	}
	for _, file := range files {
		if book, problems := Load(filepath.Base(file), read(t, file)); book == nil || len(problems) > 0 {
			t.Errorf("%s does not load:\n%s", file, printed(problems))
		}
	}
}

func read(t testing.TB, file string) []byte {
	t.Helper()
	src, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return src
}

func FuzzLoad(f *testing.F) {
	for _, src := range sampled(f) {
		f.Add(src)
	}
	f.Fuzz(func(t *testing.T, src []byte) { checkLoad(t, src) })
}

func TestStorm(t *testing.T) { storm.Run(t, "FuzzLoad", sampled(t), checkLoad) }

// sampled gives all sample catalogues, good and bad.
func sampled(t testing.TB) [][]byte {
	var list [][]byte
	files, _ := filepath.Glob(samples + "/*/*.toml")
	for _, file := range files {
		list = append(list, read(t, file))
	}
	return list
}

// checkLoad loads whatever it is given: there is a book or a fatal problem, and
// a book judges without failing.
func checkLoad(t *testing.T, src []byte) (good bool) {
	book, problems := Load("fuzz.toml", src)
	if (book == nil) != problems.Fatal() {
		t.Fatalf("book %v with problems %v", book, problems)
	}
	for _, p := range problems {
		_ = p.String() + p.Excerpt()
	}
	if book != nil {
		judgeAnything(t, book)
	}
	return book != nil
}
