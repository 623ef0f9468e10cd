package publish

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"sync"
)

// manifestName is the file that lists what was published, so that the next
// time only that is replaced or removed.
const manifestName = ".hotroom-published.json"

// Result counts what was done.
type Result struct {
	Written, Unchanged, Removed int
}

// folder is the folder that is published into. Nothing outside of it is ever
// touched, whatever links lie in it.
type folder struct {
	dir   string
	root  *os.Root
	ours  map[string]bool // of an earlier time, or of this
	names []string        // of this time

	mu     sync.Mutex
	result Result
}

type manifest struct {
	Files []string `json:"files"`
}

func openFolder(dir string) (*folder, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("the folder %q cannot be made: %w", dir, err)
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("the folder %q cannot be opened: %w", dir, err)
	}
	f := &folder{dir: dir, root: root, ours: map[string]bool{}}
	if err := f.readManifest(); err != nil {
		return nil, errors.Join(err, root.Close())
	}
	return f, nil
}

func (f *folder) close() { _ = f.root.Close() } // opened for reading

func (f *folder) readManifest() error {
	text, err := f.root.ReadFile(manifestName)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	var m manifest
	if err := json.Unmarshal(text, &m); err != nil {
		return fmt.Errorf("%s cannot be read (%w): publish into an empty folder", filepath.Join(f.dir, manifestName), err)
	}
	for _, name := range m.Files {
		if filepath.IsLocal(name) && name != manifestName {
			f.ours[name] = true
		}
	}
	return nil
}

// begin checks that nothing of somebody else's would be replaced, and notes
// what will be written, so that it is known as ours should this be cut off.
func (f *folder) begin(names []string) error {
	f.names = slices.Clone(names)
	slices.Sort(f.names)
	for _, name := range f.names {
		if _, err := f.root.Lstat(name); err == nil && !f.ours[name] {
			return fmt.Errorf("%s is there already and was not published by hotroom: choose an empty folder with --out, or move the file away", filepath.Join(f.dir, name))
		}
	}
	for _, name := range names {
		f.ours[name] = true
	}
	var all []string
	for name := range f.ours {
		all = append(all, name)
	}
	return f.writeManifest(all)
}

func (f *folder) writeManifest(names []string) error {
	slices.Sort(names)
	text, err := json.MarshalIndent(manifest{names}, "", " ")
	if err != nil {
		return err
	}
	_, err = f.put(manifestName, append(text, '\n'))
	return err
}

// write writes one of the files. It may be called by several at once.
func (f *folder) write(name string, body []byte) error {
	changed, err := f.put(name, body)
	f.mu.Lock()
	defer f.mu.Unlock()
	if changed {
		f.result.Written++
	} else {
		f.result.Unchanged++
	}
	return err
}

// put writes a file beside its place and moves it there when it is whole. A
// file that holds just that already is left alone.
func (f *folder) put(name string, body []byte) (changed bool, err error) {
	if old, err := f.root.ReadFile(name); err == nil && bytes.Equal(old, body) {
		return false, nil
	}
	if err := f.root.MkdirAll(path.Dir(name), 0o755); err != nil {
		return false, fmt.Errorf("the folder of %s cannot be made: %w", filepath.Join(f.dir, name), err)
	}
	beside := path.Join(path.Dir(name), "."+path.Base(name)+".new")
	if err := f.root.WriteFile(beside, body, 0o644); err != nil {
		_ = f.root.Remove(beside) // it may never have been whole
		return false, fmt.Errorf("%s cannot be written: %w", filepath.Join(f.dir, name), err)
	}
	return true, f.root.Rename(beside, name)
}

// end removes what an earlier time wrote and this one has not.
func (f *folder) end() (Result, error) {
	for name := range f.ours {
		if slices.Contains(f.names, name) {
			continue
		}
		err := f.root.Remove(name)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return f.result, fmt.Errorf("%s cannot be removed: %w", filepath.Join(f.dir, name), err)
		}
		if err == nil {
			f.result.Removed++
		}
		f.tidy(path.Dir(name))
	}
	return f.result, f.writeManifest(f.names)
}

// tidy removes folders that are left empty; one that is not stays.
func (f *folder) tidy(dir string) {
	for dir != "." && f.root.Remove(dir) == nil {
		dir = path.Dir(dir)
	}
}
