//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package journal_test

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"hotroom/knowledge/journal"
)

// A recorder waits for another one, and no longer than its context.
func TestWaitsForTheLock(t *testing.T) {
	dir := folder(t)
	other, err := os.OpenFile(filepath.Join(dir, ".runs.csv.lock"), os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		t.Fatal(err)
	}
	if err := syscall.Flock(int(other.Fd()), syscall.LOCK_EX); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 30*time.Millisecond)
	defer cancel()
	if _, err := journal.Append(ctx, dir, sample()); err == nil || !strings.Contains(err.Error(), "another recorder holds the knowledge folder") {
		t.Errorf("got %v", err)
	}
	time.AfterFunc(30*time.Millisecond, func() { _ = other.Close() })
	if _, err := journal.Append(t.Context(), dir, sample()); err != nil {
		t.Errorf("once it is free: %v", err)
	}
}

// Nothing is written through a link or into a pipe that stands where the new
// file is to be, and a pipe is no runs.csv.
func TestWritesToItsOwnFile(t *testing.T) {
	dir := folder(t)
	beside, victim := filepath.Join(dir, ".runs.csv.new"), filepath.Join(t.TempDir(), "victim")
	if err := os.WriteFile(victim, []byte("kept"), 0o600); err != nil {
		t.Fatal(err)
	}
	for name, put := range map[string]func() error{
		"link": func() error { return os.Symlink(victim, beside) },
		"pipe": func() error { return syscall.Mkfifo(beside, 0o600) },
	} {
		if err := put(); err != nil {
			t.Fatal(err)
		}
		run := sample()
		run.ID = name
		if _, err := journal.Append(t.Context(), dir, run); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if text, err := os.ReadFile(victim); err != nil || string(text) != "kept" {
		t.Errorf("the file behind the link holds %q, %v", text, err)
	}
	if err := os.Remove(filepath.Join(dir, "runs.csv")); err != nil {
		t.Fatal(err)
	}
	if err := syscall.Mkfifo(filepath.Join(dir, "runs.csv"), 0o600); err != nil {
		t.Fatal(err)
	}
	if _, err := journal.Append(t.Context(), dir, sample()); err == nil || !strings.Contains(err.Error(), "it is a pipe or a device, not a file") {
		t.Errorf("a pipe for runs.csv: %v", err)
	}
}
