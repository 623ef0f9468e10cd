//go:build darwin || dragonfly || freebsd || linux || netbsd || openbsd

package advisor_test

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"hotroom/advisor"
)

// oddities put something that is no plain file of a sensible size at a path.
var oddities = []struct {
	name string
	put  func(path string) error
	want string
}{
	{"pipe", func(path string) error { return syscall.Mkfifo(path, 0o600) }, "it is a pipe or a device, not a file"},
	{"link to a device without end", func(path string) error { return os.Symlink("/dev/zero", path) }, "it is a pipe or a device, not a file"},
	{"link to itself", func(path string) error { return os.Symlink(path, path) }, "too many levels of symbolic links"},
	{"link to nothing", func(path string) error { return os.Symlink(path+"-absent", path) }, "no such file or directory"},
	{"folder", func(path string) error { return os.Mkdir(path, 0o700) }, "it is a folder, not a file"},
	{"1 GB of nothing", func(path string) error { return sparse(path, 1<<30) }, "it is larger than "},
}

func sparse(path string, size int64) error {
	if err := os.WriteFile(path, nil, 0o600); err != nil {
		return err
	}
	return os.Truncate(path, size)
}

// Whatever stands where a file should, opening neither waits for it nor reads
// it into memory, and says what is wrong.
func TestOpensOnlyFiles(t *testing.T) {
	for _, place := range []string{"rules.toml", "boards.toml", "runs.csv", "extra/more.toml", "--rules"} {
		for _, s := range oddities {
			if s.name == "link to nothing" && place == "rules.toml" {
				continue // as good as none
			}
			t.Run(place+"/"+s.name, func(t *testing.T) {
				folder := t.TempDir()
				for name, file := range grown(t, 2, 1) {
					write(t, filepath.Join(folder, name), file.Data)
				}
				src := advisor.Source{Folder: folder}
				path := filepath.Join(folder, place)
				if place == "--rules" {
					path = filepath.Join(t.TempDir(), "rules")
					src.RulesFile = path
				}
				_ = os.Remove(path)
				_ = os.Mkdir(filepath.Dir(path), 0o700) // extra
				if err := s.put(path); err != nil {
					t.Fatal(err)
				}
				refusesFast(t, src, s.want)
			})
		}
	}
}

func write(t *testing.T, path string, text []byte) {
	t.Helper()
	if err := os.WriteFile(path, text, 0o600); err != nil {
		t.Fatal(err)
	}
}

func refusesFast(t *testing.T, src advisor.Source, want string) {
	t.Helper()
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	began := time.Now()
	done := make(chan string, 1)
	go func() {
		snapshot, problems, err := advisor.Open(src, "test")
		done <- fmt.Sprint(snapshot != nil, problems.Error(), err)
	}()
	select {
	case got := <-done:
		if !strings.HasPrefix(got, "false") || !strings.Contains(got, want) {
			t.Errorf("got %s, want %s", got, want)
		}
	case <-time.After(5 * time.Second):
		t.Fatal("it waits")
	}
	runtime.ReadMemStats(&after)
	if used := after.TotalAlloc - before.TotalAlloc; used > 16<<20 {
		t.Errorf("it takes %d MiB and %v", used>>20, time.Since(began))
	}
}

// A pipe for a folder is no folder, and nobody waits for it.
func TestExtraIsAPipe(t *testing.T) {
	folder := t.TempDir()
	for name, file := range grown(t, 2, 1) {
		write(t, filepath.Join(folder, name), file.Data)
	}
	if err := syscall.Mkfifo(filepath.Join(folder, "extra"), 0o600); err != nil {
		t.Fatal(err)
	}
	refusesFast(t, advisor.Source{Folder: folder}, "extra: the folder cannot be read (not a directory)")
}
