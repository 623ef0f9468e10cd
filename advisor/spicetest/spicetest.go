// Package spicetest runs netlists through ngspice, as an independent solver for
// tests.
package spicetest

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
)

// Batch runs a netlist through ngspice in batch mode, in a folder of its own,
// and gives what it printed and that folder. Without ngspice the test is
// skipped, but never in CI.
func Batch(t *testing.T, netlist string) (printed []byte, folder string) {
	t.Helper()
	if _, err := exec.LookPath("ngspice"); err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("ngspice is not installed: CI must install it")
		}
		t.Skip("SKIPPED, NOT CHECKED: ngspice is not installed (Debian package ngspice)")
	}
	folder = t.TempDir()
	if err := os.WriteFile(filepath.Join(folder, "net.cir"), []byte(netlist), 0o600); err != nil {
		t.Fatal(err)
	}
	c := exec.CommandContext(t.Context(), "ngspice", "-b", "net.cir")
	c.Dir = folder
	printed, err := c.CombinedOutput()
	if _, failed := errors.AsType[*exec.ExitError](err); err != nil && !failed {
		t.Fatal(err) // but it ends with 1 although all went well
	}
	return printed, folder
}

// Values runs a netlist and reads what it prints as "name = value".
func Values(t *testing.T, netlist string) map[string]float64 {
	t.Helper()
	printed, _ := Batch(t, netlist)
	values := make(map[string]float64)
	for _, m := range regexp.MustCompile(`(?m)^\s*(\w[\w()]*)\s*=\s*([-+.0-9eE]+)`).FindAllSubmatch(printed, -1) {
		if v, err := strconv.ParseFloat(string(bytes.TrimSpace(m[2])), 64); err == nil {
			values[string(m[1])] = v
		}
	}
	if len(values) == 0 {
		t.Fatalf("ngspice printed no value:\n%s", printed)
	}
	return values
}
