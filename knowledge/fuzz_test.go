package knowledge

import (
	"testing"
	"testing/fstest"
)

// Reading never panics, a problem is fatal exactly when there is no base, and
// a base that is given has nothing dangling and nothing twice.
func checkRead(t *testing.T, folder fstest.MapFS) {
	t.Helper()
	b, problems := Read(folder)
	if (b == nil) != problems.Fatal() {
		t.Fatalf("base %v with problems %v", b, problems)
	}
	if b == nil {
		return
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
	f.Fuzz(func(t *testing.T, src []byte) {
		folder := whole(t)
		delete(folder, "extra/more-boards.toml")
		folder["boards.toml"].Data = src
		checkRead(t, folder)
	})
}

func FuzzStagesAndChips(f *testing.F) {
	f.Add(whole(f)["stages.toml"].Data, whole(f)["chips.toml"].Data)
	f.Fuzz(func(t *testing.T, stages, chips []byte) {
		folder := whole(t)
		folder["stages.toml"].Data, folder["chips.toml"].Data = stages, chips
		checkRead(t, folder)
	})
}

func FuzzRuns(f *testing.F) {
	f.Add(whole(f)["runs.csv"].Data)
	f.Add([]byte("\ufeffoutcome,room_c,chip,board,id,note\r\ncrashed,23,six,plain,r1,\"a, \"\"b\"\"\"\r\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		folder := whole(t)
		folder["runs.csv"].Data = src
		checkRead(t, folder)
	})
}
