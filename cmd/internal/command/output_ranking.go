package command

import (
	"fmt"
	"strings"

	"hotroom/advisor"
	"hotroom/advisor/ranking"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge"
)

// The marks of a ranking.
const (
	cheapestMark = "*"
	unbeatenMark = "+"
)

// keptMeans explains the kept margin.
const keptMeans = "what is left to the limit at 95 % confidence; below 0 the limit may be passed"

// makersWin closes every table of answers.
const makersWin = "The limits and instructions of the makers win over these answers. Each is an estimate with a margin; `hotroom ask` gives its cautions."

// ranking lays a ranking out for people.
func (st style) ranking(base *knowledge.Base, r ranking.Ranking) string {
	var b strings.Builder
	b.WriteString(st.title("Boards for "+conditions(base, r.Question)) + "\n")
	table, ok := "", false
	if !st.plain {
		table, ok = st.grid(rankColumns(r.Rows))
	}
	switch {
	case len(r.Rows) == 0:
		b.WriteString("No board is left to show.\n")
	case ok:
		b.WriteString(table + st.rankKey(r.Rows, table) + st.heldBack(r.Rows))
	default:
		for i := range r.Rows {
			b.WriteString(st.hanging("", rankWords(&r.Rows[i]), 4))
		}
	}
	b.WriteString(st.list("Notes", append(r.Notes, makersWin)))
	return b.String()
}

// title is the first line of an answer in a table.
func (st style) title(text string) string {
	wrapped := strings.TrimSuffix(st.paragraph(safe(text)+".", 2), "\n")
	return st.paint(wrapped, bold) + "\n"
}

// conditions says for which chip and under which conditions something holds.
func conditions(base *knowledge.Base, q advisor.Question) string {
	return picture.ChipName(base, q.Chip) + ": " + picture.Conditions(base, q)
}

func rankColumns(rows []ranking.Row) []column {
	place, name := column{title: "Place"}, column{title: "Board", flex: true}
	price, verdict := column{title: "Price", right: true, spare: true}, column{title: "Verdict"}
	kept, hot := column{title: "Kept", unit: "°C", right: true}, column{title: "Hot spot", unit: "°C", right: true}
	clock, evidence := column{title: "Held", unit: "GHz", right: true}, column{title: "Rests on", spare: true}
	marks := column{title: ""}
	for i := range rows {
		r := &rows[i]
		place.add(r.Place, "")
		name.add(safe(r.Name), "")
		price.add(money(r.Price, r.Currency), "")
		verdict.add(shortVerdict(r.Verdict), verdictColour(r.Verdict))
		kept.add(wholeOr(r.Margin.KeptC, unknownFigure), "")
		hot.add(wholeOr(r.HotSpot.ExpectedC, unknownFigure), "")
		clock.add(fixed(&r.Clock.SustainedGHz, 2, ""), "")
		evidence.add(safe(r.Evidence), "")
		marks.add(rankMarks(r), bold)
	}
	return []column{place, name, price, verdict, kept, hot, clock, evidence, marks}
}

func rankMarks(r *ranking.Row) string {
	text := ""
	if r.Cheapest {
		text += cheapestMark
	}
	if r.Unbeaten {
		text += unbeatenMark
	}
	return text
}

// rankKey explains the words and marks of the table, as far as they occur.
func (st style) rankKey(rows []ranking.Row, table string) string {
	has := func(of func(*ranking.Row) bool) bool {
		for i := range rows {
			if of(&rows[i]) {
				return true
			}
		}
		return false
	}
	var lines [][2]string
	add := func(mark, text string, of func(*ranking.Row) bool) {
		if has(of) {
			lines = append(lines, [2]string{mark, text})
		}
	}
	add(cheapestMark, "the cheapest that is a yes", func(r *ranking.Row) bool { return r.Cheapest })
	add(unbeatenMark, "no other board costs less and keeps more margin", func(r *ranking.Row) bool { return r.Unbeaten })
	add(unknownFigure, "does not settle below 250 °C", func(r *ranking.Row) bool { return r.HotSpot.ExpectedC == nil })
	add("=", "shares its place: the difference is less than its own uncertainty", func(r *ranking.Row) bool { return strings.HasSuffix(r.Place, "=") })
	lines = append(lines, [2]string{"Kept", keptMeans})
	for _, word := range []string{advisor.Measured, advisor.Projected, advisor.Estimated} {
		add(word, evidenceWord(word), func(r *ranking.Row) bool { return r.Evidence == word && strings.Contains(table, word) })
	}
	return "\n" + st.table(lines)
}

// heldBack says of each board what counts most against it, and which cheaper
// board is better in every respect.
func (st style) heldBack(rows []ranking.Row) string {
	var b strings.Builder
	for i := range rows {
		if text := against(&rows[i]); text != "" {
			b.WriteString(st.hanging("  "+safe(rows[i].Name)+": ", text, 4))
		}
	}
	if b.Len() == 0 {
		return ""
	}
	return st.heading("What counts most against each") + b.String()
}

func against(r *ranking.Row) string {
	text := sentenceOf(capital(safe(r.HeldBack)))
	if r.BeatenBy == nil {
		return text
	}
	return strings.TrimSpace(text + " " + beaten(r.BeatenBy, r.Currency))
}

// beaten says what a cheaper board does better.
func beaten(by *ranking.Beaten, currency string) string {
	var better []string
	if by.MarginKeptC == nil {
		better = append(better, "it settles")
	} else if *by.MarginKeptC >= 0.5 {
		better = append(better, "keeps "+celsius(*by.MarginKeptC)+" more")
	}
	if by.SustainedGHz >= 0.005 {
		better = append(better, fmt.Sprintf("holds %.2f GHz more", by.SustainedGHz))
	}
	text := fmt.Sprintf("The %s costs %s less and is no worse in verdict, score, margin or clock", safe(by.Name), money(&by.Price, currency))
	if len(better) > 0 {
		text += ": it " + strings.TrimPrefix(strings.Join(better, " and "), "it ")
	}
	return text + "."
}

// rankWords says one row in a sentence.
func rankWords(r *ranking.Row) string {
	text := fmt.Sprintf("%s. %s, %s: %s; ", r.Place, safe(r.Name), money(r.Price, r.Currency), shortVerdict(r.Verdict))
	if r.HotSpot.ExpectedC == nil || r.Margin.KeptC == nil {
		text += "does not settle below 250 °C"
	} else {
		text += celsius(*r.HotSpot.ExpectedC) + " expected, " + keptOrPassed(*r.Margin.KeptC)
	}
	text += fmt.Sprintf("; %.2f GHz held; %s", r.Clock.SustainedGHz, safe(r.Evidence))
	if r.Cheapest {
		text += "; the cheapest that is a yes"
	}
	if r.Unbeaten {
		text += "; no other board costs less and keeps more margin"
	}
	return strings.TrimSpace(text + ". " + against(r))
}

// keptOrPassed says how much margin is kept, or by how much the limit may be
// passed.
func keptOrPassed(k float64) string {
	if k < 0 {
		return "the limit passed by up to " + celsius(-k) + " at 95 % confidence"
	}
	return keptMargin(k)
}
