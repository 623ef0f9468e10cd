package command

import (
	"fmt"
	"strings"

	"hotroom/advisor/round"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge"
)

// round shows a round as a table and a chart, then what there is to say of
// each run; plain, the chart's own words stand for the first two.
func (st style) round(base *knowledge.Base, r round.Round) string {
	drawn := picture.Round(base, r)
	drawn.Notes = nil
	for i := range drawn.Rows {
		drawn.Rows[i].Unlike = "" // said of each run below
	}
	var b strings.Builder
	if table, ok := st.grid(roundColumns(&r)); ok && !st.plain {
		b.WriteString(st.title(drawn.Title + ": " + drawn.Subtitle))
		b.WriteString("\n" + table + "\n" + st.table(roundKey()) + "\n")
		drawn.Title, drawn.Subtitle = "", ""
	}
	b.WriteString(strings.TrimLeft(drawn.Text(st.lineWidth(), st.plain), "\n"))
	b.WriteString(st.aboutRuns(&r))
	b.WriteString(st.list("Notes", append(r.Notes, measuredOnly)))
	return b.String()
}

const measuredOnly = "These are readings of one bench on one day each, not limits: the makers' stated limits win."

func roundKey() [][2]string {
	return [][2]string{
		{"Rise", "of the hot spot over the room"},
		{"Alike", "like for like with the reference (ref.): same conditions and held clock"},
	}
}

func roundColumns(r *round.Round) []column {
	board, price := column{title: "Board", flex: true}, column{title: "Price", right: true, spare: true}
	hot, over := column{title: "Hot", unit: "°C", right: true}, column{title: "Rise", unit: "K", right: true}
	limit, clock := column{title: "Limit", unit: "°C", right: true}, column{title: "Held", unit: "GHz", right: true}
	power, room := column{title: "Chip", unit: "W", right: true}, column{title: "Room", unit: "°C", right: true, spare: true}
	minutes, outcome := column{title: "Time", unit: "min", right: true, spare: true}, column{title: "Outcome"}
	alike := column{title: "Alike"}
	for i := range r.Rows {
		row := &r.Rows[i]
		board.add(safe(row.Name), "")
		price.add(priceOnly(row.Price), "")
		hot.add(fixed(row.HotC, 1, unknownFigure), "")
		over.add(fixed(row.OverRoomC, 1, unknownFigure), "")
		limit.add(wholeOr(row.LimitC, unknownFigure), "")
		clock.add(fixed(row.GHz, 2, unknownFigure), "")
		power.add(wholeOr(row.PackageW, unknownFigure), "")
		room.add(fixed(&row.RoomC, 1, ""), "")
		minutes.add(wholeOr(row.Minutes, unknownFigure), "")
		outcome.add(safe(row.Outcome), outcomeColour(row.Outcome))
		alike.add(likeWord(r, row), "")
	}
	price.unit = oneCurrency(r.Rows)
	return []column{board, price, hot, over, limit, clock, power, room, minutes, outcome, alike}
}

// likeWord says whether a run may be compared with the reference.
func likeWord(r *round.Round, row *round.Row) string {
	switch {
	case row.Run == r.Reference:
		return "ref."
	case len(row.Unlike) > 0:
		return "no"
	}
	return "yes"
}

func outcomeColour(outcome string) string {
	switch outcome {
	case knowledge.Settled:
		return ""
	case knowledge.Crashed:
		return red
	}
	return yellow
}

func priceOnly(v *float64) string {
	if v == nil {
		return unknownFigure
	}
	return money(v, "")
}

// oneCurrency gives the currency of all prices, or nothing where they differ.
func oneCurrency(rows []round.Row) string {
	currency := ""
	for i := range rows {
		switch c := rows[i].Currency; {
		case rows[i].Price == nil || c == currency:
		case currency == "":
			currency = c
		default:
			return "mixed"
		}
	}
	return safe(currency)
}

// aboutRuns says of each run what the table has no room for.
func (st style) aboutRuns(r *round.Round) string {
	var b strings.Builder
	b.WriteString(st.heading("The runs"))
	for i := range r.Rows {
		row := &r.Rows[i]
		b.WriteString(st.hanging(st.bullet()+safe(row.Run)+": ", safe(runWords(r, row)), 4))
	}
	return b.String()
}

func runWords(r *round.Round, row *round.Row) string {
	parts := []string{row.Name}
	if row.Firmware != "" {
		parts = append(parts, "firmware "+row.Firmware)
	}
	if row.Note != "" {
		parts = append(parts, row.Note)
	}
	if row.Run == r.Reference {
		parts = append(parts, "the reference that the others are held against")
	}
	if len(row.Unlike) > 0 {
		parts = append(parts, "not like for like: "+strings.Join(row.Unlike, ", "))
	}
	text := strings.Join(parts, "; ") + "."
	if row.BeatenBy != nil {
		text += " " + outdone(row.BeatenBy, row.Currency)
	}
	return text
}

// outdone says which cheaper board did better, and by how much.
func outdone(by *round.Beaten, currency string) string {
	text := fmt.Sprintf("The %s costs %s less", by.Name, money(&by.Price, currency))
	if by.HotC == nil {
		return text + " and stayed up under the same conditions."
	}
	text += fmt.Sprintf(" and was %s °C cooler", figure(*by.HotC, 1))
	if by.GHz != nil && *by.GHz >= 0.005 {
		text += fmt.Sprintf(" at %.2f GHz more", *by.GHz)
	} else {
		text += " at no lower clock"
	}
	return text + ", under the same conditions."
}
