package command

import (
	"math"
	"strconv"
	"strings"

	"hotroom/advisor/bench"
	"hotroom/advisor/uncertainty"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge"
)

// reduced lays a worked-up log out: the value first, then the picture, how sure
// it is and why, and what it means.
func (st style) reduced(base *knowledge.Base, r *reduced) string {
	var b strings.Builder
	q := &r.reduction.Quality
	b.WriteString(st.paint(strings.TrimSuffix(st.paragraph(safe(r.log)+": "+picture.BoardName(base, r.run.Board)+" with "+picture.ChipName(base, r.run.Chip), 2), "\n"), bold) + "\n")
	b.WriteString(st.paragraph(reducedHeadline(r.reduction)+" Grade "+q.Grade+".", 0))
	for _, f := range reducedFigures(r) {
		b.WriteString(st.labelled(f.label, f.text))
	}
	if len(r.reduction.Points) > 0 {
		drawn := picture.Heating(base, &r.run, r.reduction)
		drawn.Title, drawn.Subtitle, drawn.Notes = "", "", nil
		b.WriteString("\n" + strings.TrimLeft(drawn.Text(st.width, st.plain), "\n"))
	}
	b.WriteString(st.budget(r.reduction.Budget))
	b.WriteString(st.list("Why grade "+q.Grade, q.Reasons))
	b.WriteString(st.list("What it means", meaning(r)))
	b.WriteString(st.list("Keep in mind", []string{makersWin}))
	return b.String()
}

// reducedHeadline says the value, or that there is none.
func reducedHeadline(r *bench.Reduction) string {
	q := &r.Quality
	if q.SettleC == nil {
		return "No value: the log does not say what the board settles at."
	}
	word := "Settles at "
	if r.Outcome == knowledge.Throttled {
		word = "Throttled, and held at "
	}
	return word + tenth(*q.SettleC) + " °C (" + tenth(*q.SettleLowC) + " to " + tenth(*q.SettleHighC) + " °C with 95 %)."
}

// labelledText is a line of figures.
type labelledText struct{ label, text string }

func (st style) labelled(label, text string) string {
	if st.plain {
		return label + ": " + text + ".\n"
	}
	return st.hanging("  "+pad(label, 16), text, 18)
}

func reducedFigures(r *reduced) []labelledText {
	q := &r.reduction.Quality
	var list []labelledText
	add := func(label string, parts ...string) {
		text := strings.Join(parts, ", ")
		if text != "" {
			list = append(list, labelledText{label, text})
		}
	}
	if h := r.reduction.Heating; h != nil {
		main := h.Main()
		add("Time constant", tenth(main.TimeConstantS/60)+" min ± "+places(2*main.TimeConstantStdS/60, 2)+" min", "rise over the room "+tenth(h.FinalK)+" K")
	}
	if q.PeakC != nil {
		add("Peak", tenth(*q.PeakC)+" °C, the largest minute")
	}
	if q.RoomMeanC != nil && q.RoomDriftC != nil {
		add("Room", tenth(*q.RoomMeanC)+" °C under load", "moved by "+tenth(*q.RoomDriftC)+" K")
	}
	if q.Used > 0 {
		add("Under load", minutes(r.reduction.Minutes), strconv.Itoa(q.Used)+" of "+strconv.Itoa(q.Samples)+" rows", count(q.Spikes, "spike"), count(q.Gaps, "gap"))
		add("Held", held(&r.run)...)
		add("Throttling", throttling(q))
	}
	return list
}

// held says clock, voltage and power, as far as they are known.
func held(run *knowledge.Run) []string {
	var list []string
	for _, f := range []struct {
		v        *float64
		decimals int
		unit     string
	}{{run.GHz, 2, " GHz"}, {run.Volts, 3, " V"}, {run.PackageW, 1, " W"}} {
		if f.v != nil {
			list = append(list, fixed(f.v, f.decimals, "")+f.unit)
		}
	}
	return list
}

func throttling(q *bench.Quality) string {
	switch {
	case q.Throttled == nil:
		return "not known: neither power nor clock is in the log"
	case !*q.Throttled:
		return "none"
	}
	deepest, total := 0.0, 0.0
	for _, e := range q.ThrottleEvents {
		deepest, total = math.Max(deepest, e.DepthPercent), total+e.EndS-e.StartS
	}
	return count(len(q.ThrottleEvents), "time") + ", " + minutes(total/60) + " in all, by up to " + whole(deepest) + " %, first after " + minutes(q.ThrottleEvents[0].StartS/60)
}

