package publish

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
	"sync"

	"hotroom/knowledge/document"
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
	dir    string
	root   *os.Root
	unlock func()
	ours   map[string]bool // of an earlier time, or of this
	names  []string        // of this time

	mu     sync.Mutex
	result Result
}

type manifest struct {
	Files []string `json:"files"`
}

func openFolder(dir string) (*folder, error) {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return nil, fmt.Errorf("the folder %q cannot be made (%w): choose another with --out", dir, document.Reason(err))
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return nil, fmt.Errorf("the folder %q cannot be opened (%w): choose another with --out", dir, document.Reason(err))
	}
	f := &folder{dir: dir, root: root, ours: map[string]bool{}}
	f.unlock, err = lock(root)
	if errors.Is(err, errTaken) {
		err = fmt.Errorf("somebody else publishes into %q just now: wait until that has ended, or choose another folder with --out", dir)
	}
	if err == nil {
		err = f.readManifest()
	}
	if err != nil {
		f.close()
		return nil, err
	}
	return f, nil
}

func (f *folder) close() {
	if f.unlock != nil {
		f.unlock()
	}
	_ = f.root.Close() // opened for reading
}

// errTaken says that somebody else publishes into a folder.
var errTaken = errors.New("it is locked")

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
	f.clear()
	return f.cutOff(f.writeManifest(slices.Collect(maps.Keys(f.ours))))
}

// clear removes what one that was killed left beside the files.
func (f *folder) clear() {
	for name := range f.ours {
		_ = f.root.Remove(beside(name)) // as a rule there is none
	}
	_ = f.root.Remove(beside(manifestName))
}

// cutOff says what stands in the folder when something went wrong.
func (f *folder) cutOff(err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("%w: every file in %q is whole, but not all are of this guide: mend that and publish again", err, f.dir)
}

// beside is where a file is written until it is whole.
func beside(name string) string { return path.Join(path.Dir(name), "."+path.Base(name)+".new") }

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
		return false, fmt.Errorf("the folder of %s cannot be made (%w)", filepath.Join(f.dir, name), document.Reason(err))
	}
	err = f.root.WriteFile(beside(name), body, 0o644)
	if err == nil {
		err = f.root.Rename(beside(name), name)
	}
	if err != nil {
		_ = f.root.Remove(beside(name)) // it may never have been whole
		return false, fmt.Errorf("%s cannot be written (%w)", filepath.Join(f.dir, name), document.Reason(err))
	}
	return true, nil
}

// end removes what an earlier time wrote and this one has not.
func (f *folder) end() (Result, error) {
	for name := range f.ours {
		if slices.Contains(f.names, name) {
			continue
		}
		err := f.root.Remove(name)
		if err != nil && !errors.Is(err, fs.ErrNotExist) {
			return f.result, fmt.Errorf("%s cannot be removed (%w)", filepath.Join(f.dir, name), document.Reason(err))
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
