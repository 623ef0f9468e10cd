package main

import (
	"io"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// interrupted is a verb that is interrupted at many moments.
type interrupted struct {
	name    string
	command func() *exec.Cmd
	// done reports whether its work was done, all of it; it fails the test where
	// half of it was.
	done func(o outcome) bool
}

// SIGTERM and SIGINT at up to eight moments each leave nothing half done: a verb
// ends well with its whole work, or says that it was interrupted and exits
// with 1. Before it can hear signals it ends by them.
func TestFaultInterrupted(t *testing.T) {
	for _, v := range []interrupted{interruptedRecord(t), interruptedPublish(t), interruptedReply(t), interruptedRank(t)} {
		span := took(t, func(int) *exec.Cmd { return v.command() })
		counts, struckAt := map[string]int{}, moments(8, span)
		for _, with := range []syscall.Signal{syscall.SIGTERM, syscall.SIGINT} {
			for _, after := range struckAt {
				o := struck(t, v.command(), after, with)
				done := v.done(o)
				switch {
				case o.code == 0 && done:
					counts["done"]++
				case o.code == 1 && o.messages == "hotroom: interrupted" && !done:
					counts["interrupted"]++
				case o.signal == with: // before it can hear signals, or after everything is done
					counts["ended by the signal"]++
				default:
					t.Errorf("%s, %v after %s: done %v, exit code %d (%v), it says %s", v.name, with, after, done, o.code, o.signal, o.messages)
				}
			}
		}
		t.Logf("%s: %v", v.name, counts)
		if counts["done"] == 2*len(struckAt) {
			t.Errorf("%s was never interrupted", v.name)
		}
	}
}

func interruptedRecord(t *testing.T) interrupted {
	t.Helper()
	folder := ownFolder(t)
	row, before := rowOf(t, folder, "late"), read(t, folder, "runs.csv")
	return interrupted{
		"record",
		func() *exec.Cmd {
			write(t, filepath.Join(folder, "runs.csv"), before)
			return recorded(folder, "late")
		},
		func(outcome) bool {
			now := read(t, folder, "runs.csv")
			if now != before && now != before+row {
				t.Errorf("runs.csv is\n%s", now)
			}
			return now != before
		},
	}
}

func interruptedPublish(t *testing.T) interrupted {
	t.Helper()
	now, next := guides(t) // which of them is published takes turns
	out := filepath.Join(t.TempDir(), "guide")
	now.publish(t, out)
	return interrupted{
		"publish",
		func() *exec.Cmd {
			now, next = next, now
			return now.command(out)
		},
		func(o outcome) bool {
			if left := eachWhole(t, out, now, next); left > 0 {
				t.Errorf("%d half-written files are left beside the real ones", left)
			}
			return o.code == 0 && maps.Equal(files(t, out), now.files)
		},
	}
}

func interruptedReply(t *testing.T) interrupted {
	t.Helper()
	dir := t.TempDir()
	questions, out := filepath.Join(dir, "questions.txt"), filepath.Join(dir, "answers.jsonl")
	write(t, questions, strings.Repeat("slate with a v10 at 30 C?\nwhich board for the v10?\n", 50))
	return interrupted{
		"reply",
		func() *exec.Cmd {
			_ = os.Remove(out) // there is none at first
			return hotroom("reply", questions, "--out", out)
		},
		func(o outcome) bool {
			entries, err := os.ReadDir(dir)
			if err != nil || len(entries) > 2 {
				t.Errorf("left behind: %v, %v", entries, err)
			}
			text, err := os.ReadFile(out)
			if err == nil && strings.Count(string(text), "\n") != 100 {
				t.Errorf("%d answers of 100", strings.Count(string(text), "\n"))
			}
			return err == nil
		},
	}
}

func interruptedRank(t *testing.T) interrupted {
	t.Helper()
	command := func() *exec.Cmd { return hotroom("rank", "--chip", "v10", "--json") }
	whole := try(t, command()).out
	return interrupted{"rank", command, func(o outcome) bool {
		if o.out != "" && o.out != whole {
			t.Errorf("half of it: %s", o.out)
		}
		return o.out == whole
	}}
}

// A verb that waits, for a pipe or for another recorder, notices that it is
// told to stop.
func TestFaultInterruptedWhileWaiting(t *testing.T) {
	folder := ownFolder(t)
	other, err := os.OpenFile(filepath.Join(folder, ".runs.csv.lock"), os.O_CREATE|os.O_RDWR, 0o600)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	if err := syscall.Flock(int(other.Fd()), syscall.LOCK_EX); err != nil {
		t.Fatal(err)
	}
	before := read(t, folder, "runs.csv")
	for _, args := range [][]string{{"reply", "-"}, {"reply", "/dev/stdin"}, {"reduce", "-", "--board", "slate", "--chip", "v10"}, {}} {
		c := hotroom(args...)
		in, err := c.StdinPipe()
		if err != nil {
			t.Fatal(err)
		}
		end := begin(t, c)
		// More than a pipe holds (64 KiB on Linux): when it is written, the program reads.
		if _, err := io.WriteString(in, "time_s,hot_c,room_c"+strings.Repeat("\n", 80<<10)); err != nil {
			t.Fatal(err)
		}
		if o := terminated(t, c, end); o.code != 1 || !strings.Contains(o.messages, "interrupted") {
			t.Errorf("%q: exit code %d (%v), it says %.300s", args, o.code, o.signal, o.messages)
		}
	}
	c := hotroom("record", "--knowledge", folder, "--board", "slate", "--chip", "v10", "--room", "31", "--outcome", "crashed")
	said, err := os.Create(filepath.Join(t.TempDir(), "said"))
	if err != nil {
		t.Fatal(err)
	}
	defer said.Close()
	c.Stderr = said
	end := begin(t, c)
	until(t, "the recorder at work", func() bool { return strings.Contains(read(t, said.Name()), "no date was given") })
	o := terminated(t, c, end)
	if text := read(t, said.Name()); o.code != 1 || !strings.HasSuffix(text, "\nhotroom: interrupted\n") {
		t.Errorf("record: exit code %d (%v), it says %s", o.code, o.signal, text)
	}
	if read(t, folder, "runs.csv") != before {
		t.Error("something was recorded")
	}
}

// terminated sends SIGTERM to a program that waits, and wants it to end soon.
func terminated(t *testing.T, c *exec.Cmd, end func() outcome) outcome {
	t.Helper()
	sent := time.Now()
	if err := c.Process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	o := end()
	if wait := time.Since(sent); wait > 10*time.Second {
		t.Errorf("%v goes on for %s", c.Args, wait)
	}
	return o
}
