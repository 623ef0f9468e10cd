package advisor_test

import (
	"runtime"
	"testing"

	"hotroom/advisor"
	"hotroom/advisor/air"
	"hotroom/advisor/balance"
	"hotroom/advisor/heat"
	"hotroom/advisor/ranking"
	"hotroom/advisor/regulator"
	"hotroom/knowledge"
	"hotroom/knowledge/ratio"
)

// bareBalance is one balance of a usual board, solved.
func bareBalance() {
	c := balance.Case{
		RoomC: 33, PressurePa: air.Pressure(0), AirspeedMS: 0.5, CaseHeatW: 120, CaseRisePerW: air.CaseRisePerW(60, 33, air.Pressure(0)),
		Loss:        regulator.Line{At25W: 18, PerKW: 0.06},
		Path:        heat.Path{SinkAreaM2: 0.05, SinkHeightM: 0.03, PadKPerW: 0.25, Factor: 0.9, BoardAreaM2: 0.01},
		SocketRiseK: 12, Coefficients: balance.Coefficients{0, 1, 1},
	}
	c.Solve()
}

// TestRatios holds the pace of answering against bare balances, ranking against
// answering, and ten times the knowledge against the knowledge.
func TestRatios(t *testing.T) {
	ratio.Skip(t)
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1)) // a ranking asks on all, an answer on one
	s := demo(t)
	yes, no := advisor.Question{Board: "gneiss", Chip: "v10", RoomC: number(24)}, advisor.Question{Board: "flint", Chip: "v10", RoomC: number(33)}
	answer := func(q advisor.Question) func() {
		return func() {
			if _, err := advisor.Advise(t.Context(), s, q); err != nil {
				t.Fatal(err)
			}
		}
	}
	ratio.AtMost(t, "an answer that is a yes, in balances", ratio.Of(answer(yes), bareBalance), 40)
	ratio.AtMost(t, "an answer that is none, with what would change it, in balances", ratio.Of(answer(no), bareBalance), 100)
	few, many := grownUp(t, 100), grownUp(t, 1000)
	ratio.AtMost(t, "1,000 boards ranked over 1,000 bare balances", ratio.Of(many.rank, bareBalance)/1000, 25)
	ratio.AtMost(t, "1,000 boards ranked over 1,000 answers about one of them", ratio.Of(many.rank, many.answer)/1000, 1.5)
	for name, pair := range map[string][2]func(){
		"read": {many.read, few.read}, "learned from": {many.learn, few.learn}, "ranked": {many.rank, few.rank},
	} {
		ratio.AtMost(t, "ten times the boards and runs, "+name, ratio.Of(pair[0], pair[1]), 20)
	}
	ratio.AtMost(t, "ten times the boards and runs, one answered", ratio.Of(many.answer, few.answer), 1.5)
}

// grownWork is what is done with a demo of many boards, ten runs each.
type grownWork struct{ read, learn, rank, answer func() }

func grownUp(t *testing.T, boards int) grownWork {
	folder := grown(t, boards, 10)
	base, problems := knowledge.Read(folder)
	if base == nil {
		t.Fatal(problems[:min(len(problems), 5)])
	}
	s, err := advisor.NewSnapshot(base, defaultBook(), "test")
	if err != nil {
		t.Fatal(err)
	}
	q := advisor.Question{Chip: "v10", RoomC: number(30)}
	one := q
	one.Board = "g3"
	must := func(err error) {
		if err != nil {
			t.Fatal(err)
		}
	}
	return grownWork{
		read: func() { knowledge.Read(folder) },
		learn: func() {
			_, err := advisor.NewSnapshot(base, defaultBook(), "test")
			must(err)
		},
		rank: func() {
			_, err := ranking.Rank(t.Context(), s, q, ranking.Options{Top: 10})
			must(err)
		},
		answer: func() {
			_, err := advisor.AdviseBriefly(t.Context(), s, one)
			must(err)
		},
	}
}

func BenchmarkBareBalance(b *testing.B) {
	for b.Loop() {
		bareBalance()
	}
}
