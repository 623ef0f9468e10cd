package knowledge

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"
)

// whole gives the files of the good sample, to be changed by a test.
func whole(tb testing.TB) fstest.MapFS {
	tb.Helper()
	folder := fstest.MapFS{}
	root := os.DirFS(samples + "/good/whole")
	err := fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := fs.ReadFile(root, name)
		folder[name] = &fstest.MapFile{Data: text}
		return err
	})
	if err != nil {
		tb.Fatal(err)
	}
	return folder
}

func TestReadWhole(t *testing.T) {
	b, problems := Read(whole(t))
	if problems != nil {
		t.Fatal(problems)
	}
	board, ok := b.Board("second")
	if !ok || board.Released != "2025-11-02" || *board.Heatsink.AreaCM2 != 300 || board.Heatsink.HeightMM != 30 ||
		board.Regulator.Phases != 6 || board.At.String() != "extra/more-boards.toml:1:1" {
		t.Errorf("board: %+v", board)
	}
	want := "[area_cm2 laminate_c socket_k_per_w regulator.input_v heatsink.height_mm heatsink.pad_k_per_w heatsink.factor]"
	if got := fmt.Sprint(board.Defaulted); got != want {
		t.Errorf("defaulted %s, want %s", got, want)
	}
	stage, ok := b.Stage("block")
	if !ok || len(stage.Losses) != 2 || stage.Losses[1] != (StageLoss{40, 6}) || stage.SwitchingShare != 0.5 {
		t.Errorf("stage: %+v", stage)
	}
	chip, ok := b.Chip("six")
	if !ok || chip.CoreShare != 0.92 || chip.Points[1] != (Point{4.5, 1.2, 130}) {
		t.Errorf("chip: %+v", chip)
	}
	runs := b.RunsOf("plain")
	if len(runs) != 1 || !runs[0].Counts() || *runs[0].HotC != 78.5 || runs[0].RoomC != 21.5 || runs[0].PowerLimitW != nil || runs[0].At.String() != "runs.csv:2:1" {
		t.Errorf("runs: %+v", runs)
	}
	if b.RunsOf("second") != nil {
		t.Error("the second board has runs")
	}
}

func TestLookups(t *testing.T) {
	b, _ := Read(whole(t))
	for name, found := range map[string]bool{
		"chip":        has(b.Chip("six")),
		"board":       has(b.Board("plain")),
		"stage":       has(b.Stage("pair")),
		"enclosure":   has(b.Enclosure("bench")),
		"cooler":      has(b.Cooler("tower")),
		"load":        has(b.Load("render")),
		"room":        has(b.Room("hot")),
		"thermometer": has(b.Thermometer("k")),
		"no chip":     !has(b.Chip("plain")),
		"no board":    !has(b.Board("")),
	} {
		if !found {
			t.Errorf("%s: wrong", name)
		}
	}
}

func has[T any](_ *T, ok bool) bool { return ok }

func TestDefaults(t *testing.T) {
	b := New(Base{
		Enclosures: []Enclosure{{ID: "a"}, {ID: "b", Default: true}},
		Coolers:    []Cooler{{ID: "c"}, {ID: "d"}},
		Loads:      []Load{{ID: "e", Default: true}, {ID: "f"}},
	})
	if b.DefaultEnclosure().ID != "b" || b.DefaultCooler().ID != "c" || b.DefaultLoad().ID != "e" || b.DefaultRoom() != nil {
		t.Errorf("got %v %v %v %v", b.DefaultEnclosure(), b.DefaultCooler(), b.DefaultLoad(), b.DefaultRoom())
	}
}

