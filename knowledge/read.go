package knowledge

import (
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"go/token"
	"io/fs"
	"maps"
	"path"
	"slices"
	"strings"
	"sync"

	"hotroom/knowledge/document"
)

// The files of a knowledge folder.
const (
	chipsFile        = "chips.toml"
	boardsFile       = "boards.toml"
	stagesFile       = "stages.toml"
	surroundingsFile = "surroundings.toml"
	runsFile         = "runs.csv"
	rulesFile        = "rules.toml" // read by the rules, not here
	extraFolder      = "extra"
)

const expected = chipsFile + ", " + boardsFile + ", " + stagesFile + ", " + surroundingsFile + " and " + runsFile

// MostBytes is how much is read of a folder, in bytes: far above any knowledge kept by
// hand.
const MostBytes = 64 << 20

// Read reads and checks a knowledge folder: every mistake of every file at
// once, sorted by place. The base is nil when any problem is more than a
// warning.
func Read(fsys fs.FS) (*Base, document.Problems) {
	l := newLoader(fsys)
	return l.load(parse(fsys, l.listed()))
}

// load takes the files into a base and checks it.
func (l *loader) load(files []*file) (*Base, document.Problems) {
	for _, f := range files {
		l.file(f)
	}
	l.check()
	l.problems.Sort()
	if l.problems.Fatal() {
		return nil, l.problems
	}
	l.base.Hash = l.hash()
	return New(l.base), l.problems
}

// listed lists the files to read in their order and reports what it leaves aside.
func (l *loader) listed() []string {
	entries, err := fs.ReadDir(l.fsys, ".")
	if err != nil {
		l.trouble(".", "the knowledge folder cannot be read ("+cause(err)+")", "give a folder that holds "+expected)
		return nil
	}
	var names []string
	for _, e := range entries {
		name := e.Name()
		switch {
		case slices.Contains([]string{chipsFile, boardsFile, stagesFile, surroundingsFile, runsFile}, name):
			names = append(names, name)
		case name == extraFolder:
		case name != rulesFile && (path.Ext(name) == ".toml" || path.Ext(name) == ".csv"):
			l.aside(name, "a knowledge folder holds "+expected+"; put more of the same kinds in extra/")
		}
	}
	if len(names) == 0 {
		l.trouble(".", "the knowledge folder holds none of the files that it needs", "it should hold "+expected)
	}
	return append(names, l.extra()...)
}

// extra lists the TOML files of the folder for large collections, which are
// read after the main ones.
func (l *loader) extra() []string {
	entries, err := fs.ReadDir(l.fsys, extraFolder)
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		l.trouble(extraFolder, "the folder cannot be read ("+cause(err)+")", "make it a readable folder, or remove it")
	}
	var names []string
	for _, e := range entries {
		name := path.Join(extraFolder, e.Name())
		switch path.Ext(name) {
		case ".toml":
			names = append(names, name)
		case ".csv":
			l.aside(name, "extra/ holds TOML files; runs go in "+runsFile)
		}
	}
	return names
}

func (l *loader) trouble(name, what, mend string) {
	l.problems = append(l.problems, document.Problem{At: token.Position{Filename: name}, What: what, Mend: mend})
}

func (l *loader) aside(name, mend string) {
	l.problems = append(l.problems, document.Problem{At: token.Position{Filename: name}, What: "not read", Mend: mend, Warning: true})
}

// file is one file as it was read, and parsed where it is TOML.
type file struct {
	name     string
	src      []byte
	err      error // it cannot be read
	table    *document.Table
	problems document.Problems
}

// parse reads and parses files side by side; they come back in their order.
func parse(fsys fs.FS, names []string) []*file {
	files := make([]*file, len(names))
	var all sync.WaitGroup
	left := int64(MostBytes)
	for i, name := range names {
		f := &file{name: name}
		files[i] = f
		if info, err := fs.Stat(fsys, name); err == nil && info.Size() <= MostBytes {
			left -= info.Size()
		}
		if left < 0 {
			f.err = fmt.Errorf("with the files before it the folder holds more than %d MiB", MostBytes>>20)
			continue
		}
		all.Go(func() {
			if f.src, f.err = document.ReadFile(fsys, name, MostBytes); f.err == nil {
				f.parse()
			}
		})
	}
	all.Wait()
	return files
}

// parse parses a file that is TOML.
func (f *file) parse() {
	if f.name != runsFile {
		f.table, f.problems = document.Parse(f.name, f.src)
	}
}

// file takes one file into the base.
func (l *loader) file(f *file) {
	if f.err != nil {
		l.trouble(f.name, "the file cannot be read ("+cause(f.err)+")", "make it readable, or remove it")
		l.miss(f.name)
		return
	}
	l.files[f.name] = f.src
	if f.name == runsFile {
		l.readRuns(f.src)
		return
	}
	l.take(f.problems)
	if f.problems.Fatal() {
		l.miss(f.name)
	}
	if f.table != nil {
		l.records(f.name, f.table)
	}
}

// hash sums the files in the order of their names, names and contents with
// their lengths so that no two folders give the same stream.
func (l *loader) hash() string {
	h := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(l.files)) {
		for _, part := range [][]byte{[]byte(name), l.files[name]} {
			h.Write(binary.BigEndian.AppendUint64(nil, uint64(len(part))))
			h.Write(part)
		}
	}
	return hex.EncodeToString(h.Sum(nil))
}

// cause words an error without the name of the file, which stands before it.
func cause(err error) string {
	return strings.TrimSpace(document.Reason(err).Error())
}
