package journal

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"hotroom/knowledge"
	"hotroom/knowledge/document"
)

// state is a file as it was read.
type state struct {
	content []byte
	info    fs.FileInfo // nil: there is none
}

// readState reads the file; where there is none the content is empty.
func readState(path string) (state, error) {
	info, err := os.Stat(path)
	if errors.Is(err, fs.ErrNotExist) {
		return state{}, nil
	}
	if err != nil {
		return state{}, fmt.Errorf("%s cannot be read: %w", path, err)
	}
	content, err := document.ReadFile(os.DirFS(filepath.Dir(path)), filepath.Base(path), knowledge.MostBytes)
	if err != nil {
		return state{}, fmt.Errorf("%s cannot be read: %w", path, err)
	}
	return state{content, info}, nil
}

// same reports whether nobody else has changed the file since.
func (s state) same(path string) bool {
	info, err := os.Stat(path)
	if err != nil || s.info == nil {
		return errors.Is(err, fs.ErrNotExist) && s.info == nil
	}
	return os.SameFile(info, s.info) && info.Size() == s.info.Size() && info.ModTime().Equal(s.info.ModTime())
}

// replace puts new content in the place of a file: it is written whole beside
// it, brought to the disk, and renamed over it, and the folder is brought to
// the disk as well. Whatever happens, the old file or the new one is there.
func replace(path string, before state, content []byte) error {
	mode := fs.FileMode(0o644)
	if before.info != nil {
		mode = before.info.Mode().Perm()
	}
	beside := filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".new")
	if err := exchange(path, beside, before, content, mode); err != nil {
		_ = os.Remove(beside) // it may never have been whole; the next recorder writes it anew
		return fmt.Errorf("the run was not recorded, and %s is as it was (%w): mend that and record it again", filepath.Base(path), err)
	}
	if err := syncFolder(filepath.Dir(path)); err != nil {
		return fmt.Errorf("the run stands in %s, but a loss of power might take it back (%w): look whether it is there before you record it again", filepath.Base(path), err)
	}
	return nil
}

func exchange(path, beside string, before state, content []byte, mode fs.FileMode) error {
	if err := writeThrough(beside, content, mode); err != nil {
		return err
	}
	if !before.same(path) {
		return errors.New("somebody else changed it in the meantime")
	}
	return os.Rename(beside, path)
}

// writeThrough writes a new file and brings it to the disk. What stands in its
// place, be it a link or a pipe, is taken away and never written to.
func writeThrough(path string, content []byte, mode fs.FileMode) (err error) {
	if err := os.Remove(path); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_WRONLY, mode)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	if _, err := f.Write(content); err != nil {
		return err
	}
	if err := f.Chmod(mode); err != nil {
		return err
	}
	return f.Sync()
}

func syncFolder(path string) (err error) {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	return f.Sync()
}