// The hash follows the names and contents of what is read, and nothing else.
func TestHash(t *testing.T) {
	hash := func(change func(fstest.MapFS)) string {
		folder := whole(t)
		change(folder)
		b, problems := Read(folder)
		if b == nil {
			t.Fatal(problems)
		}
		return b.Hash
	}
	same := hash(func(fstest.MapFS) {})
	if len(same) != 64 || hash(func(fstest.MapFS) {}) != same {
		t.Errorf("the hash of one folder is %s, then another", same)
	}
	if hash(func(f fstest.MapFS) { f["rules.toml"].Data = nil }) != same {
		t.Error("the rules change the hash")
	}
	if hash(func(f fstest.MapFS) { f["chips.toml"].Data = append(f["chips.toml"].Data, '#') }) == same {
		t.Error("a comment does not change the hash")
	}
	if hash(func(f fstest.MapFS) {
		f["extra/renamed.toml"] = f["extra/more-boards.toml"]
		delete(f, "extra/more-boards.toml")
	}) == same {
		t.Error("a new name does not change the hash")
	}
}

func TestUnreadable(t *testing.T) {
	huge := whole(t)
	huge["chips.toml"].Data = make([]byte, MostBytes+1)
	folder := whole(t)
	folder["boards.toml"] = &fstest.MapFile{Mode: fs.ModeDir}
	pipe := whole(t)
	pipe["boards.toml"] = &fstest.MapFile{Mode: fs.ModeNamedPipe}
	together := whole(t)
	for _, name := range []string{"extra/x.toml", "extra/y.toml"} {
		together[name] = &fstest.MapFile{Data: bytes.Repeat([]byte("\n"), MostBytes/2+1)}
	}
	for _, tt := range []struct {
		name string
		fsys fs.FS
		want string
	}{
		{"no folder", os.DirFS(samples + "/absent"), ".: the knowledge folder cannot be read (no such file or directory): give a folder that holds " + expected},
		{"too large", huge, "chips.toml: the file cannot be read (it is larger than 64 MiB): make it readable, or remove it"},
		{"a folder for a file", folder, "boards.toml: the file cannot be read (it is a folder, not a file): make it readable, or remove it"},
		{"a pipe for a file", pipe, "boards.toml: the file cannot be read (it is a pipe or a device, not a file): make it readable, or remove it"},
		{"too large together", together, "extra/y.toml: the file cannot be read (with the files before it the folder holds more than 64 MiB): make it readable, or remove it"},
	} {
		b, problems := Read(tt.fsys)
		if b != nil || problems.Error() != tt.want {
			t.Errorf("%s: got %v\n%s\nwant\n%s", tt.name, b, problems.Error(), tt.want)
		}
	}
}

func TestDemoLoads(t *testing.T) {
	b, problems := Read(Demo())
	if b == nil {
		t.Fatal(shown(problems))
	}
	if len(b.Boards) < 2 || len(b.Chips) < 2 || len(b.Runs) < 3 || b.DefaultRoom() == nil {
		t.Errorf("the demo is thin: %d boards, %d chips, %d runs", len(b.Boards), len(b.Chips), len(b.Runs))
	}
}

func BenchmarkDemo(b *testing.B) {
	for b.Loop() {
		if base, problems := Read(Demo()); base == nil {
			b.Fatal(problems)
		}
	}
}

func BenchmarkThousandBoards(b *testing.B) {
	folder := whole(b)
	board, run := string(folder["boards.toml"].Data), strings.SplitN(string(folder["runs.csv"].Data), "\n", 2)
	var boards, runs strings.Builder
	runs.WriteString(run[0] + "\n")
	for i := range 1000 {
		id := fmt.Sprintf("plain-%d", i)
		boards.WriteString(strings.Replace(board, `"plain"`, `"`+id+`"`, 1) + "\n")
		for j := range 5 {
			row := strings.Replace(run[1], "plain", id, 1)
			runs.WriteString(strings.Replace(row, "r1", fmt.Sprintf("r%d-%d", i, j), 1))
		}
	}
	folder["boards.toml"].Data, folder["runs.csv"].Data = []byte(boards.String()), []byte(runs.String())
	for b.Loop() {
		if base, problems := Read(folder); base == nil || len(base.Runs) != 5000 {
			b.Fatal(problems)
		}
	}
}
