package repotest

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// trace matches paths that hold on one machine only.
var trace = regexp.MustCompile(`(^|[^A-Za-z0-9.$}/_-])/(` + strings.Join([]string{"work", "root", "home", "Users", "tmp"}, "|") + `)/[A-Za-z]`)

func TestNoTracesOfAMachine(t *testing.T) {
	top := root(t)
	for _, name := range files(t, top) {
		text, err := os.ReadFile(filepath.Join(top, name))
		if err != nil {
			t.Fatal(err)
		}
		if bytes.IndexByte(text, 0) >= 0 {
			continue // no text
		}
		for i, line := range strings.Split(string(text), "\n") {
			if found := trace.FindString(line); found != "" {
				t.Errorf("%s:%d: a path of one machine: %s", name, i+1, strings.TrimSpace(line))
			}
		}
	}
}

func TestTraceMatches(t *testing.T) {
	for text, want := range map[string]bool{
		"see /" + "tmp/x":         true,
		`"/` + `home/ann/go"`:     true,
		"$HOME/work/x":            false,
		"example.org/" + "root/x": false,
		"a/" + "tmp/x":            false,
	} {
		if got := trace.MatchString(text); got != want {
			t.Errorf("%q: %v, want %v", text, got, want)
		}
	}
}
