package command

import (
	"bytes"
	"context"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hotroom/knowledge"
)

// demoWith is a folder with the demo and one text in its runs exchanged.
func demoWith(t *testing.T, old, changed string) string {
	t.Helper()
	folder := t.TempDir()
	if err := os.CopyFS(folder, knowledge.Demo()); err != nil {
		t.Fatal(err)
	}
	text, err := fs.ReadFile(knowledge.Demo(), "runs.csv")
	if err != nil || !bytes.Contains(text, []byte(old)) {
		t.Fatalf("%v: the demo has no %q", err, old)
	}
	if err := os.WriteFile(filepath.Join(folder, "runs.csv"), bytes.Replace(text, []byte(old), []byte(changed), 1), 0o600); err != nil {
		t.Fatal(err)
	}
	return folder
}

// A run that nothing else explains is a warning at its place, and no mistake.
func TestCheckNamesOutliers(t *testing.T) {
	folder := demoWith(t, "4.4,1.16,188,56.1,settled", "4.4,1.16,188,96.1,settled")
	var out bytes.Buffer
	s := quiet()
	s.Out = &out
	code := Main(context.Background(), []string{"check", "--knowledge", folder}, s, nil)
	first, rest, _ := strings.Cut(out.String(), "\n")
	if code != exitAnswered || !strings.HasPrefix(first, "runs.csv:8:1: warning: the run 2025-02-05-gneiss-v10 is ") ||
		!strings.HasSuffix(first, " standard deviations hotter than the board's other runs and all other boards say: "+
			"check its room, probe, firmware and power; it still counts until it is corrected or removed") {
		t.Errorf("exit code %d, %q", code, first)
	}
	if !strings.Contains(rest, "0 mistakes and 1 warning") {
		t.Errorf("then %q", rest)
	}
	out.Reset()
	if code := Main(context.Background(), []string{"backtest", "--knowledge", folder, "--plain"}, s, nil); code != exitAnswered || !strings.Contains(out.String(), "Runs that nothing else explains.\n2025-02-05-gneiss-v10: ") {
		t.Errorf("exit code %d, %s", code, out.String())
	}
}
