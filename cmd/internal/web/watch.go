package web

import (
	"context"
	"fmt"
	"path/filepath"
	"time"

	"github.com/fsnotify/fsnotify"

	"hotroom/advisor"
)

// settle is how long files must lie still before they are read: an editor or a
// copy writes several, one after another. settleMost bounds it, for files that
// never lie still.
const (
	settle     = 200 * time.Millisecond
	settleMost = 2 * time.Second
)

// watched lists the folders to watch: folders and not files, because editors
// save by renaming; and the folder above the knowledge, because the whole of it
// may be put in place of another, by a rename or by a link.
func watched(src advisor.Source) (folders []string, concerns func(name string) bool) {
	inside := map[string]bool{}
	exact := map[string]bool{}
	if src.Folder != "" {
		folder := filepath.Clean(src.Folder)
		inside[folder] = true
		inside[filepath.Join(folder, "extra")] = true
		exact[folder] = true
		folders = append(folders, folder, filepath.Join(folder, "extra"), filepath.Dir(absolute(folder)))
		exact[absolute(folder)] = true
	}
	if src.RulesFile != "" {
		file := filepath.Clean(src.RulesFile)
		exact[file] = true
		folders = append(folders, filepath.Dir(file))
		exact[filepath.Join(filepath.Dir(file), mounted)] = true
	}
	return folders, func(name string) bool {
		name = filepath.Clean(name)
		return exact[name] || inside[filepath.Dir(name)]
	}
}

// mounted is the link that clusters exchange when a mounted file changes.
const mounted = "..data"

func absolute(path string) string {
	if abs, err := filepath.Abs(path); err == nil {
		return abs
	}
	return path
}

// watch reloads whenever files change or a reload is asked for, until the
// context ends. The embedded demo cannot change.
func (s *Server) watch(ctx context.Context) error {
	folders, concerns := watched(s.options.Source)
	watcher, err := fsnotify.NewWatcher()
	if err != nil {
		return fmt.Errorf("files cannot be watched: %w", err)
	}
	defer watcher.Close()
	follow := func() {
		for _, f := range folders {
			_ = watcher.Add(f) // one that is not there yet is tried again with the next change
		}
	}
	follow()
	s.store.reload(ctx) // what changed since the first reading
	var due timer
	for {
		select {
		case <-ctx.Done():
			return nil
		case event := <-watcher.Events:
			if event.Op != fsnotify.Chmod && concerns(event.Name) {
				due.push(s.options.Now())
			}
		case err := <-watcher.Errors:
			s.journal.error("watching files", "what", err.Error())
			due.push(s.options.Now()) // what was missed may matter
		case <-s.options.Reload:
			s.store.reload(ctx)
		case <-due.fires:
			due = timer{}
			follow()
			s.store.reload(ctx)
		}
	}
}

// timer waits for quiet. The zero value waits for nothing.
type timer struct {
	first time.Time
	fires <-chan time.Time
}

func (t *timer) push(now time.Time) {
	if t.fires == nil {
		t.first = now
	}
	t.fires = time.After(max(0, min(settle, t.first.Add(settleMost).Sub(now))))
}
