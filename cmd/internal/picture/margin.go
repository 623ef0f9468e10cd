package picture

import (
	"hotroom/advisor"
	"hotroom/cmd/internal/chart"
	"hotroom/knowledge"
)

// Margin pictures one answer to scale.
func Margin(base *knowledge.Base, a advisor.Advice) chart.Margin {
	return chart.Margin{
		Title: a.Headline, Subtitle: Conditions(base, a.Question),
		Room: number(a.Question.RoomC), Expected: number(a.HotSpot.ExpectedC), Low: number(a.HotSpot.LowC), High: number(a.HotSpot.HighC),
		Limit: number(a.Limit.ValueC), Notes: []string{Evidence(base, a), makersWin},
	}
}

// Evidence says what an answer rests on and how old it is. The date is that of
// the newest run that bears on it, never today's.
func Evidence(base *knowledge.Base, a advisor.Advice) string {
	date := Newest(base, a.Runs)
	switch {
	case a.Evidence == advisor.Measured:
		return "Measured on this board with this chip; newest run of " + date + "."
	case date != "":
		return "Projected from other runs of this board; newest run of " + date + "."
	}
	return "Estimated from its parts alone: nobody has measured this board."
}

// Newest gives the newest date, YYYY-MM-DD, of some runs; "" where there is
// none.
func Newest(base *knowledge.Base, ids []string) string {
	wanted := map[string]bool{}
	for _, id := range ids {
		wanted[id] = true
	}
	newest := ""
	for i := range base.Runs {
		if r := &base.Runs[i]; wanted[r.ID] {
			newest = max(newest, r.Date)
		}
	}
	return newest
}
