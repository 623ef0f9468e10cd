package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"github.com/google/licensecheck"
)

// listName is the list of licences, from the top of the repository.
const listName = ".ci/licences.txt"

// heading is what the list says of itself.
const heading = `# The modules that hotroom is made of. A module of use "program" is linked into
# it on some system, one of use "tests" serves its tests and checks only.
# Written by: bash .ci/supply list
`

// leastCovered is the share of a licence file, in percent of its words, that
// must be the licence's own text. Common practice, no source.
const leastCovered = 75

// permissive are the licences that a module may have, by their SPDX names.
func permissive() []string {
	return []string{"0BSD", "Apache-2.0", "BSD-2-Clause", "BSD-3-Clause", "CC0-1.0", "ISC", "MIT", "Unlicense"}
}

// excepted are the modules with another licence, and why they may stay: only
// such as are never shipped.
func excepted() map[string]string {
	return map[string]string{
		"pgregory.net/rapid": "MPL-2.0 asks for the changed files of rapid itself; it draws the random cases of tests, is used unchanged and is not in the binary",
	}
}

// licence gives the SPDX names of what a module's licence files say, joined by
// AND.
func (m module) licence() (string, error) {
	var names []string
	for _, file := range m.files {
		if !licenceFile.MatchString(filepath.Base(file)) {
			continue
		}
		text, err := os.ReadFile(file)
		if err != nil {
			return "", err
		}
		found, err := recognise(text)
		if err != nil {
			return "", fmt.Errorf("%s: %s: %w", m.Path, filepath.Base(file), err)
		}
		names = append(names, found...)
	}
	slices.Sort(names)
	names = slices.Compact(names)
	return strings.Join(names, " AND "), m.accept(names)
}

// accept fails where a licence is not permissive, and no exception is made for
// the tests.
func (m module) accept(names []string) error {
	other := slices.DeleteFunc(slices.Clone(names), func(n string) bool { return slices.Contains(permissive(), n) })
	switch {
	case len(names) == 0:
		return fmt.Errorf("%s has no licence file: do without it", m.Path)
	case len(other) == 0 && excepted()[m.Path] != "":
		return fmt.Errorf("%s is permissive: take it out of the exceptions", m.Path)
	case len(other) == 0 || m.use == inTests && excepted()[m.Path] != "":
		return nil
	}
	return fmt.Errorf("%s has the licence %s, which is not among the permissive ones: %s", m.Path, strings.Join(other, " AND "), strings.Join(permissive(), ", "))
}

// recognise names the licences of a text.
func recognise(text []byte) ([]string, error) {
	c := licensecheck.Scan(text)
	if c.Percent < leastCovered {
		return nil, fmt.Errorf("%.0f %% of it are the words of a known licence, want %d %%: read it", c.Percent, leastCovered)
	}
	var names []string
	for _, match := range c.Match {
		if !match.IsURL {
			names = append(names, match.ID)
		}
	}
	return names, nil
}

var (
	licenceFile = regexp.MustCompile(`(?i)^(un)?licen[cs]e(\.(txt|md))?$|^copying(\.(txt|md))?$`)
	noticeFile  = regexp.MustCompile(`(?i)^notice(\.(txt|md))?$`)
)

// writtenList gives the list as it must be: a line a module with its use, its
// licence, its name and its version.
func writtenList(modules []module) (string, error) {
	var b strings.Builder
	b.WriteString(heading)
	var all []error
	for _, m := range modules {
		name, err := m.licence()
		all = append(all, err)
		fmt.Fprintf(&b, "%-7s  %-12s  %s\n", m.use, name, m)
	}
	return b.String(), errors.Join(all...)
}

// listLicences prints the list.
func listLicences(ctx context.Context, out io.Writer) error {
	modules, err := modules(ctx)
	if err != nil {
		return err
	}
	list, err := writtenList(modules)
	if err != nil {
		return err
	}
	_, err = io.WriteString(out, list)
	return err
}

// checkLicences fails where the kept list is not what the modules say.
func checkLicences(ctx context.Context, out io.Writer) error {
	modules, err := modules(ctx)
	if err != nil {
		return err
	}
	want, err := writtenList(modules)
	if err != nil {
		return err
	}
	top, err := top(ctx)
	if err != nil {
		return err
	}
	got, err := os.ReadFile(filepath.Join(top, listName))
	if err != nil {
		return err
	}
	if string(got) != want {
		return fmt.Errorf("%s is not what the modules say: write it anew with bash .ci/supply list, and read what changed", listName)
	}
	for _, name := range slices.Sorted(maps.Keys(excepted())) {
		fmt.Fprintf(out, "excepted: %s, since %s\n", name, excepted()[name])
	}
	_, err = fmt.Fprintln(out, counted(modules))
	return err
}

// counted says how many modules have which use.
func counted(modules []module) string {
	count := map[string]int{}
	for _, m := range modules {
		count[m.use]++
	}
	return fmt.Sprintf("%d modules in the program and %d for its tests and checks, all licences permissive but %d excepted", count[inProgram], count[inTests], len(excepted()))
}

// notices prints the licences and notices that must go wherever the binary
// goes.
func notices(ctx context.Context, out io.Writer) error {
	modules, err := modules(ctx)
	if err != nil {
		return err
	}
	for _, m := range modules {
		if m.use != inProgram {
			continue
		}
		for _, file := range m.files {
			text, err := os.ReadFile(file)
			if err != nil {
				return err
			}
			if _, err := fmt.Fprintf(out, "== %s: %s\n\n%s\n\n", m, filepath.Base(file), strings.TrimSpace(string(text))); err != nil {
				return err
			}
		}
	}
	return nil
}
