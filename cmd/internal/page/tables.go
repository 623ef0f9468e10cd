package page

import (
	"cmp"
	"html/template"
	"io"
	"strconv"

	"hotroom/advisor"
	"hotroom/advisor/comparison"
	"hotroom/advisor/ranking"
	"hotroom/advisor/sweep"
	"hotroom/cmd/internal/picture"
)

// rankingView is the boards in order, best first.
type rankingView struct {
	Conditions string
	Rows       []rankingRow
	Notes      []string
}

type rankingRow struct {
	Place, Name, Address, Verdict, Word, HotSpot, Kept, Clock, Price, Evidence, Mark, HeldBack string
}

func (a *asking) ranked(r ranking.Ranking) *rankingView {
	v := &rankingView{Conditions: picture.Conditions(a.Snapshot.Base(), r.Question), Notes: r.Notes}
	for i := range r.Rows {
		row := &r.Rows[i]
		mark := ""
		if row.Cheapest {
			mark = "cheapest yes"
		}
		v.Rows = append(v.Rows, rankingRow{
			Place: row.Place, Name: row.Name, Address: a.address(Answer, with(Query(a.question), "board", row.Board)),
			Verdict: row.Verdict, Word: verdictWord(row.Verdict), HotSpot: celsiusOr(row.HotSpot.ExpectedC), Kept: celsiusOr(row.Margin.KeptC),
			Clock: fixed(row.Clock.SustainedGHz, 2), Price: money(row.Price, row.Currency), Evidence: row.Evidence, Mark: mark, HeldBack: row.HeldBack,
		})
	}
	return v
}

// comparisonView is boards side by side: a column each.
type comparisonView struct {
	Conditions string
	Columns    []column
	Lines      []line
	Scales     []namedScale
	Pairs      []string
	Notes      []string
}

type column struct{ Name, Address, Verdict, Word string }

type line struct {
	Name  string
	Cells []string
}

type namedScale struct {
	Name  string
	Scale scale
}

func (a *asking) compared(c comparison.Comparison) *comparisonView {
	v := &comparisonView{Conditions: picture.Conditions(a.Snapshot.Base(), c.Question), Notes: c.Notes}
	var advices []*advisor.Advice
	for i := range c.Rows {
		advices = append(advices, &c.Rows[i].Advice)
	}
	from, to := reach(advices)
	for i := range c.Rows {
		row := &c.Rows[i]
		v.Columns = append(v.Columns, column{
			row.Name, a.address(Answer, with(Query(a.question), "board", row.Advice.Question.Board)), row.Advice.Verdict, verdictWord(row.Advice.Verdict),
		})
		m := picture.Margin(a.Snapshot.Base(), row.Advice)
		m.From, m.To = from, to
		v.Scales = append(v.Scales, namedScale{row.Name, scale{inset(m, 720), inset(m, narrow)}})
	}
	v.Lines = lines(c.Rows)
	for _, p := range c.Pairs {
		v.Pairs = append(v.Pairs, a.paired(p))
	}
	return v
}

// lines lists the numbers that boards are compared by.
func lines(rows []comparison.Column) []line {
	var list []line
	for _, l := range []struct {
		name string
		of   func(*comparison.Column) string
	}{
		{"Hot spot expected", func(c *comparison.Column) string { return celsiusOr(c.Advice.HotSpot.ExpectedC) }},
		{"Limit", func(c *comparison.Column) string { return celsiusOr(c.Advice.Limit.ValueC) }},
		{"Margin kept", func(c *comparison.Column) string { return celsiusOr(c.Advice.Margin.KeptC) }},
		{"Clock held", func(c *comparison.Column) string { return fixed(c.Advice.Clock.SustainedGHz, 2) + " GHz" }},
		{"Regulator's heat", func(c *comparison.Column) string { return wattsOr(c.Advice.Power.RegulatorLossW) }},
		{"Evidence", func(c *comparison.Column) string { return c.Advice.Evidence }},
		{"Price", func(c *comparison.Column) string { return money(c.Price, c.Currency) }},
		{"Phases", func(c *comparison.Column) string { return strconv.Itoa(c.Build.Phases) }},
		{"Stage", func(c *comparison.Column) string { return c.Build.Stage }},
		{"Heatsink", func(c *comparison.Column) string { return heatsink(c.Build) }},
		{"Firmware", func(c *comparison.Column) string { return cmp.Or(c.Build.Firmware, dash) }},
	} {
		out := line{Name: l.name}
		for i := range rows {
			out.Cells = append(out.Cells, l.of(&rows[i]))
		}
		list = append(list, out)
	}
	return list
}

