package main

import (
	"bufio"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// Where results go is full: every verb says so and fails; a run that is
// recorded stays so, and that is said before.
func TestFaultFullOutput(t *testing.T) {
	full := func(args ...string) outcome {
		c := hotroom(args...)
		out, err := os.OpenFile("/dev/full", os.O_WRONLY, 0)
		if err != nil {
			t.Skipf("SKIPPED: there is no /dev/full (%v), so a full output was NOT tried", err)
		}
		defer out.Close()
		c.Stdout, c.Stdin = out, strings.NewReader("slate with a v10\n")
		return try(t, c)
	}
	const cannot = "the answer cannot be written (write /dev/stdout: no space left on device): make room where it goes, or send it elsewhere"
	for _, args := range [][]string{
		{"ask", "--board", "slate", "--chip", "v10"},
		{"rank", "--chip", "v10", "--json"},
		{"compare", "slate", "flint", "--chip", "v10"},
		{"sweep", "--board", "slate", "--chip", "v10"},
		{"round", "--chip", "v10"},
		{"backtest"},
		{"reply", "-"},
		{"reply", "-", "--format", "csv"},
		{"facts"},
		{"check"},
		{"help"},
		{"rank", "--help"},
		{"--version"},
		{"completion", "bash"},
	} {
		full(args...).wants(t, strings.Join(args, " "), 1, "hotroom: "+cannot)
	}
	full().wants(t, "piped lines", 1, "understood: board slate (Gorsebank Slate); chip v10 (Varnholt V10) "+cannot)

	folder := ownFolder(t)
	before, row := read(t, folder, "runs.csv"), rowOf(t, folder, "late")
	full(recorded(folder, "late").Args[1:]...).wants(t, "record", 1, "recorded as late hotroom: "+cannot)
	if read(t, folder, "runs.csv") != before+row {
		t.Error("the run that was acknowledged is not there")
	}
}

// A file that is named and is a pipe or a device is written to, and not replaced
// by a file.
func TestFaultOutIsNoFile(t *testing.T) {
	pipe := filepath.Join(t.TempDir(), "answers")
	if err := syscall.Mkfifo(pipe, 0o600); err != nil {
		t.Skipf("SKIPPED: no named pipe can be made here (%v), so one was NOT written to", err)
	}
	reader, err := os.OpenFile(pipe, os.O_RDWR, 0) // that nobody waits for the other
	if err != nil {
		t.Fatal(err)
	}
	defer reader.Close()
	c := hotroom("reply", "-", "--out", pipe)
	c.Stdin = strings.NewReader("slate with a v10\n")
	try(t, c).wants(t, "reply", 0, "wrote the answers to "+pipe)
	if info, err := os.Lstat(pipe); err != nil || info.Mode()&os.ModeNamedPipe == 0 {
		t.Fatalf("the pipe was replaced: %v, %v", info, err)
	}
	if line, err := bufio.NewReader(reader).ReadString('\n'); err != nil || !strings.HasPrefix(line, "**1**") {
		t.Errorf("out of the pipe comes %q, %v", line, err)
	}
}

// A reader that has seen enough, as head has, ends the program without a word;
// what was recorded stays so.
func TestFaultReaderLeaves(t *testing.T) {
	folder := ownFolder(t)
	before, row := read(t, folder, "runs.csv"), rowOf(t, folder, "late")
	for _, args := range [][]string{
		{"rank", "--chip", "v10"},
		{"sweep", "--board", "slate", "--chip", "v10", "--json"},
		{"help"},
		{"reply", "-"},
		{},
		recorded(folder, "late").Args[1:],
	} {
		c := hotroom(args...)
		r, w, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		c.Stdout, c.Stdin = w, strings.NewReader("slate with a v10\nfen with a q16\n")
		_ = r.Close() // the reader
		o := try(t, c)
		_ = w.Close() // ours of it
		if o.signal != syscall.SIGPIPE || strings.Contains(o.messages, "hotroom:") {
			t.Errorf("%v: exit code %d, signal %v, it says %s", args, o.code, o.signal, o.messages)
		}
	}
	if read(t, folder, "runs.csv") != before+row {
		t.Error("the run is not there")
	}
}

// A server whose log nobody reads any more goes on answering.
func TestFaultLogReaderLeaves(t *testing.T) {
	c := hotroom("serve", "--listen", "127.0.0.1:0", "--drain", "0s", "--plain")
	r, w, err := os.Pipe()
	if err != nil {
		t.Fatal(err)
	}
	c.Stderr = w
	end := begin(t, c)
	_ = w.Close() // ours of it
	line, err := bufio.NewReader(r).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	_ = r.Close() // the reader
	s := &server{address: strings.TrimSpace(strings.TrimPrefix(line, "hotroom serves http://")), process: c.Process}
	for range 3 { // the log is written once a second
		if status, _ := s.get(t, "/v1/advice?board=slate&chip=v10"); status != 200 {
			t.Errorf("it answers with %d", status)
		}
		time.Sleep(600 * time.Millisecond)
	}
	if err := s.process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	if o := end(); o.code != 0 {
		t.Errorf("exit code %d, signal %v", o.code, o.signal)
	}
}
