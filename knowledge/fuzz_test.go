package knowledge

import (
	"maps"
	"slices"
	"testing"
	"testing/fstest"

	"hotroom/knowledge/document"
	"hotroom/knowledge/storm"
)

// Reading never panics, a problem is fatal exactly when there is no base, and
// a base that is given has nothing dangling and nothing twice.
func checkRead(t *testing.T, folder fstest.MapFS) (good bool) {
	t.Helper()
	b, problems := Read(folder)
	return checkBase(t, b, problems)
}

func checkBase(t *testing.T, b *Base, problems document.Problems) (good bool) {
	if (b == nil) != problems.Fatal() {
		t.Fatalf("base %v with problems %v", b, problems)
	}
	if b == nil {
		return false
	}
	for i := range b.Boards {
		board := &b.Boards[i]
		if found, ok := b.Board(board.ID); !ok || found != board {
			t.Fatalf("board %q is given twice", board.ID)
		}
		if _, ok := b.Stage(board.Regulator.Stage); !ok || board.Regulator.Phases < 1 {
			t.Fatalf("board %q: regulator %+v", board.ID, board.Regulator)
		}
	}
	seen := map[string]bool{}
	for i := range b.Runs {
		checkRun(t, b, &b.Runs[i])
		if seen[b.Runs[i].ID] {
			t.Fatalf("run %q is given twice", b.Runs[i].ID)
		}
		seen[b.Runs[i].ID] = true
	}
	return true
}

func checkRun(t *testing.T, b *Base, r *Run) {
	t.Helper()
	board, okBoard := b.Board(r.Board)
	chip, okChip := b.Chip(r.Chip)
	_, okEnclosure := b.Enclosure(r.Enclosure)
	_, okCooler := b.Cooler(r.Cooler)
	_, okLoad := b.Load(r.Load)
	_, okThermometer := b.Thermometer(r.Thermometer)
	if !okBoard || !okChip || !okEnclosure || !okCooler || (!okLoad && r.Load != "") || (!okThermometer && r.Thermometer != "") {
		t.Fatalf("run %+v dangles", r)
	}
	if board.Socket != chip.Socket || (r.HotC != nil && *r.HotC < r.RoomC) {
		t.Fatalf("run %+v cannot be", r)
	}
	if r.Counts() != (r.Outcome == Settled || r.Outcome == Throttled) {
		t.Fatalf("run %+v lacks a value", r)
	}
}

func FuzzBoards(f *testing.F) {
	f.Add(whole(f)["boards.toml"].Data)
	f.Add(whole(f)["extra/more-boards.toml"].Data)
	good := whole(f)
	delete(good, "extra/more-boards.toml")
	f.Fuzz(func(t *testing.T, src []byte) {
		checkRead(t, with(good, "boards.toml", src))
	})
}

func FuzzStagesAndChips(f *testing.F) {
	f.Add(whole(f)["stages.toml"].Data, whole(f)["chips.toml"].Data)
	good := whole(f)
	f.Fuzz(func(t *testing.T, stages, chips []byte) {
		checkRead(t, with(with(good, "stages.toml", stages), "chips.toml", chips))
	})
}

func FuzzRuns(f *testing.F) {
	f.Add(whole(f)["runs.csv"].Data)
	f.Add([]byte("\ufeffoutcome,room_c,chip,board,id,note\r\ncrashed,23,six,plain,r1,\"a, \"\"b\"\"\"\r\n"))
	good := whole(f)
	f.Fuzz(func(t *testing.T, src []byte) {
		checkRead(t, with(good, "runs.csv", src))
	})
}

func TestStorm(t *testing.T) {
	good := whole(t)
	one := maps.Clone(good)
	delete(one, "extra/more-boards.toml")
	for name, way := range map[string]struct {
		folder       fstest.MapFS
		file, target string
	}{
		"boards": {one, boardsFile, "FuzzBoards"}, "runs": {good, runsFile, "FuzzRuns"},
	} {
		t.Run(name, func(t *testing.T) {
			files := parse(way.folder, newLoader(way.folder).listed())
			storm.Run(t, way.target, [][]byte{good[way.file].Data}, func(t *testing.T, src []byte) bool {
				altered := slices.Clone(files)
				for i, f := range files {
					if f.name == way.file {
						altered[i] = &file{name: f.name, src: src}
						altered[i].parse()
					}
				}
				b, problems := newLoader(way.folder).load(altered)
				return checkBase(t, b, problems)
			})
		})
	}
}

// with gives a folder with other bytes in one of its files.
func with(folder fstest.MapFS, name string, src []byte) fstest.MapFS {
	other := maps.Clone(folder)
	other[name] = &fstest.MapFile{Data: src}
	return other
}
