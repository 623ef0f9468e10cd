package journal_test

import (
	"os"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hotroom/knowledge"
	"hotroom/knowledge/journal"
)

// Whatever the words of a run, it is refused and the file is as it was, or it
// is read back as it was given and everything before it is untouched.
func TestAnyWords(t *testing.T) {
	dir := folder(t)
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{`"`, `""`, ",", "a,b", ` " , `, "=1+1", "é", "\ufeff", "\r", "x\ny", "#", "'"}))
		run := sample()
		run.ID, run.By, run.Note, run.Firmware = "", words.Draw(t, "by"), words.Draw(t, "note"), words.Draw(t, "firmware")
		before, err := os.ReadFile(dir + "/runs.csv")
		if err != nil {
			t.Fatal(err)
		}
		entry, refused := journal.Append(t.Context(), dir, run)
		after, err := os.ReadFile(dir + "/runs.csv")
		if err != nil {
			t.Fatal(err)
		}
		if refused != nil {
			if string(before) != string(after) {
				t.Fatalf("refused (%v), but the file changed", refused)
			}
			return
		}
		if string(after) != string(before)+entry.Line+"\n" {
			t.Fatalf("more than a line changed: %q", after[len(before):])
		}
		base, problems := knowledge.Read(os.DirFS(dir))
		if base == nil {
			t.Fatalf("it does not load: %v", problems)
		}
		got := base.Runs[len(base.Runs)-1]
		if got.ID != entry.Run.ID || got.By != strings.TrimSpace(run.By) || got.Note != strings.TrimSpace(run.Note) || got.Firmware != strings.TrimSpace(run.Firmware) {
			t.Fatalf("read back as %+v", got)
		}
	})
}
