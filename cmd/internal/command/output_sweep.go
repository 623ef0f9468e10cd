package command

import (
	"strings"

	"hotroom/advisor"
	"hotroom/advisor/sweep"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge"
)

// sweep shows the steps as a table and as a chart; plain, the chart's own words
// say both.
func (st style) sweep(base *knowledge.Base, w sweep.Sweep) string {
	drawn := picture.Sweep(base, w)
	if st.plain {
		return drawn.Text(st.lineWidth(), true)
	}
	var b strings.Builder
	b.WriteString(st.title(drawn.Title + ": " + drawn.Subtitle))
	b.WriteString("\n")
	if table, ok := st.grid(sweepColumns(&w)); ok {
		b.WriteString(table + st.sweepKey(&w) + "\n")
	}
	drawn.Title, drawn.Subtitle, drawn.Notes = "", "", nil
	b.WriteString(strings.TrimLeft(drawn.Text(st.width, false), "\n"))
	b.WriteString(st.list("Notes", append(w.Notes, makersWin)))
	return b.String()
}

func sweepColumns(w *sweep.Sweep) []column {
	at := column{title: "Room", unit: "°C", right: true}
	if w.Over == sweep.OverPower {
		at = column{title: "Cap", unit: "W", right: true}
	}
	hot, sure := column{title: "Hot spot", unit: "°C", right: true}, column{title: "90 % sure", unit: "°C", right: true}
	limit, kept := column{title: "Limit", unit: "°C", right: true, spare: true}, column{title: "Kept", unit: "°C", right: true}
	clock, power := column{title: "Held", unit: "GHz", right: true}, column{title: "Package", unit: "W", right: true, spare: true}
	verdict, evidence := column{title: "Verdict"}, column{title: "Rests on", spare: true}
	for i := range w.Rows {
		r := &w.Rows[i]
		at.add(figure(r.At, 2), "")
		hot.add(wholeOr(r.HotSpot.ExpectedC, unknownFigure), "")
		sure.add(interval(r.HotSpot), "")
		limit.add(wholeOr(r.Limit.ValueC, unknownFigure), "")
		kept.add(wholeOr(r.Margin.KeptC, unknownFigure), "")
		clock.add(fixed(&r.Clock.SustainedGHz, 2, ""), "")
		power.add(whole(r.Power.PackageW), "")
		verdict.add(shortVerdict(r.Verdict), verdictColour(r.Verdict))
		evidence.add(safe(r.Evidence), "")
	}
	return []column{at, hot, sure, limit, kept, clock, power, verdict, evidence}
}

func interval(h advisor.HotSpot) string {
	if h.LowC == nil || h.HighC == nil {
		return unknownFigure
	}
	return whole(*h.LowC) + " to " + whole(*h.HighC)
}

// sweepKey explains what of the table needs it.
func (st style) sweepKey(w *sweep.Sweep) string {
	lines := [][2]string{{"Kept", keptMeans}}
	for i := range w.Rows {
		if w.Rows[i].HotSpot.ExpectedC == nil {
			lines = append(lines, [2]string{unknownFigure, "does not settle below 250 °C"})
			break
		}
	}
	return "\n" + st.table(lines)
}
