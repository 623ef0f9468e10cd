package command

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// On a terminal a large log shows how far it is read, and wipes that in the
// end; elsewhere nothing is shown.
func TestReadingShowsItsProgress(t *testing.T) {
	var log strings.Builder
	log.WriteString("time_s,hot_c,room_c\n")
	for i := range 300_000 {
		fmt.Fprintf(&log, "%d,%.2f,22.00\n", i, 40+float64(i%100)/100)
	}
	path := filepath.Join(t.TempDir(), "large.csv")
	if err := os.WriteFile(path, []byte(log.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, terminal := range []bool{true, false} {
		var messages bytes.Buffer
		s := NewSession(Streams{Err: &messages, ErrTerminal: terminal})
		l, err := s.readLog(t.Context(), logFile{path, path}, nil)
		if err != nil || len(l.TimeS) != 300_000 {
			t.Fatal(err)
		}
		said := messages.String()
		if shown := strings.Contains(said, "\rreading large.csv: "); shown != terminal {
			t.Errorf("on a terminal %v: %q", terminal, said)
		}
		if terminal && !strings.HasSuffix(said, " \r") {
			t.Errorf("it is not wiped: %q", said[max(0, len(said)-80):])
		}
	}
}
