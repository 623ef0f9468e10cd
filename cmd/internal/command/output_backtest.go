package command

import (
	"fmt"
	"strconv"
	"strings"

	"hotroom/advisor"
	"hotroom/cmd/internal/picture"
)

// trial shows a backtest: how far off, how often within, then the chart and the
// runs that were missed.
func (st style) trial(t trial, predictions []advisor.Prediction) string {
	var b strings.Builder
	for _, way := range []struct{ left, title string }{
		{advisor.LeaveRun, "Each run predicted from all the others, those of its own board too"},
		{advisor.LeaveBoard, "Each run predicted from other boards only, as if its board had never been measured"},
	} {
		b.WriteString(st.scores(way.title, rowsOf(t.Rows, way.left)))
	}
	if !st.plain {
		b.WriteString(st.table(scoreKey()) + "\n")
	}
	drawn := picture.Backtest(predictions)
	b.WriteString(drawn.Text(st.lineWidth(), st.plain))
	b.WriteString(st.list("Runs outside their interval when their whole board is left out", missed(predictions, advisor.LeaveBoard)))
	b.WriteString(st.list("Runs that nothing else explains", unexplained(t.Outliers)))
	b.WriteString(st.list("Notes", t.Notes))
	return b.String()
}

func rowsOf(rows []scoreRow, left string) []scoreRow {
	var list []scoreRow
	for _, r := range rows {
		if r.LeftOut == left {
			list = append(list, r)
		}
	}
	return list
}

func scoreKey() [][2]string {
	return [][2]string{
		{"Off by", "mean distance between prediction and reading, whichever is hotter"},
		{"Too hot", "mean of prediction less reading; below 0 it is predicted too cool"},
		{"In 90 %", "share of readings inside the interval that should hold 90 % of them"},
		{"Above", "share of readings hotter than the bound that 5 % should pass"},
		{"Width", "mean width of that interval"},
	}
}

func (st style) scores(title string, rows []scoreRow) string {
	text := st.title(title)
	table, ok := st.grid(scoreColumns(rows))
	if ok && !st.plain {
		return text + table + "\n"
	}
	for i := range rows {
		text += st.hanging("", scoreWords(&rows[i]), 4)
	}
	return text + "\n"
}

func scoreColumns(rows []scoreRow) []column {
	word, runs := column{title: "Rests on"}, column{title: "Runs", right: true}
	off, bias := column{title: "Off by", unit: "°C", right: true}, column{title: "Too hot", unit: "°C", right: true}
	in, above := column{title: "In 90 %", unit: "%", right: true}, column{title: "Above", unit: "%", right: true}
	width, unsettled := column{title: "Width", unit: "°C", right: true}, column{title: "Not settling", right: true, flex: true}
	none := true
	for i := range rows {
		r := &rows[i]
		word.add(r.Evidence, "")
		runs.add(strconv.Itoa(r.Runs), "")
		off.add(fixed(r.MeanAbsC, 1, unknownFigure), "")
		bias.add(signed(r.BiasC), "")
		in.add(wholeOr(r.CoverPercent, unknownFigure), "")
		above.add(wholeOr(r.AbovePercent, unknownFigure), "")
		width.add(fixed(r.WidthC, 1, unknownFigure), "")
		unsettled.add(strconv.Itoa(r.Unsettled), "")
		none = none && r.Unsettled == 0
	}
	columns := []column{word, runs, off, bias, in, above, width}
	if none {
		return columns
	}
	return append(columns, unsettled)
}

// signed writes a difference with its sign.
func signed(v *float64) string {
	if v == nil {
		return unknownFigure
	}
	text := fixed(v, 1, "")
	if *v >= 0.05 {
		return "+" + text
	}
	return text
}

func scoreWords(r *scoreRow) string {
	text := capital(r.Evidence) + ", " + count(r.Runs, "run")
	if r.Runs > 0 {
		text += fmt.Sprintf(": off by %s °C on average; predicted less measured %s °C; %s %% of the readings inside the interval that should hold 90 %%, which is %s °C wide; %s %% hotter than the bound that 5 %% should pass",
			fixed(r.MeanAbsC, 1, ""), signed(r.BiasC), wholeOr(r.CoverPercent, ""), fixed(r.WidthC, 1, ""), wholeOr(r.AbovePercent, ""))
	}
	if r.Unsettled > 0 {
		text += fmt.Sprintf("; %d predicted not to settle", r.Unsettled)
	}
	return text + "."
}

// missed lists the runs outside their interval, of those predicted one way.
func missed(predictions []advisor.Prediction, left string) []string {
	var list []string
	for i := range predictions {
		p := &predictions[i]
		switch {
		case p.Left != left || p.Within():
		case !p.Settles:
			list = append(list, fmt.Sprintf("%s: measured %.1f °C; it was predicted not to settle", p.Run.ID, p.MeasuredC))
		case p.MeasuredC < p.LowC:
			list = append(list, fmt.Sprintf("%s: measured %.1f °C, below the %.1f to %.1f °C predicted", p.Run.ID, p.MeasuredC, p.LowC, p.HighC))
		default:
			list = append(list, fmt.Sprintf("%s: measured %.1f °C, above the %.1f to %.1f °C predicted", p.Run.ID, p.MeasuredC, p.LowC, p.HighC))
		}
	}
	return list
}

func unexplained(outliers []outlierRow) []string {
	var list []string
	for _, o := range outliers {
		list = append(list, fmt.Sprintf("%s: %s than the rest says; it is named, not left out", o.Run, deviation(o.Residual)))
	}
	return list
}

// deviation says a residual in standard deviations.
func deviation(residual float64) string {
	if residual < 0 {
		return fmt.Sprintf("%.1f standard deviations cooler", -residual)
	}
	return fmt.Sprintf("%.1f standard deviations hotter", residual)
}
