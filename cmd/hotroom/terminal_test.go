package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

// screen is the prompt in a real terminal of tmux.
type screen struct {
	t      *testing.T
	socket string
}

// open starts a command in a new terminal. The test is skipped, loudly, where
// there is no tmux.
func open(t *testing.T, columns int, command string) *screen {
	t.Helper()
	if _, err := exec.LookPath("tmux"); err != nil {
		t.Skip("SKIPPED: tmux is not installed, so the prompt was NOT tried in a real terminal")
	}
	s := &screen{t, filepath.Join(t.TempDir(), "socket")}
	s.tmux("-f", os.DevNull, "new-session", "-d", "-x", strconv.Itoa(columns), "-y", "200", "sh")
	t.Cleanup(func() { _ = exec.Command("tmux", "-S", s.socket, "kill-server").Run() }) // it may be gone
	s.keys(command, "Enter")
	return s
}

func (s *screen) tmux(args ...string) string {
	s.t.Helper()
	out, err := exec.Command("tmux", append([]string{"-S", s.socket}, args...)...).CombinedOutput()
	if err != nil {
		s.t.Fatalf("tmux %v: %v\n%s", args, err, out)
	}
	return string(out)
}

func (s *screen) keys(keys ...string) { s.tmux(append([]string{"send-keys"}, keys...)...) }

// wait waits until the screen shows a text and gives the screen.
func (s *screen) wait(text string) string {
	s.t.Helper()
	var seen string
	for deadline := time.Now().Add(20 * time.Second); time.Now().Before(deadline); time.Sleep(30 * time.Millisecond) {
		if seen = s.tmux("capture-pane", "-p"); strings.Contains(seen, text) {
			return seen
		}
	}
	s.t.Fatalf("the screen never showed %q:\n%s", text, seen)
	return ""
}

func TestPromptInATerminal(t *testing.T) {
	state := t.TempDir()
	s := open(t, 60, "XDG_STATE_HOME="+state+" hotroom; echo left wi''th $?")
	s.wait("ask>")

	// Tab completes a name; only chips that fit the board are offered.
	s.keys("sla", "Tab")
	s.wait("ask> slate")
	s.keys("with ", "Tab", "Tab")
	if seen := s.wait("v10"); strings.Contains(seen, "q8") {
		t.Errorf("a chip of another socket is offered:\n%s", seen)
	}
	s.keys("C-c")

	// A sentence is answered within the width; the next one builds on it.
	s.keys("slate with v10 in a 32 C room", "Enter")
	seen := s.wait("Keep in mind")
	for line := range strings.Lines(seen) {
		if len([]rune(strings.TrimRight(line, "\n"))) > 60 {
			t.Errorf("wider than the terminal: %s", line)
		}
	}
	s.keys("C-l", "and at 21?", "Enter")
	s.wait("read as °C")

	// Ctrl-C throws a line away and stays.
	s.keys("set room 50", "C-c", "show", "Enter")
	s.wait("room   21 °C")

	// The history comes back with the arrow, also in the next session.
	s.keys("C-d")
	s.wait("left with 0")
	file := filepath.Join(state, "hotroom", "history")
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
		t.Fatalf("history: %v, %v", info, err)
	}
	s.keys("clear; XDG_STATE_HOME="+state+" hotroom --plain; echo back aga''in", "Enter")
	s.wait("leaves.\nask>")
	s.keys("Up", "Up")
	s.wait("ask> and at 21?")
	s.keys("C-c", "C-r")
	s.wait("bck-i-search:")
	s.keys("32 C")
	s.wait("slate with v10 in a 32 C room")
	s.keys("Enter")
	s.wait("understood: room 32 °C")
	s.keys("quit", "Enter")
	s.wait("\nback again")
}

// A long answer stops after each screen; the width follows the window.
func TestPagingAndWidth(t *testing.T) {
	s := open(t, 80, "XDG_STATE_HOME="+t.TempDir()+" hotroom; echo left")
	s.wait("ask>")
	s.tmux("resize-window", "-x", "50", "-y", "20")
	s.keys("slate with v10 at 32 C", "Enter")
	first := s.wait("more lines: any key, q ends --")
	if strings.Contains(first, "Keep in mind") {
		t.Errorf("the whole answer is shown at once:\n%s", first)
	}
	for line := range strings.Lines(first) {
		if len([]rune(strings.TrimRight(line, "\n"))) > 50 {
			t.Errorf("wider than the window: %s", line)
		}
	}
	s.keys("Space")
	s.wait("Why: score")
	s.keys("q")
	s.wait("\nask>")
	s.keys("set room 21", "Enter")
	s.wait("room   21 °C")
	s.keys("undo", "Enter")
	s.wait("room   32 °C")
	s.keys("why", "Enter")
	s.wait("Rules that fired")
	s.keys("q", "try margin.kept_c < 10", "Enter")
	s.wait("ask> try margin.kept_c < 10\nyes")
}

// A terminated prompt leaves, and leaves the terminal usable.
func TestPromptTerminated(t *testing.T) {
	file := filepath.Join(t.TempDir(), "pid")
	s := open(t, 80, "sh -c 'echo $$ > "+file+"; XDG_STATE_HOME="+t.TempDir()+" exec hotroom'; echo le''ft; stty -a")
	s.wait("ask>")
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	pid, err := strconv.Atoi(strings.TrimSpace(string(text)))
	if err != nil {
		t.Fatal(err)
	}
	if err := syscall.Kill(pid, syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	s.wait("\nleft")
	if seen := s.wait("icanon"); !strings.Contains(seen, " icanon ") {
		t.Errorf("the terminal is left in raw mode:\n%s", seen)
	}
}
