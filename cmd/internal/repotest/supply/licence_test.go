package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// The kept list is what the modules say, and all of it may be used. What is
// needed depends on the version of Go: an older one lacks what a module brings.
func TestLicences(t *testing.T) {
	if text, err := os.ReadFile("../../../../go.mod"); err != nil || !strings.Contains(string(text), "\ntoolchain "+runtime.Version()+"\n") {
		t.Skip("SKIPPED, NOT CHECKED: the list is that of the toolchain that go.mod names, and this is " + runtime.Version())
	}
	var out strings.Builder
	if err := checkLicences(t.Context(), &out); err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(out.String(), "all licences permissive") {
		t.Errorf("it says %q", out.String())
	}
}

func TestLicence(t *testing.T) {
	mit, err := os.ReadFile("../../../../LICENSE")
	if err != nil {
		t.Fatal(err)
	}
	for _, tt := range []struct {
		name, path, use string
		files           map[string]string
		want, err       string
	}{
		{name: "permissive", files: map[string]string{"LICENSE": string(mit)}, want: "MIT"},
		{name: "two names of a file", files: map[string]string{"COPYING": string(mit), "unlicence.md": string(mit)}, want: "MIT"},
		{name: "none", files: map[string]string{"README": string(mit)}, err: "m has no licence file: do without it"},
		{name: "not known", files: map[string]string{"LICENSE": "You may not."}, err: "m: LICENSE: 0 % of it are the words of a known licence, want 75 %: read it"},
		{
			name: "mostly not known", files: map[string]string{"LICENSE": string(mit) + strings.Repeat("but not on Sundays ", 40)},
			err: "m: LICENSE: 51 % of it are the words of a known licence, want 75 %: read it",
		},
		{name: "not excepted any more", path: "pgregory.net/rapid", files: map[string]string{"LICENSE": string(mit)}, want: "MIT", err: "pgregory.net/rapid is permissive: take it out of the exceptions"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			m := module{Path: "m", Dir: t.TempDir(), use: inProgram}
			if tt.path != "" {
				m.Path = tt.path
			}
			for name, text := range tt.files {
				if err := os.WriteFile(filepath.Join(m.Dir, name), []byte(text), 0o600); err != nil {
					t.Fatal(err)
				}
			}
			if err := m.collect(m.Dir); err != nil {
				t.Fatal(err)
			}
			got, err := m.licence()
			said := ""
			if err != nil {
				said = err.Error()
			}
			if got != tt.want || said != tt.err {
				t.Errorf("got %q, %q\nwant %q, %q", got, said, tt.want, tt.err)
			}
		})
	}
}

func TestAccept(t *testing.T) {
	for _, tt := range []struct {
		path, use string
		names     []string
		want      string
	}{
		{"m", inProgram, []string{"BSD-3-Clause", "MIT"}, ""},
		{"m", inTests, []string{"GPL-3.0", "MIT"}, "m has the licence GPL-3.0, which is not among the permissive ones: 0BSD, Apache-2.0, BSD-2-Clause, BSD-3-Clause, CC0-1.0, ISC, MIT, Unlicense"},
		{"pgregory.net/rapid", inTests, []string{"MPL-2.0"}, ""},
		{"pgregory.net/rapid", inProgram, []string{"MPL-2.0"}, "pgregory.net/rapid has the licence MPL-2.0, which is not among the permissive ones: 0BSD, Apache-2.0, BSD-2-Clause, BSD-3-Clause, CC0-1.0, ISC, MIT, Unlicense"},
	} {
		got := ""
		if err := (module{Path: tt.path, use: tt.use}).accept(tt.names); err != nil {
			got = err.Error()
		}
		if got != tt.want {
			t.Errorf("%s for %s: got %q\nwant %q", tt.path, tt.use, got, tt.want)
		}
	}
}

// A licence in a folder below the module counts where that folder is used.
func TestCollect(t *testing.T) {
	top := t.TempDir()
	below := filepath.Join(top, "font", "glyphs")
	if err := os.MkdirAll(below, 0o700); err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{filepath.Join(top, "LICENSE"), filepath.Join(top, "NOTICE"), filepath.Join(below, "License.txt"), filepath.Join(below, "license.go")} {
		if err := os.WriteFile(file, nil, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	m := module{Dir: top}
	for range 2 { // a second package of the folder adds nothing
		if err := m.collect(below); err != nil || len(m.files) != 3 {
			t.Error(err, m.files)
		}
	}
}
