package command

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"hotroom/knowledge"
)

// A clock that is wrong gives runs wrong dates and nothing worse: each is
// recorded, under an id of its own, and the date that was taken is said.
func TestFaultClockJumpsWhileRecording(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "bench")
	if err := os.CopyFS(dir, knowledge.Demo()); err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(dir, "runs.csv")
	before, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	want := string(before)
	for _, tt := range []struct{ now, id string }{
		{"2026-03-29T01:59:59Z", "2026-03-29-slate-v10"},
		{"1970-01-01T00:00:00Z", "1970-01-01-slate-v10"},
		{"2026-03-29T03:00:00Z", "2026-03-29-slate-v10-2"},
		{"2106-02-07T06:28:16Z", "2106-02-07-slate-v10"},
		{"1970-01-01T00:00:01Z", "1970-01-01-slate-v10-2"},
	} {
		now, err := time.Parse(time.RFC3339, tt.now)
		if err != nil {
			t.Fatal(err)
		}
		var printed, messages strings.Builder
		streams := quiet()
		streams.Out, streams.Err = &printed, &messages
		s := NewSession(streams)
		s.Knowledge = dir
		r := recording{outcome: knowledge.Crashed, given: func(flag string) bool { return flag == "room" }, now: func() time.Time { return now }}
		r.circumstances.said.Board, r.circumstances.said.Chip, r.circumstances.said.Room = "slate", "v10", "31"
		if err := s.record(t.Context(), r, nil); err != nil {
			t.Fatalf("%s: %v", tt.now, err)
		}
		said := "no date was given: today's is taken, " + tt.now[:10] + "\nrecorded as " + tt.id + "\n"
		if !strings.HasSuffix(messages.String(), "\n"+said) || !strings.HasPrefix(printed.String(), tt.id+","+tt.now[:10]+",") {
			t.Errorf("it says\n%swant\n%sand prints %s", messages.String(), said, printed.String())
		}
		want += printed.String()
	}
	if now, err := os.ReadFile(file); err != nil || string(now) != want {
		t.Errorf("runs.csv is (%v)\n%s", err, now)
	}
}
