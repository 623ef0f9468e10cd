package prompt

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// The history keeps so many lines, none longer than so many bytes: what a
// person can still use, and what cannot fill a disk.
const (
	mostHistory = 500
	longestKept = 1000
)

// history is the lines typed before, oldest first, each once. The file is the
// person's own (mode 0600). Without a file it lasts as long as the prompt.
type history struct {
	file  string
	lines []string
}

// historyFile gives the place of the history: in the folder for state of the
// XDG Base Directory Specification.
func historyFile(getenv func(string) string) string {
	folder := getenv("XDG_STATE_HOME")
	if !filepath.IsAbs(folder) {
		home := getenv("HOME")
		if home == "" {
			return ""
		}
		folder = filepath.Join(home, ".local", "state")
	}
	return filepath.Join(folder, "hotroom", "history")
}

func openHistory(file string) *history {
	h := &history{file: file}
	data, err := os.ReadFile(file)
	if err != nil {
		return h // none yet, or none that can be read: begin anew
	}
	for line := range strings.Lines(string(data)) {
		h.remember(line)
	}
	return h
}

// add keeps a line that was typed and reports whether it is worth keeping. A
// history that cannot be written is no reason to disturb the person. Two
// prompts at once keep the lines of both.
func (h *history) add(line string) bool {
	if !h.remember(line) {
		return false
	}
	now := openHistory(h.file) // another prompt may have added to it
	now.remember(line)
	_ = now.save()
	return true
}

func (h *history) remember(line string) bool {
	line = strings.TrimSpace(line)
	if line == "" || len(line) > longestKept || strings.ContainsAny(line, "\n\x00\x1b") {
		return false
	}
	h.lines = slices.DeleteFunc(h.lines, func(old string) bool { return old == line })
	h.lines = append(h.lines, line)
	if over := len(h.lines) - mostHistory; over > 0 {
		h.lines = slices.Delete(h.lines, 0, over)
	}
	return true
}

// save writes the whole file beside the old one and renames it, so that it is
// never half written.
func (h *history) save() error {
	if h.file == "" {
		return nil
	}
	if err := os.MkdirAll(filepath.Dir(h.file), 0o700); err != nil {
		return err
	}
	fresh, err := os.CreateTemp(filepath.Dir(h.file), "history-*") // mode 0600
	if err != nil {
		return err
	}
	_, err = fresh.WriteString(strings.Join(h.lines, "\n") + "\n")
	if closing := fresh.Close(); err == nil {
		err = closing
	}
	if err == nil {
		err = os.Rename(fresh.Name(), h.file)
	}
	if err != nil {
		_ = os.Remove(fresh.Name()) // the first error counts
	}
	return err
}
