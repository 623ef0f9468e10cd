package journal_test

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"hotroom/knowledge"
	"hotroom/knowledge/document"
	"hotroom/knowledge/journal"
)

// folder copies the demo's knowledge.
func folder(t testing.TB) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, knowledge.Demo()); err != nil {
		t.Fatal(err)
	}
	return dir
}

func runs(t testing.TB, dir string) string {
	t.Helper()
	content, err := os.ReadFile(filepath.Join(dir, "runs.csv"))
	if err != nil {
		t.Fatal(err)
	}
	return string(content)
}

func write(t testing.TB, dir, content string) {
	t.Helper()
	if err := os.WriteFile(filepath.Join(dir, "runs.csv"), []byte(content), 0o640); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(filepath.Join(dir, "runs.csv"), 0o640); err != nil {
		t.Fatal(err)
	}
}

func number(v float64) *float64 { return &v }

func sample() knowledge.Run {
	return knowledge.Run{
		Date: "2025-06-01", Board: "slate", Chip: "v10", Enclosure: "bench", Cooler: "liquid", Thermometer: "k1", Load: "render", Setup: "shipped",
		RoomC: 22.4, Minutes: number(60), GHz: number(3.9), Volts: number(1.02), PackageW: number(131.5), HotC: number(81.2),
		Outcome: knowledge.Settled, By: "bench one", Note: `warm, "as usual"`,
	}
}

func TestAppendKeepsTheFileAsItWas(t *testing.T) {
	const header = "outcome,id,board,chip,room_c,ghz,volts,package_w,hot_c,date,enclosure,cooler,thermometer,load,setup,minutes,by,note"
	old := "settled,a,slate,v10,22,3.9,1.0,120,70,2025-01-01,bench,liquid,k1,render,rated,60,me,"
	row := `settled,2025-06-01-slate-v10,slate,v10,22.4,3.9,1.02,131.5,81.2,2025-06-01,bench,liquid,k1,render,shipped,60,bench one,"warm, ""as usual"""`
	quotedOld := `"` + strings.ReplaceAll(old, ",", `","`) + `"`
	quotedRow := `"settled","2025-06-01-slate-v10","slate","v10","22.4","3.9","1.02","131.5","81.2","2025-06-01","bench","liquid","k1","render","shipped","60","bench one","warm, ""as usual"""`
	for name, tt := range map[string]struct{ before, after string }{
		"LF":               {header + "\n" + old + "\n", row + "\n"},
		"CRLF":             {header + "\r\n" + old + "\r\n", row + "\r\n"},
		"mark":             {"\ufeff" + header + "\n" + old + "\n", row + "\n"},
		"no final newline": {header + "\n" + old, "\n" + row},
		"CRLF, none final": {header + "\r\n" + old, "\r\n" + row},
		"quoted":           {header + "\n" + quotedOld + "\n", quotedRow + "\n"},
		"header alone":     {header + "\n", row + "\n"},
		"empty line":       {header + "\n" + old + "\n\n", row + "\n"},
	} {
		dir := folder(t)
		write(t, dir, tt.before)
		entry, err := journal.Append(t.Context(), dir, sample())
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := runs(t, dir); got != tt.before+tt.after {
			t.Errorf("%s: the file is\n%q\nwant\n%q", name, got, tt.before+tt.after)
		}
		if entry.Run.ID != "2025-06-01-slate-v10" || !strings.Contains(tt.after, entry.Line) {
			t.Errorf("%s: entry %+v", name, entry)
		}
		if info, err := os.Stat(filepath.Join(dir, "runs.csv")); err != nil || info.Mode().Perm() != 0o640 {
			t.Errorf("%s: mode %v (%v)", name, info.Mode(), err)
		}
	}
}

func TestAppendBeginsAFile(t *testing.T) {
	dir := folder(t)
	if err := os.Remove(filepath.Join(dir, "runs.csv")); err != nil {
		t.Fatal(err)
	}
	if _, err := journal.Append(t.Context(), dir, sample()); err != nil {
		t.Fatal(err)
	}
	want := strings.Join(knowledge.RunColumns(), ",") + "\n" +
		`2025-06-01-slate-v10,2025-06-01,slate,v10,,bench,liquid,k1,render,shipped,,,22.4,0,0,60,3.9,1.02,131.5,81.2,settled,bench one,"warm, ""as usual"""` + "\n"
	if got := runs(t, dir); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}

func TestIDsAreMadeAndRefused(t *testing.T) {
	dir := folder(t)
	for _, want := range []string{"2025-06-01-slate-v10", "2025-06-01-slate-v10-2", "2025-06-01-slate-v10-3"} {
		entry, err := journal.Append(t.Context(), dir, sample())
		if err != nil || entry.Run.ID != want {
			t.Fatalf("got %q (%v), want %q", entry.Run.ID, err, want)
		}
	}
	run := sample()
	run.ID = "2025-06-01-slate-v10"
	before := runs(t, dir)
	_, err := journal.Append(t.Context(), dir, run)
	problems, ok := errors.AsType[document.Problems](err)
	if !ok || len(problems) != 1 || !strings.Contains(problems[0].What, `the run "2025-06-01-slate-v10" is given twice`) {
		t.Errorf("got %v", err)
	}
	if runs(t, dir) != before {
		t.Error("the file was changed")
	}
}

