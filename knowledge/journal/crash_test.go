package journal_test

import (
	"bufio"
	"context"
	"fmt"
	"math/rand/v2"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"time"

	"hotroom/knowledge/journal"
)

// recorderFolder tells a copy of this test program to record runs until it is
// killed.
const recorderFolder = "HOTROOM_TEST_RECORDER"

func TestMain(m *testing.M) {
	if dir := os.Getenv(recorderFolder); dir != "" {
		record(dir)
		return
	}
	os.Exit(m.Run())
}

// record acknowledges each run on the standard output once it is recorded.
func record(dir string) {
	fmt.Println("ready")
	for n := 0; ; n++ {
		run := sample()
		run.ID = fmt.Sprintf("p%d-%d", os.Getpid(), n)
		if _, err := journal.Append(context.Background(), dir, run); err != nil {
			fmt.Println("failed:", err)
			return
		}
		fmt.Println(run.ID)
	}
}

// A recorder is killed at hundreds of random instants. After each the folder
// loads; in the end every run that was acknowledged is there.
func TestKilledAtRandomInstants(t *testing.T) {
	kills := 300
	if testing.Short() {
		kills = 30
	}
	dir := folder(t)
	random := rand.New(rand.NewPCG(6, 1))
	var acknowledged []string
	for range kills {
		acknowledged = append(acknowledged, killed(t, dir, time.Duration(random.IntN(12_000))*time.Microsecond)...)
		holds(t, dir, func(func(string) bool) {})
		if len(acknowledged) > 400 { // keep the file, and so the test, short
			holds(t, dir, slices.Values(acknowledged))
			acknowledged, dir = nil, folder(t)
		}
	}
	holds(t, dir, slices.Values(acknowledged))
}

// killed starts a recorder, kills it some time after it is ready and gives the
// runs that it had acknowledged.
func killed(t *testing.T, dir string, after time.Duration) []string {
	t.Helper()
	c := exec.CommandContext(t.Context(), os.Args[0])
	c.Env = append(os.Environ(), recorderFolder+"="+dir)
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	lines := bufio.NewScanner(out)
	if !lines.Scan() || lines.Text() != "ready" {
		t.Fatalf("the recorder did not start: %q", lines.Text())
	}
	time.AfterFunc(after, func() { _ = c.Process.Kill() })
	var ids []string
	for lines.Scan() {
		if strings.HasPrefix(lines.Text(), "failed") {
			t.Fatal(lines.Text())
		}
		ids = append(ids, lines.Text())
	}
	_ = c.Wait() // it was killed
	return ids
}
