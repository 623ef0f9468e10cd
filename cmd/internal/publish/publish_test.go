package publish

import (
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"hotroom/advisor"
)

func demo(t testing.TB, src advisor.Source) *advisor.Snapshot {
	t.Helper()
	s, problems, err := advisor.Open(src, "test")
	if err != nil || problems.Fatal() {
		t.Fatal(err, problems)
	}
	return s
}

func publishTo(t *testing.T, dir string, o Options) Result {
	t.Helper()
	o.Program = "test"
	r, err := Guide(t.Context(), demo(t, advisor.Source{}), dir, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// all reads a folder: names and contents.
func all(t *testing.T, dir string) map[string]string {
	t.Helper()
	files := map[string]string{}
	err := filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := os.ReadFile(name)
		rel, _ := filepath.Rel(dir, name)
		files[filepath.ToSlash(rel)] = string(text)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return files
}

func TestTheSameKnowledgeGivesTheSameBytes(t *testing.T) {
	a, b := t.TempDir(), t.TempDir()
	first, second := publishTo(t, a, Options{}), publishTo(t, b, Options{})
	if first != second || first.Unchanged != 0 || first.Removed != 0 {
		t.Errorf("published %+v and %+v into empty folders", first, second)
	}
	if x, y := all(t, a), all(t, b); !maps.Equal(x, y) || len(x) != first.Written+1 {
		t.Errorf("two guides differ, or have %d and %d files of %d", len(x), len(y), first.Written+1)
	}
}

func TestUnchangedFilesAreLeftAlone(t *testing.T) {
	dir := t.TempDir()
	first := publishTo(t, dir, Options{Rooms: []string{"hot"}})
	old := time.Date(2020, 1, 2, 3, 4, 5, 0, time.UTC)
	for name := range all(t, dir) {
		if err := os.Chtimes(filepath.Join(dir, name), old, old); err != nil {
			t.Fatal(err)
		}
	}
	again := publishTo(t, dir, Options{Rooms: []string{"hot"}})
	if want := (Result{Unchanged: first.Written}); again != want {
		t.Errorf("the second time %+v, want %+v", again, want)
	}
	for name := range all(t, dir) {
		info, err := os.Stat(filepath.Join(dir, name))
		if err != nil || !info.ModTime().Equal(old) {
			t.Errorf("%s was written again (%v)", name, err)
		}
	}
}

func TestOnlyOwnFilesAreRemoved(t *testing.T) {
	dir := t.TempDir()
	publishTo(t, dir, Options{Rooms: []string{"normal", "hot"}})
	theirs := filepath.Join(dir, "cards", "slate", "v10", "mine.txt")
	if err := os.WriteFile(theirs, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	r := publishTo(t, dir, Options{Rooms: []string{"normal"}})
	files := all(t, dir)
	for name := range files {
		if strings.Contains(name, "/hot.") {
			t.Errorf("%s is left over", name)
		}
	}
	if files["cards/slate/v10/mine.txt"] != "mine" || r.Removed == 0 {
		t.Errorf("removed %d files; the one of somebody else reads %q", r.Removed, files["cards/slate/v10/mine.txt"])
	}
}

func TestNothingOfOthersIsReplaced(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "index.html"), []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := Guide(t.Context(), demo(t, advisor.Source{}), dir, Options{})
	want := filepath.Join(dir, "index.html") + " is there already and was not published by hotroom: choose an empty folder with --out, or move the file away"
	if err == nil || err.Error() != want {
		t.Errorf("got %v\nwant %s", err, want)
	}
	if got := all(t, dir); len(got) != 1 || got["index.html"] != "mine" {
		t.Errorf("the folder holds %v", slices.Collect(maps.Keys(got)))
	}
}

// A manifest that names files outside of the folder removes nothing there.
func TestAManifestReachesNoFurtherThanItsFolder(t *testing.T) {
	top := t.TempDir()
	dir, outside := filepath.Join(top, "guide"), filepath.Join(top, "outside")
	if err := os.WriteFile(outside, []byte("mine"), 0o600); err != nil {
		t.Fatal(err)
	}
	forged := `{"files":["../outside","link/outside","` + outside + `"]}`
	if err := os.RemoveAll(dir); err != nil {
		t.Fatal(err)
	}
	if err := os.MkdirAll(dir, 0o700); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(top, filepath.Join(dir, "link")); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, manifestName), []byte(forged), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err := Guide(t.Context(), demo(t, advisor.Source{}), dir, Options{Rooms: []string{"hot"}})
	if text, readErr := os.ReadFile(outside); readErr != nil || string(text) != "mine" {
		t.Errorf("a file outside is gone (%v), publish said %v", readErr, err)
	}
}

func TestAStrangeRoom(t *testing.T) {
	_, err := Guide(t.Context(), demo(t, advisor.Source{}), t.TempDir(), Options{Rooms: []string{"tropical"}})
	want := `the knowledge has no room word "tropical": give one or more of cool, normal, warm, hot, attic`
	if err == nil || err.Error() != want {
		t.Errorf("got %v\nwant %s", err, want)
	}
}

func TestFileNames(t *testing.T) {
	for id, want := range map[string]string{"slate": "slate", "../x": "_2e_2e_2fx", "A_b": "_41_5fb", "": "", "ü": "_c3_bc"} {
		if got := fileName(id); got != want {
			t.Errorf("fileName(%q) = %q, want %q", id, got, want)
		}
	}
}

// Every address on every page leads to a file of the guide.
func TestLinksLeadSomewhere(t *testing.T) {
	dir := t.TempDir()
	publishTo(t, dir, Options{})
	files := all(t, dir)
	links := 0
	for name, text := range files {
		if !strings.HasSuffix(name, ".html") {
			continue
		}
		for _, part := range strings.Split(text, `href="`)[1:] {
			address, _, _ := strings.Cut(part, `"`)
			if strings.HasPrefix(address, "#") {
				continue
			}
			links++
			if at := filepath.ToSlash(filepath.Join(filepath.Dir(name), address)); files[at] == "" {
				t.Fatalf("%s leads to %s, which is not there", name, address)
			}
		}
	}
	if links < 500 {
		t.Errorf("only %d links were found", links)
	}
}