// budget shows the uncertainty budget in the GUM's form.
func (st style) budget(b uncertainty.Budget) string {
	if b == nil {
		return ""
	}
	source, value := column{title: "Source"}, column{title: "Value", unit: "± K", right: true}
	shape, divisor := column{title: "Distribution", spare: true}, column{title: "Divisor", right: true}
	standard, freedom := column{title: "u", unit: "K", right: true}, column{title: "ν", right: true}
	for _, s := range b {
		source.add(s.Name, "")
		value.add(places(s.Value, 3), "")
		shape.add(distribution(s.Divisor), "")
		divisor.add(divisorWord(s.Divisor), "")
		standard.add(places(s.Standard(), 3), "")
		freedom.add(freedomWord(s.Freedom), "")
	}
	text := st.heading("Uncertainty budget (GUM), each with a sensitivity of 1")
	if table, ok := st.grid([]column{source, value, shape, divisor, standard, freedom}); ok && !st.plain {
		text += indented(table)
	} else {
		for i, s := range b {
			text += st.paragraph(s.Name+": ± "+value.cells[i]+" K, "+distribution(s.Divisor)+", u "+standard.cells[i]+" K", 2)
		}
	}
	half := b.Expanded(0.95)
	return text + st.paragraph("  Combined u "+places(b.Standard(), 3)+" K, ν "+effective(b.Freedom())+"; expanded U = "+places(half/b.Standard(), 2)+
		" u = ± "+places(half, 1)+" K (95 %).", 2)
}

func indented(table string) string {
	return "  " + strings.TrimSuffix(strings.ReplaceAll(table, "\n", "\n  "), "  ")
}

func distribution(divisor float64) string {
	if divisor == 1 {
		return "normal"
	}
	return "rectangular"
}

func divisorWord(divisor float64) string {
	if divisor == math.Sqrt(3) {
		return "√3"
	}
	return figure(divisor, 3)
}

func freedomWord(freedom float64) string {
	if freedom == 0 {
		return "∞"
	}
	return whole(freedom)
}

// effective writes effective degrees of freedom, of which more than a thousand
// are as good as infinitely many.
func effective(freedom float64) string {
	if freedom > 1000 {
		return "above 1000"
	}
	return whole(math.Floor(freedom))
}

func places(v float64, decimals int) string { return fixed(&v, decimals, "") }

func tenth(v float64) string { return places(v, 1) }

// meaning says what the run changes in the board's prediction.
func meaning(r *reduced) []string {
	b := r.bearing
	switch {
	case r.unasked != nil:
		return []string{"What the run changes cannot be said: " + r.unasked.Error() + "."}
	case b == nil && r.reduction.Outcome == knowledge.Unsettled:
		return []string{"An unsettled run changes no prediction; recorded, it is a fact that the rules see."}
	case b == nil:
		return []string{"The run lacks what the estimate needs: package power and voltage. Give them with --package and --volts."}
	}
	list := []string{
		"At " + held(&r.run)[len(held(&r.run))-1] + " in a room of " + tenth(r.run.RoomC) + " °C: predicted without this run " + spanned(b.Before.HotSpot.ExpectedC, b.Before.HotSpot.LowC, b.Before.HotSpot.HighC) +
			", with it " + spanned(b.After.HotSpot.ExpectedC, b.After.HotSpot.LowC, b.After.HotSpot.HighC) + " (90 % intervals); measured " + tenth(*r.run.HotC) + " °C.",
		"The answer there rests on: " + b.Before.Evidence + " before, " + b.After.Evidence + " after.",
	}
	if b.Residual != nil {
		list = append(list, "It disagrees with what was measured before: "+tenth(math.Abs(*b.Residual))+" standard deviations "+aboveBelow(*b.Residual)+" the prediction. Check the probe, the room and the power setup before relying on it.")
	} else {
		list = append(list, "It does not disagree with earlier runs.")
	}
	if len(b.Others) > 0 {
		list = append(list, "With it, earlier runs of the board disagree: "+strings.Join(b.Others, ", ")+".")
	}
	return list
}

func aboveBelow(v float64) string {
	if v > 0 {
		return "above"
	}
	return "below"
}

func spanned(expected, low, high *float64) string {
	if expected == nil || low == nil || high == nil {
		return "no settled temperature"
	}
	return tenth(*expected) + " °C (" + tenth(*low) + " to " + tenth(*high) + ")"
}
