package advisor_test

import (
	"bytes"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"strings"
	"testing"
	"testing/fstest"

	"hotroom/advisor"
	"hotroom/advisor/ranking"
	"hotroom/knowledge"
)

// grown is the demo with more boards: copies with other ids and heatsinks, and
// with runs of their own.
func grown(t testing.TB, boards, runsEach int) fstest.MapFS {
	t.Helper()
	folder := fstest.MapFS{}
	for _, name := range []string{"chips.toml", "stages.toml", "surroundings.toml", "boards.toml", "runs.csv"} {
		text, err := fs.ReadFile(knowledge.Demo(), name)
		if err != nil {
			t.Fatal(err)
		}
		folder[name] = &fstest.MapFile{Data: text}
	}
	rng := rand.New(rand.NewPCG(1, uint64(boards)))
	var text, runs bytes.Buffer
	header, _, _ := strings.Cut(string(folder["runs.csv"].Data), "\n")
	fmt.Fprintln(&runs, "id,board,chip,enclosure,cooler,thermometer,load,setup,room_c,ghz,volts,package_w,hot_c,outcome")
	if !strings.HasPrefix(header, "id,") {
		t.Fatal("the demo's runs do not begin with an id")
	}
	for i := range boards {
		fmt.Fprintf(&text, growthBoard, i, i, 80+rng.IntN(250), 5+rng.IntN(10), 120+rng.IntN(200))
		for r := range runsEach {
			fmt.Fprintf(&runs, "r%d-%d,g%d,v10,bench,liquid,k1,render,shipped,%.1f,4.10,1.06,146,%.1f,settled\n", i, r, i, 20+4*rng.Float64(), 60+25*rng.Float64())
		}
	}
	folder["boards.toml"], folder["runs.csv"] = &fstest.MapFile{Data: text.Bytes()}, &fstest.MapFile{Data: runs.Bytes()}
	return folder
}

const growthBoard = `[[board]]
id = "g%d"
name = "Grown %d"
socket = "VH3"
price = %d
currency = "EUR"
source = "invented"
[board.limit]
power_w = 190
hot_spot_c = 110
[board.regulator]
phases = %d
stage = "hl-double"
switching_khz = 350
inductor_nh = 270
inductor_mohm = 0.6
[board.heatsink]
shape = "finned"
mass_g = %d
`

// BenchmarkGrowth shows how reading, working up, ranking and answering grow
// with the knowledge: ten runs a board.
func BenchmarkGrowth(b *testing.B) {
	for _, boards := range []int{10, 100, 1000, 10_000} {
		folder := grown(b, boards, 10)
		base, problems := knowledge.Read(folder)
		if base == nil {
			b.Fatal(problems[:min(len(problems), 5)])
		}
		s, err := advisor.NewSnapshot(base, defaultBook(), "test")
		if err != nil {
			b.Fatal(err)
		}
		q := advisor.Question{Chip: "v10", RoomC: number(30)}
		b.Run(fmt.Sprintf("read/%d", boards), func(b *testing.B) {
			for b.Loop() {
				knowledge.Read(folder)
			}
		})
		b.Run(fmt.Sprintf("learn/%d", boards), func(b *testing.B) {
			for b.Loop() {
				if _, err := advisor.NewSnapshot(base, defaultBook(), "test"); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprintf("rank/%d", boards), func(b *testing.B) {
			for b.Loop() {
				if _, err := ranking.Rank(b.Context(), s, q, ranking.Options{Top: 10}); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprintf("answer/%d", boards), func(b *testing.B) {
			one := q
			one.Board = "g3"
			for b.Loop() {
				if _, err := advisor.AdviseBriefly(b.Context(), s, one); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
