// Package journal adds measured runs to a knowledge folder's runs.csv so that
// nothing is ever lost: one recorder at a time, checked before it is written,
// and the old file or the new one whatever happens.
package journal

import (
	"context"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"hotroom/knowledge"
	"hotroom/knowledge/document"
)

// runsFile is the file that runs stand in.
const runsFile = "runs.csv"

// Entry is a run as it stands in the file.
type Entry struct {
	Run      knowledge.Run     // with the id that was made for it
	Line     string            // without its line ending
	Warnings document.Problems // about the new run
	Omitted  []string          // columns that the file does not have, for remarks that the run has
}

// Append adds a run to the folder's runs.csv. A run without an id gets one made
// of date, board and chip. It waits for other recorders until the context ends.
// The error is document.Problems where the run, or what the folder holds
// already, has mistakes; the file is then as it was.
func Append(ctx context.Context, folder string, run knowledge.Run) (Entry, error) {
	path, err := resolve(folder)
	if err != nil {
		return Entry{}, err
	}
	unlock, err := lock(ctx, filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".lock"))
	if err != nil {
		return Entry{}, err
	}
	defer unlock()
	before, err := readState(path)
	if err != nil {
		return Entry{}, err
	}
	entry, content, err := prepare(folder, before.content, run)
	if err != nil {
		return Entry{}, err
	}
	return entry, replace(path, before, content)
}

// Preview gives the entry that Append would write, and writes nothing.
func Preview(folder string, run knowledge.Run) (Entry, error) {
	path, err := resolve(folder)
	if err != nil {
		return Entry{}, err
	}
	before, err := readState(path)
	if err != nil {
		return Entry{}, err
	}
	entry, _, err := prepare(folder, before.content, run)
	return entry, err
}

// resolve finds the file itself where runs.csv is a link, so that the link
// stays one.
func resolve(folder string) (string, error) {
	if info, err := os.Stat(folder); err != nil || !info.IsDir() {
		return "", fmt.Errorf("there is no knowledge folder %q: give a folder that holds chips.toml, boards.toml and the rest", folder)
	}
	path := filepath.Join(folder, runsFile)
	if real, err := filepath.EvalSymlinks(path); err == nil {
		return real, nil
	}
	return path, nil
}

// prepare makes the new file's content and checks the whole folder with it.
func prepare(folder string, old []byte, run knowledge.Run) (Entry, []byte, error) {
	t, err := newTable(old)
	if err != nil {
		return Entry{}, nil, err
	}
	if run.ID == "" {
		run.ID = ID(&run, func(id string) bool { return slices.Contains(t.ids, id) })
	}
	line, err := t.line(&run)
	if err != nil {
		return Entry{}, nil, err
	}
	content := t.with(line)
	entry := Entry{Run: run, Line: line, Omitted: t.omitted(&run)}
	entry.Warnings, err = check(folder, content, &run, entry.Omitted)
	return entry, content, err
}

// check reads the folder with the new content in place of its own, and compares
// the run that is read back with the one that was meant. It gives the warnings
// about the new line.
func check(folder string, content []byte, run *knowledge.Run, omitted []string) (document.Problems, error) {
	base, problems := knowledge.Read(overlay{os.DirFS(folder), content})
	if base == nil {
		return nil, fatal(problems)
	}
	last := &base.Runs[len(base.Runs)-1]
	for _, column := range knowledge.RunColumns() {
		meant, read := field(run, column), field(last, column)
		if meant != read && meant != "" && !slices.Contains(omitted, column) {
			return nil, fmt.Errorf("%s would be read back as %q instead of %q: nothing was written", column, read, meant)
		}
	}
	var warnings document.Problems
	for _, p := range problems {
		if p.At.Filename == runsFile && p.At.Line >= last.At.Line {
			warnings = append(warnings, p)
		}
	}
	return warnings, nil
}

// fatal leaves the warnings out.
func fatal(problems document.Problems) document.Problems {
	var list document.Problems
	for _, p := range problems {
		if !p.Warning {
			list = append(list, p)
		}
	}
	return list
}

// overlay is a folder with other content for runs.csv.
type overlay struct {
	fs.FS
	runs []byte
}

// Open gives the other content for runs.csv.
func (o overlay) Open(name string) (fs.File, error) {
	if name == runsFile {
		return newMemory(name, o.runs), nil
	}
	return o.FS.Open(name)
}

// Stat tells about a file without opening it.
func (o overlay) Stat(name string) (fs.FileInfo, error) {
	if name == runsFile {
		return newMemory(name, o.runs), nil
	}
	return fs.Stat(o.FS, name)
}

// ReadDir lists runs.csv also where there is none yet.
func (o overlay) ReadDir(name string) ([]fs.DirEntry, error) {
	entries, err := fs.ReadDir(o.FS, name)
	if err != nil || name != "." {
		return entries, err
	}
	for _, e := range entries {
		if e.Name() == runsFile {
			return entries, nil
		}
	}
	return append(entries, fs.FileInfoToDirEntry(newMemory(runsFile, o.runs))), nil
}
