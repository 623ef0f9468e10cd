package ranking_test

import (
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor"
	"hotroom/advisor/ranking"
	"hotroom/knowledge"
)

func kept(row *ranking.Row) float64 {
	if row.Margin.KeptC == nil {
		return -1e9
	}
	return *row.Margin.KeptC
}

// Whatever boards cost, the marks hold what they promise.
func TestMarksHold(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		s := demo(t, func(boards []knowledge.Board) []knowledge.Board {
			for i := range boards {
				boards[i].Price = nil
				if rapid.Bool().Draw(r, "has a price") {
					boards[i].Price = number(float64(rapid.IntRange(50, 60).Draw(r, "price")))
				}
			}
			return boards
		})
		q := advisor.Question{Chip: "v10", RoomC: number(rapid.Float64Range(10, 50).Draw(r, "room"))}
		ranked := rank(t, s, q, ranking.Options{})
		cheapest := 0
		for i := range ranked.Rows {
			a := &ranked.Rows[i]
			if a.Cheapest {
				cheapest++
			}
			for j := range ranked.Rows {
				holds(r, a, &ranked.Rows[j])
			}
		}
		if cheapest > 1 {
			r.Fatalf("%d boards are the cheapest", cheapest)
		}
	})
}

func holds(r *rapid.T, a, b *ranking.Row) {
	priced := a.Price != nil && b.Price != nil
	if a.Cheapest && priced && b.Verdict == advisor.Yes && *b.Price < *a.Price {
		r.Fatalf("%s is marked cheapest, and %s is a yes for less", a.Board, b.Board)
	}
	if a.Unbeaten && priced && b.Verdict != advisor.No && *b.Price < *a.Price && kept(b) > kept(a) {
		r.Fatalf("%s is marked unbeaten, and %s beats it", a.Board, b.Board)
	}
	if by := a.BeatenBy; by != nil && by.Board == b.Board &&
		(*b.Price >= *a.Price || b.Score < a.Score || kept(b) < kept(a) || b.Clock.SustainedGHz < a.Clock.SustainedGHz) {
		r.Fatalf("%s is not beaten by %s", a.Board, b.Board)
	}
}
