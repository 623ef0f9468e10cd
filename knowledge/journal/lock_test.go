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
