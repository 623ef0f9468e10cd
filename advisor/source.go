package advisor

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"hotroom/knowledge"
	"hotroom/knowledge/document"
	"hotroom/rules"
)

// rulesFile is the name of the rules in a knowledge folder.
const rulesFile = "rules.toml"

// Source says where knowledge and rules come from.
type Source struct {
	Folder    string // knowledge folder; empty: the embedded demo
	RulesFile string // rules; empty: rules.toml in the folder, else the embedded default
}

// Open reads and checks knowledge and rules as one, and makes a snapshot of
// them. The problems are all mistakes and warnings of both; the snapshot is nil
// when any of them is fatal. The error is for what cannot be read at all. What
// else is to be made of the knowledge alone is made beside the rules.
func Open(src Source, program string, beside ...func(*knowledge.Base)) (*Snapshot, document.Problems, error) {
	if err := src.exists(); err != nil {
		return nil, nil, err
	}
	name, text, err := src.rules()
	if err != nil {
		return nil, nil, err
	}
	// The two know nothing of each other, so they are read side by side: a
	// good part of a short program's time.
	var book *rules.Book
	var mistakes document.Problems
	done := make(chan struct{})
	go func() {
		defer close(done)
		book, mistakes = rules.Load(name, text)
	}()
	s, problems, err := src.learned(beside)
	<-done
	problems = append(problems, mistakes...)
	problems.Sort()
	if s == nil || book == nil || problems.Fatal() {
		return nil, problems, err
	}
	s.book, s.program = book, program
	return s, problems, nil
}

// learned reads the knowledge and works it up into a snapshot without rules.
func (src Source) learned(beside []func(*knowledge.Base)) (*Snapshot, document.Problems, error) {
	base, problems := src.knowledge()
	if base == nil {
		return nil, problems, nil
	}
	s, err := workUp(base)
	if err != nil {
		return nil, problems, err
	}
	for _, also := range beside {
		also(base)
	}
	return s, problems, nil
}

// exists says when the folder does not.
func (src Source) exists() error {
	if src.Folder == "" {
		return nil
	}
	if info, err := os.Stat(src.Folder); err != nil || !info.IsDir() {
		return fmt.Errorf("there is no knowledge folder %q: give a folder that holds chips.toml, boards.toml and the rest", src.Folder)
	}
	return nil
}

// knowledge reads the folder, or takes the demo.
func (src Source) knowledge() (*knowledge.Base, document.Problems) {
	if src.Folder == "" {
		return knowledge.DemoBase(), nil
	}
	return knowledge.Read(os.DirFS(src.Folder))
}

// rules finds the rules: a file of their own, the folder's, the embedded ones.
// They are never merged.
func (src Source) rules() (name string, text []byte, err error) {
	if src.RulesFile != "" {
		dir, file := filepath.Split(src.RulesFile)
		text, err = document.ReadFile(os.DirFS(filepath.Clean(dir)), file, rules.MostBytes)
		if err != nil {
			return "", nil, fmt.Errorf("the rules file %q cannot be read (%w): give another, or none for the usual rules", src.RulesFile, document.Reason(err))
		}
		return src.RulesFile, text, nil
	}
	err = fs.ErrNotExist
	if src.Folder != "" {
		text, err = document.ReadFile(os.DirFS(src.Folder), rulesFile, rules.MostBytes)
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		name, text = rules.Default()
		return name, text, nil
	case err != nil:
		return "", nil, fmt.Errorf("%s in the knowledge folder cannot be read (%w): mend it, or remove it for the usual rules", rulesFile, document.Reason(err))
	}
	return rulesFile, text, nil
}