func wattsOr(v *float64) string {
	if v == nil {
		return dash
	}
	return fixed(*v, 1) + " W"
}

func heatsink(b comparison.Build) string {
	if b.HeatsinkMassG != nil {
		return b.Heatsink + ", " + whole(*b.HeatsinkMassG) + " g"
	}
	return b.Heatsink
}

// paired says which of two boards is the cooler one, and how sure that is.
func (a *asking) paired(p comparison.Pair) string {
	first, second := a.nameOf("board", p.A), a.nameOf("board", p.B)
	if p.CoolerProbability == nil || p.DeltaC == nil {
		return first + " and " + second + ": one of the two has no steady temperature."
	}
	chance, delta := *p.CoolerProbability, *p.DeltaC
	if chance < 0.5 {
		first, second, chance, delta = second, first, 1-chance, -delta
	}
	text := first + " is cooler than " + second + " with a probability of " + percent(chance) + ", by " + fixed(delta, 1) + " °C as expected."
	switch {
	case p.LikeForLike && p.MeasuredDeltaC != nil:
		text += " Their measured runs are alike and may be compared directly."
	case p.RunA != "" && p.RunB != "":
		text += " Their measured runs are not alike and may not be compared directly."
	}
	return text
}

// sweepView is one board over rooms or powers.
type sweepView struct {
	Title, Conditions, Unit, Other, OtherText string
	Wide, Narrow                              template.HTML
	Rows                                      []sweepRow
	Notes                                     []string
}

type sweepRow struct{ At, Verdict, Word, HotSpot, Range, Kept, Clock string }

func (a *asking) swept(w sweep.Sweep) *sweepView {
	base := a.Snapshot.Base()
	c := picture.Sweep(base, w)
	v := &sweepView{Title: c.Title, Unit: "°C", Notes: w.Notes, OtherText: "The same over package powers"}
	other := sweep.OverPower
	if w.Over == sweep.OverPower {
		v.Unit, v.OtherText, other = "W", "The same over room temperatures", sweep.OverRoom
	}
	v.Other = a.address(Sweep, with(Query(a.question), "over", other))
	large, small := c, c
	large.Title, small.Title = "", "" // the page says it
	small.Width, small.Height = 420, 520
	v.Wide, v.Narrow = drawn(func(out io.Writer) error { return large.SVG(out) }), drawn(func(out io.Writer) error { return small.SVG(out) })
	for i := range w.Rows {
		v.Rows = append(v.Rows, sweptRow(&w.Rows[i]))
	}
	return v
}

func sweptRow(r *sweep.Row) sweepRow {
	between := dash
	if r.HotSpot.LowC != nil && r.HotSpot.HighC != nil {
		between = whole(*r.HotSpot.LowC) + "–" + whole(*r.HotSpot.HighC)
	}
	return sweepRow{
		strconv.FormatFloat(r.At, 'f', -1, 64), r.Verdict, verdictWord(r.Verdict), celsiusOr(r.HotSpot.ExpectedC), between,
		celsiusOr(r.Margin.KeptC), fixed(r.Clock.SustainedGHz, 2),
	}
}

// reach gives the range that the scales of boards have in common, °C.
func reach(advices []*advisor.Advice) (from, to float64) {
	for i, a := range advices {
		for _, v := range []*float64{a.Question.RoomC, a.HotSpot.LowC, a.HotSpot.HighC, a.Limit.ValueC} {
			if v != nil {
				if i == 0 && from == to {
					from, to = *v, *v
				}
				from, to = min(from, *v), max(to, *v)
			}
		}
	}
	return from, to
}
