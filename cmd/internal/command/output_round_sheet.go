package command

import (
	"encoding/csv"
	"strings"

	"hotroom/advisor/round"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge"
)

// roundCSV writes a round as CSV (RFC 4180) with the field names of the JSON.
func roundCSV(r round.Round) (string, error) {
	var b strings.Builder
	w := csv.NewWriter(&b)
	if err := w.Write(sheetHeads()); err != nil {
		return "", err
	}
	for i := range r.Rows {
		if err := w.Write(safely(sheetRow(&r.Rows[i]))); err != nil {
			return "", err
		}
	}
	w.Flush()
	return b.String(), w.Error()
}

// sheetHeads are the columns of a round as Markdown and CSV.
func sheetHeads() []string {
	return []string{
		"run", "date", "board", "price", "currency", "hot_c", "over_room_c", "limit_c", "ghz", "package_w", "room_c", "minutes",
		"firmware", "outcome", "unlike", "beaten_by", "note",
	}
}

func sheetRow(row *round.Row) []string {
	beatenBy := ""
	if row.BeatenBy != nil {
		beatenBy = row.BeatenBy.Board
	}
	return []string{
		row.Run, row.Date, row.Name, given(row.Price), row.Currency, given(row.HotC), given(row.OverRoomC), given(row.LimitC), given(row.GHz),
		given(row.PackageW), given(&row.RoomC), given(row.Minutes), row.Firmware, row.Outcome, strings.Join(row.Unlike, "; "), beatenBy, row.Note,
	}
}

// given writes a number as it stands, or nothing.
func given(v *float64) string {
	if v == nil {
		return ""
	}
	return figure(*v, 4)
}

// roundMarkdown writes a round as a table for an article, with what needs
// saying of a run below it.
func roundMarkdown(base *knowledge.Base, r round.Round) string {
	drawn := picture.Round(base, r)
	var b strings.Builder
	b.WriteString("**" + inMarkdown(capital(drawn.Title+": "+drawn.Subtitle)) + "**\n\n")
	b.WriteString("| Board | Price | Hot spot, °C | Above room, K | Maker's limit, °C | Held, GHz | Package, W | Room, °C | Time, min | Firmware | Outcome | Remarks |\n")
	b.WriteString("| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | --- | --- | --- |\n")
	for i := range r.Rows {
		row := &r.Rows[i]
		cells := []string{
			row.Name, money(row.Price, row.Currency), fixed(row.HotC, 1, "–"), fixed(row.OverRoomC, 1, "–"), wholeOr(row.LimitC, "not stated"),
			fixed(row.GHz, 2, "–"), wholeOr(row.PackageW, "–"), fixed(&row.RoomC, 1, ""), wholeOr(row.Minutes, "–"),
			row.Firmware, row.Outcome, remarks(&r, row),
		}
		for n := range cells {
			cells[n] = inMarkdown(cells[n])
		}
		b.WriteString("| " + strings.Join(cells, " | ") + " |\n")
	}
	for _, note := range append(r.Notes, measuredOnly) {
		b.WriteString("\n" + inMarkdown(note) + "\n")
	}
	return b.String()
}

// remarks says of a run what the other columns do not.
func remarks(r *round.Round, row *round.Row) string {
	var parts []string
	if row.Run == r.Reference {
		parts = append(parts, "reference")
	}
	if len(row.Unlike) > 0 {
		parts = append(parts, "not like for like: "+strings.Join(row.Unlike, ", "))
	}
	if row.Note != "" {
		parts = append(parts, row.Note)
	}
	text := strings.Join(parts, "; ")
	if row.BeatenBy != nil {
		text = strings.TrimSpace(sentenceOf(text) + " " + outdone(row.BeatenBy, row.Currency))
	}
	return text
}

// inMarkdown keeps text from being taken for marks of Markdown or HTML.
func inMarkdown(text string) string {
	var b strings.Builder
	for _, r := range safe(text) {
		if strings.ContainsRune("\\`*_[]<>|&#", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}
