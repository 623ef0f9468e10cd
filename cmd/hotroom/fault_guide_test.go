package main

import (
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// guide is a knowledge with the guide that is published from it.
type guide struct {
	folder string
	files  map[string]string
}

func (g guide) command(out string) *exec.Cmd {
	return hotroom("publish", "--knowledge", g.folder, "--rooms", "hot", "--out", out)
}

// publish publishes, and wants just this guide to stand in the folder then.
func (g guide) publish(t *testing.T, out string) {
	t.Helper()
	if o := try(t, g.command(out)); o.code != 0 {
		t.Fatalf("publish: %+v", o)
	}
	if got := files(t, out); !maps.Equal(got, g.files) {
		for name, text := range got {
			if g.files[name] != text {
				t.Errorf("%s is not as it should be", name)
			}
		}
		t.Fatalf("the guide has %d files, want %d", len(got), len(g.files))
	}
}

// guides are two guides of four boards that share hardly a file.
func guides(t *testing.T) (older, newer guide) {
	t.Helper()
	older, newer = guide{folder: fourBoards(t)}, guide{folder: fourBoards(t)}
	surroundings := filepath.Join(newer.folder, "surroundings.toml")
	text := read(t, surroundings)
	hotter := strings.Replace(text, "word = \"hot\"\ncelsius = 33", "word = \"hot\"\ncelsius = 34", 1)
	if hotter == text {
		t.Fatal("the demo's hot room is not where it was")
	}
	write(t, surroundings, hotter)
	for _, g := range []*guide{&older, &newer} {
		out := filepath.Join(t.TempDir(), "guide")
		if o := try(t, g.command(out)); o.code != 0 {
			t.Fatalf("publish: %+v", o)
		}
		g.files = files(t, out)
	}
	return older, newer
}

// eachWhole wants every file under its real name to be of one of the guides,
// and counts the others, which begin with a dot.
func eachWhole(t *testing.T, out string, of ...guide) (left int) {
	t.Helper()
	for name, text := range files(t, out) {
		whole := false
		for _, g := range of {
			whole = whole || g.files[name] == text
		}
		switch {
		case strings.HasPrefix(filepath.Base(name), ".") && strings.HasSuffix(name, ".new"):
			left++
		case !whole:
			t.Errorf("%s is of neither guide: %d bytes", name, len(text))
		}
	}
	return left
}

// fourBoards is the demo's knowledge with few boards and nothing measured.
func fourBoards(t *testing.T) string {
	t.Helper()
	folder := ownFolder(t)
	boards := strings.SplitN(read(t, folder, "boards.toml"), "[[board]]", 6)
	if len(boards) < 6 {
		t.Fatal("the demo has fewer than five boards")
	}
	write(t, filepath.Join(folder, "boards.toml"), strings.Join(boards[:5], "[[board]]"))
	if err := os.Remove(filepath.Join(folder, "runs.csv")); err != nil {
		t.Fatal(err)
	}
	return folder
}
