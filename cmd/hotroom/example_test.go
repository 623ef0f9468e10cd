package main

import (
	"context"
	"os/exec"
	"strings"
	"testing"
	"time"

	"hotroom/cmd/internal/command"
)

// Every example of the help works when it is pasted; a server's would not end.
func TestExamples(t *testing.T) {
	for _, v := range command.Verbs() {
		if v.Name == "serve" {
			continue
		}
		for line := range strings.Lines(v.Example) {
			line = strings.TrimSpace(line)
			t.Run(line, func(t *testing.T) {
				if !strings.Contains(line, "hotroom "+v.Name) {
					t.Errorf("it is no example of %s", v.Name)
				}
				ctx, cancel := context.WithTimeout(t.Context(), 30*time.Second)
				defer cancel()
				c := exec.CommandContext(ctx, "sh", "-c", "exec "+line)
				c.Dir = t.TempDir()
				if out, err := c.CombinedOutput(); err != nil || len(out) == 0 {
					t.Errorf("%v\n%s", err, out)
				}
			})
		}
	}
}
