package main

import (
	"errors"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"hotroom/knowledge"
)

// The fault tests run the program itself and break what it stands on: disks,
// folders, pipes, sockets, and its own life. All of them:
//
//	go test ./cmd/... -run '^TestFault' -v

// outcome is how the program ended.
type outcome struct {
	code     int            // −1: a signal ended it
	signal   syscall.Signal // that signal
	out      string
	messages string // its words, one space between them
}

// try runs the program until it ends; one that hangs is killed, and that shows.
func try(t *testing.T, c *exec.Cmd) outcome {
	t.Helper()
	end := begin(t, c)
	return end()
}

// begin starts the program; end waits for it.
func begin(t *testing.T, c *exec.Cmd) (end func() outcome) {
	t.Helper()
	var out, messages strings.Builder
	if c.Stdout == nil {
		c.Stdout = &out
	}
	if c.Stderr == nil {
		c.Stderr = &messages
	}
	c.Env = promptly()
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	hung := time.AfterFunc(time.Minute, func() { _ = c.Process.Kill() })
	return func() outcome {
		err := c.Wait()
		hung.Stop()
		if _, ended := errors.AsType[*exec.ExitError](err); err != nil && !ended {
			t.Fatal(err)
		}
		o := outcome{code: c.ProcessState.ExitCode(), out: out.String(), messages: strings.Join(strings.Fields(messages.String()), " ")}
		if status, ok := c.ProcessState.Sys().(syscall.WaitStatus); ok && status.Signaled() {
			o.signal = status.Signal()
		}
		if strings.Contains(o.messages, "goroutine ") {
			t.Errorf("it broke down: %s", o.messages)
		}
		return o
	}
}

// promptly is our environment, in which a program that was built to detect
// races does not wait a second at its end.
func promptly() []string { return append(os.Environ(), "GORACE=atexit_sleep_ms=0") }

// wants checks how the program ended and what it said.
func (o outcome) wants(t *testing.T, what string, code int, messages string) {
	t.Helper()
	if o.code != code || o.messages != messages {
		t.Errorf("%s: exit code %d (%v), want %d\nsays  %s\nwants %s", what, o.code, o.signal, code, o.messages, messages)
	}
}

func hotroom(args ...string) *exec.Cmd { return exec.Command("hotroom", args...) }

// recorded is the command that records a run with an id.
func recorded(folder, id string, more ...string) *exec.Cmd {
	return hotroom(append([]string{
		"record", "--knowledge", folder, "--id", id, "--date", "2025-06-01", "--board", "slate", "--chip", "v10", "--enclosure", "bench",
		"--cooler", "liquid", "--room", "22.4", "--ghz", "3.9", "--volts", "1.02", "--package", "131", "--hot", "81", "--outcome", "settled",
	}, more...)...)
}

// rowOf is the row that is recorded for it, as --dry-run shows it.
func rowOf(t *testing.T, folder, id string) string {
	t.Helper()
	o := try(t, recorded(folder, id, "--dry-run"))
	if o.code != 0 || !strings.HasPrefix(o.out, id+",") {
		t.Fatalf("the row of %s: %+v", id, o)
	}
	return o.out
}

// demoIn writes the demo's knowledge into a folder.
func demoIn(t *testing.T, folder string) string {
	t.Helper()
	if err := os.CopyFS(folder, knowledge.Demo()); err != nil {
		t.Fatal(err)
	}
	return folder
}

func ownFolder(t *testing.T) string {
	t.Helper()
	return demoIn(t, filepath.Join(t.TempDir(), "bench"))
}

func read(t *testing.T, path ...string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(path...))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

// files reads a folder with all that lies in it.
func files(t *testing.T, folder string) map[string]string {
	t.Helper()
	all := map[string]string{}
	err := filepath.WalkDir(folder, func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		name, err := filepath.Rel(folder, path)
		all[name] = read(t, path)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all
}

// until waits for something to come true.
func until(t *testing.T, what string, holds func() bool) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); !holds(); time.Sleep(10 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("never came: " + what)
		}
	}
}