func TestRefusedRunsChangeNothing(t *testing.T) {
	for name, tt := range map[string]struct {
		change func(*knowledge.Run)
		want   string
	}{
		"no such board":  {func(r *knowledge.Run) { r.Board = "slat" }, `there is no board "slat": did you mean "slate"?`},
		"other socket":   {func(r *knowledge.Run) { r.Chip = "q12" }, `has socket`},
		"no power":       {func(r *knowledge.Run) { r.PackageW = nil }, `the settled run has no package_w: fill it in, or correct the outcome`},
		"below the room": {func(r *knowledge.Run) { r.HotC = number(20) }, `hot_c is 20, below the room's 22.4 °C`},
		"date":           {func(r *knowledge.Run) { r.Date = "1.6.2025" }, `date is "1.6.2025": give a date of the calendar as YYYY-MM-DD`},
		"line break":     {func(r *knowledge.Run) { r.Note = "two\nlines" }, `note holds a line break or another control character: a run is one line`},
		"impossible":     {func(r *knowledge.Run) { r.RoomC = 80 }, `room_c is 80`},
	} {
		dir := folder(t)
		before := runs(t, dir)
		run := sample()
		tt.change(&run)
		if _, err := journal.Append(t.Context(), dir, run); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: got %v, want %s", name, err, tt.want)
		}
		if _, err := journal.Preview(dir, run); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: the preview says %v", name, err)
		}
		if runs(t, dir) != before {
			t.Errorf("%s: the file was changed", name)
		}
	}
}

func TestMissingColumnIsSaid(t *testing.T) {
	dir := folder(t)
	write(t, dir, "id,board,chip,room_c,outcome\n")
	_, err := journal.Append(t.Context(), dir, sample())
	want := `runs.csv has no column "enclosure" for "bench": add it to the header, or leave the value out`
	if err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// A remark that the file has no column for is left out, and that is said.
func TestOmittedRemarks(t *testing.T) {
	dir := folder(t)
	const header = "id,board,chip,room_c,ghz,volts,package_w,hot_c,enclosure,cooler,thermometer,load,setup,outcome\n"
	write(t, dir, header)
	entry, err := journal.Append(t.Context(), dir, sample())
	want := header + "2025-06-01-slate-v10,slate,v10,22.4,3.9,1.02,131.5,81.2,bench,liquid,k1,render,shipped,settled\n"
	if err != nil || strings.Join(entry.Omitted, " ") != "date minutes by note" || runs(t, dir) != want {
		t.Errorf("got %v, %v,\n%s", entry.Omitted, err, runs(t, dir))
	}
}

func TestPreviewWritesNothing(t *testing.T) {
	dir := folder(t)
	before := runs(t, dir)
	entry, err := journal.Preview(dir, sample())
	if err != nil || entry.Run.ID != "2025-06-01-slate-v10" || runs(t, dir) != before {
		t.Errorf("got %+v, %v", entry, err)
	}
	if names, _ := fs.Glob(os.DirFS(dir), ".*"); len(names) > 0 {
		t.Errorf("left behind: %v", names)
	}
}

func TestLinkStaysALink(t *testing.T) {
	dir, elsewhere := folder(t), t.TempDir()
	real := filepath.Join(elsewhere, "mine.csv")
	if err := os.Rename(filepath.Join(dir, "runs.csv"), real); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(real, filepath.Join(dir, "runs.csv")); err != nil {
		t.Fatal(err)
	}
	if _, err := journal.Append(t.Context(), dir, sample()); err != nil {
		t.Fatal(err)
	}
	info, err := os.Lstat(filepath.Join(dir, "runs.csv"))
	if err != nil || info.Mode()&fs.ModeSymlink == 0 || !strings.Contains(runs(t, dir), "2025-06-01-slate-v10") {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
}

// Many recorders at once all succeed, and the file holds every run.
func TestRecordersAtOnce(t *testing.T) {
	dir := folder(t)
	var all sync.WaitGroup
	failed := make(chan error, 100)
	for recorder := range 8 {
		all.Go(func() {
			for n := range 5 {
				run := sample()
				run.ID = fmt.Sprintf("r%d-%d", recorder, n)
				if _, err := journal.Append(t.Context(), dir, run); err != nil {
					failed <- err
				}
			}
		})
	}
	all.Wait()
	close(failed)
	for err := range failed {
		t.Error(err)
	}
	holds(t, dir, func(yield func(string) bool) {
		for recorder := range 8 {
			for n := range 5 {
				if !yield(fmt.Sprintf("r%d-%d", recorder, n)) {
					return
				}
			}
		}
	})
}

// holds checks that the folder loads and holds the runs.
func holds(t testing.TB, dir string, ids func(func(string) bool)) {
	t.Helper()
	base, problems := knowledge.Read(os.DirFS(dir))
	if base == nil {
		t.Fatalf("the folder does not load: %v", problems)
	}
	known := make(map[string]bool)
	for _, r := range base.Runs {
		known[r.ID] = true
	}
	for id := range ids {
		if !known[id] {
			t.Errorf("the run %s was acknowledged and is not there", id)
		}
	}
}
