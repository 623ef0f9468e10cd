package repotest

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// example is one command of a document and what it is said to print.
type example struct {
	line    int
	command string
	want    []string
}

// examples reads the commands out of a document: lines that begin with "$ " in
// a block fenced as console, each followed by its output. A line "…" stands for
// any number of lines.
func examples(text string) []example {
	var list []example
	inside := false
	for i, line := range strings.Split(text, "\n") {
		switch {
		case strings.HasPrefix(line, "```"):
			inside = !inside && strings.TrimSpace(line) == "```console"
		case !inside:
		case strings.HasPrefix(line, "$ "):
			list = append(list, example{line: i + 1, command: line[2:]})
		case len(list) > 0:
			last := &list[len(list)-1]
			last.want = append(last.want, line)
		}
	}
	return list
}

// ours gives the command with our program in place of building it first; the
// others are not run.
func (e example) ours() (string, bool) {
	command := strings.ReplaceAll(e.command, "go run ./cmd/hotroom", "hotroom")
	return command, strings.HasPrefix(command, "hotroom") || strings.Contains(command, "| hotroom")
}

// agrees compares lines; "…" in what is wanted stands for any lines.
func agrees(want, got []string) bool {
	if len(want) == 0 {
		return len(got) == 0
	}
	if want[0] == "…" {
		for skip := 0; skip <= len(got); skip++ {
			if agrees(want[1:], got[skip:]) {
				return true
			}
		}
		return false
	}
	return len(got) > 0 && strings.TrimRight(got[0], " ") == strings.TrimRight(want[0], " ") && agrees(want[1:], got[1:])
}

func TestDocuments(t *testing.T) {
	top := root(t)
	var bin string
	for _, name := range files(t, top) {
		if !strings.HasSuffix(name, ".md") {
			continue
		}
		text, err := os.ReadFile(filepath.Join(top, name))
		if err != nil {
			t.Fatal(err)
		}
		for _, e := range examples(string(text)) {
			command, ok := e.ours()
			if !ok {
				continue
			}
			if bin == "" {
				bin = build(t, top)
			}
			got := lines(run(t, copied(t, top), bin, command))
			if !agrees(lines(strings.Join(e.want, "\n")), got) {
				t.Errorf("%s:%d: $ %s\n--- the document says\n%s\n--- it prints\n%s",
					name, e.line, e.command, strings.Join(e.want, "\n"), strings.Join(got, "\n"))
			}
		}
	}
}

// build makes the program and gives its folder.
func build(t *testing.T, top string) string {
	t.Helper()
	bin := t.TempDir()
	c := exec.Command("go", "build", "-buildvcs=false", "-o", bin, "./cmd/hotroom")
	c.Dir = top
	if out, err := c.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return bin
}

// copied gives a copy of the repository, so that commands that write do no
// harm.
func copied(t *testing.T, top string) string {
	t.Helper()
	folder := t.TempDir()
	for _, name := range files(t, top) {
		text, err := os.ReadFile(filepath.Join(top, name))
		if err != nil {
			t.Fatal(err)
		}
		to := filepath.Join(folder, name)
		if err := os.MkdirAll(filepath.Dir(to), 0o750); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(to, text, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return folder
}

// run runs a command line and gives both its streams together.
func run(t *testing.T, folder, bin, command string) string {
	t.Helper()
	c := exec.Command("sh", "-c", command)
	c.Dir = folder
	c.Env = append(os.Environ(), "PATH="+bin+string(os.PathListSeparator)+os.Getenv("PATH"), "HOME="+t.TempDir())
	out, err := c.CombinedOutput()
	if _, ok := errors.AsType[*exec.ExitError](err); err != nil && !ok {
		t.Fatalf("%s: %v", command, err)
	}
	return string(out)
}

func lines(text string) []string {
	if text = strings.TrimRight(text, "\n"); text == "" {
		return nil
	}
	return strings.Split(text, "\n")
}

func TestExamples(t *testing.T) {
	text := "Text.\n```console\n$ hotroom a\none\n\n$ git b\n```\n$ hotroom c\n```go\n$ hotroom d\n```\n```console\n$ x | hotroom\n```\n"
	got := examples(text)
	if len(got) != 3 || got[0].command != "hotroom a" || got[0].line != 3 || strings.Join(got[0].want, "|") != "one|" || got[2].command != "x | hotroom" {
		t.Errorf("got %+v", got)
	}
	if _, ok := got[1].ours(); ok {
		t.Error("git would be run")
	}
	if c, ok := (example{command: "go run ./cmd/hotroom ask"}).ours(); !ok || c != "hotroom ask" {
		t.Errorf("got %q", c)
	}
}

func TestAgrees(t *testing.T) {
	for _, tt := range []struct {
		want, got string
		ok        bool
	}{
		{"a\nb", "a\nb", true},
		{"a\nb", "a\nc", false},
		{"a", "a\nb", false},
		{"a\n…", "a\nb\nc", true},
		{"…\nc", "a\nb\nc", true},
		{"a\n…\nd", "a\nb\nc", false},
		{"…", "", true},
	} {
		if got := agrees(lines(tt.want), lines(tt.got)); got != tt.ok {
			t.Errorf("%q against %q: %v", tt.want, tt.got, got)
		}
	}
}
