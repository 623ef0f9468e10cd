package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"strconv"

	"github.com/rogpeppe/go-internal/testscript"
)

// exitCode is the script command "exitcode CODE OUT ERR PROGRAM ARGS…": it
// runs a program, wants that very code, and writes the two streams to files.
func exitCode(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 4 {
		ts.Fatalf("usage: exitcode CODE OUT ERR PROGRAM ARGS…")
	}
	want, err := strconv.Atoi(args[0])
	ts.Check(err)
	path, err := lookPath(ts, args[3])
	ts.Check(err)
	var out, messages bytes.Buffer
	c := exec.Command(path, args[4:]...)
	c.Dir, c.Stdout, c.Stderr = ts.MkAbs("."), &out, &messages
	c.Env = append(os.Environ(), "HOME="+ts.Getenv("HOME"), "XDG_STATE_HOME="+ts.Getenv("XDG_STATE_HOME"))
	got := 0
	if err := c.Run(); err != nil {
		exit, ok := errors.AsType[*exec.ExitError](err)
		if !ok {
			ts.Fatalf("%s: %v", args[3], err)
		}
		got = exit.ExitCode()
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), out.Bytes(), 0o600))
	ts.Check(os.WriteFile(ts.MkAbs(args[2]), messages.Bytes(), 0o600))
	if got != want {
		ts.Fatalf("exit code %d, want %d\nstdout:\n%s\nstderr:\n%s", got, want, &out, &messages)
	}
}

func lookPath(ts *testscript.TestScript, name string) (string, error) {
	if path, err := exec.LookPath(name); err == nil {
		return path, nil
	}
	ts.Logf("not found in PATH: %s", ts.Getenv("PATH"))
	return "", exec.ErrNotFound
}
