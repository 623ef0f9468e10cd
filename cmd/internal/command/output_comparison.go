package command

import (
	"fmt"
	"math"
	"strings"

	"hotroom/advisor"
	"hotroom/advisor/comparison"
	"hotroom/knowledge"
)

// comparison lays boards out side by side, or one after another where the
// terminal is too narrow for that.
func (st style) comparison(base *knowledge.Base, c comparison.Comparison) string {
	var b strings.Builder
	b.WriteString(st.title("Side by side with "+conditions(base, c.Question)) + "\n")
	b.WriteString(st.sideBySide(c.Rows))
	b.WriteString(st.heading("Whether their measurements may be compared"))
	for i := range c.Pairs {
		b.WriteString(st.hanging(st.bullet(), pairWords(base, c.Rows, &c.Pairs[i]), 4))
	}
	for i := range c.Exchanges {
		b.WriteString(st.exchange(c.Rows, &c.Exchanges[i]))
	}
	b.WriteString(st.list("Notes", append(c.Notes, makersWin)))
	return b.String()
}

// aspects lists what is said of a board, its build first.
func aspects(c *comparison.Column) [][2]string {
	b, a := &c.Build, &c.Advice
	return [][2]string{
		{"Price", money(c.Price, c.Currency)},
		{"Phases", fmt.Sprintf("%d, %s each", b.Phases, count(b.DevicesPerPhase, "device"))},
		{"Stage", safe(b.Stage)},
		{"Switching", figure(b.SwitchingKHz, 0) + " kHz"},
		{"Heatsink", heatsink(b)},
		{"As shipped", shipped(b)},
		{"Maker's limit", stated(b.LimitHotSpotC, "°C", "not stated")},
		{"Firmware", orNot(safe(b.Firmware))},
		{"Verdict", shortVerdict(a.Verdict)},
		{"Score", whole(a.Score)},
		{"Hot spot", hotSpotShort(a.HotSpot)},
		{"Governing limit", wholeOr(a.Limit.ValueC, unknownFigure) + " °C (" + safe(a.Limit.Kind) + ")"},
		{"Margin kept", degreesOr(a.Margin.KeptC)},
		{"Clock held", clockShort(a.Clock)},
		{"Package", watts(a.Power.PackageW)},
		{"Regulator heat", wattsOr(a.Power.RegulatorLossW)},
		{"Rests on", safe(a.Evidence)},
	}
}

func heatsink(b *comparison.Build) string {
	parts := []string{safe(b.Heatsink)}
	if b.HeatsinkMassG != nil {
		parts = append(parts, figure(*b.HeatsinkMassG, 0)+" g")
	}
	if b.HeatsinkAreaCM2 != nil {
		parts = append(parts, figure(*b.HeatsinkAreaCM2, 0)+" cm²")
	}
	return strings.Join(parts, ", ")
}

func shipped(b *comparison.Build) string {
	if b.LimitPowerW == nil && b.LimitCurrentA == nil {
		return "not stated"
	}
	return stated(b.LimitPowerW, "W", "no W stated") + ", " + stated(b.LimitCurrentA, "A", "no A stated")
}

// stated writes what a maker states, or that it does not.
func stated(v *float64, unit, none string) string {
	if v == nil {
		return none
	}
	return figure(*v, 0) + " " + unit
}

func orNot(text string) string {
	if text == "" {
		return "not named"
	}
	return text
}

func hotSpotShort(h advisor.HotSpot) string {
	if h.ExpectedC == nil {
		return "does not settle"
	}
	return fmt.Sprintf("%s, %s to %s", celsius(*h.ExpectedC), wholeOr(h.LowC, unknownFigure), wholeOr(h.HighC, unknownFigure))
}

func wattsOr(v *float64) string {
	if v == nil {
		return unknownFigure
	}
	return fixed(v, 1, "") + " W"
}

func degreesOr(v *float64) string {
	if v == nil {
		return unknownFigure
	}
	return celsius(*v)
}

func clockShort(c advisor.Clock) string {
	text := fmt.Sprintf("%.2f GHz", c.SustainedGHz)
	if c.LimitedBy != "chip" {
		text += ", by " + safe(c.LimitedBy)
	}
	return text
}

// sideBySide sets one column a board, or one block a board.
func (st style) sideBySide(rows []comparison.Column) string {
	labels := column{}
	columns := []column{{}}
	for i := range rows {
		c := column{title: safe(rows[i].Name), flex: true}
		for _, aspect := range aspects(&rows[i]) {
			look := ""
			if aspect[0] == "Verdict" {
				look = verdictColour(rows[i].Advice.Verdict)
			}
			c.add(aspect[1], look)
			if i == 0 {
				labels.add(aspect[0], "")
			}
		}
		columns = append(columns, c)
	}
	columns[0] = labels
	if !st.plain {
		if table, ok := st.grid(columns); ok {
			return table
		}
	}
	return st.blocks(rows)
}

func (st style) blocks(rows []comparison.Column) string {
	var b strings.Builder
	for i := range rows {
		if i > 0 {
			b.WriteString("\n")
		}
		b.WriteString(st.title(rows[i].Name))
		b.WriteString(st.table(aspects(&rows[i])))
	}
	return b.String()
}

// pairWords says whether two boards' runs may be compared directly, and what is
// expected of the two under the same conditions.
func pairWords(base *knowledge.Base, rows []comparison.Column, p *comparison.Pair) string {
	a, b := named(rows, p.A), named(rows, p.B)
	text := safe(a.Name) + " and " + safe(b.Name) + ": "
	switch {
	case p.LikeForLike:
		text += "like for like (" + p.RunA + " and " + p.RunB + "): " + measuredDelta(base, a, b, p)
	default:
		text += "not like for like: " + strings.Join(p.Unlike, "; ")
		if p.RunA != "" {
			text += " (" + p.RunA + " and " + p.RunB + ")"
		}
	}
	text = safe(text) + ". " + projected(a, b, p)
	for _, f := range p.Firmware {
		text += " " + sentenceOf(capital(safe(f)))
	}
	return text
}

func named(rows []comparison.Column, board string) *comparison.Column {
	for i := range rows {
		if rows[i].Advice.Question.Board == board {
			return &rows[i]
		}
	}
	return &comparison.Column{Name: board}
}

func measuredDelta(base *knowledge.Base, a, b *comparison.Column, p *comparison.Pair) string {
	text := "measured, the " + cooler(a.Name, b.Name, *p.MeasuredDeltaC)
	for i := range base.Runs {
		if r := &base.Runs[i]; r.ID == p.RunA && r.GHz != nil {
			text += fmt.Sprintf(", both at about %.2f GHz", *r.GHz)
		}
	}
	return text
}

// cooler says which of two is the cooler one, by b less a, K.
func cooler(a, b string, deltaC float64) string {
	switch {
	case math.Abs(deltaC) < 0.05:
		return a + " is as hot as the " + b
	case deltaC < 0:
		return b + " is " + oneDecimal(-deltaC) + " °C cooler"
	}
	return a + " is " + oneDecimal(deltaC) + " °C cooler"
}

// projected says what is expected of two boards under the question's
// conditions.
func projected(a, b *comparison.Column, p *comparison.Pair) string {
	text := "Under the conditions above: " + expected(a) + ", " + expected(b)
	if p.CoolerProbability == nil {
		return text + "."
	}
	first, other, probability := a, b, *p.CoolerProbability
	if probability < 0.5 {
		first, other, probability = b, a, 1-probability
	}
	text += "; probability that the " + safe(first.Name) + " runs cooler " + percent(probability)
	switch lead := first.Advice.Clock.SustainedGHz/other.Advice.Clock.SustainedGHz - 1; {
	case lead < -sameClock:
		text += ", though at a lower clock, which is part of why"
	case lead > sameClock:
		text += ", and at a higher clock"
	}
	return text + "."
}

func expected(c *comparison.Column) string {
	if c.Advice.HotSpot.ExpectedC == nil {
		return safe(c.Name) + " does not settle"
	}
	return fmt.Sprintf("%s %s at %.2f GHz", safe(c.Name), celsius(*c.Advice.HotSpot.ExpectedC), c.Advice.Clock.SustainedGHz)
}

// sameClock is how much of a clock two boards may differ and still hold the
// same one (common practice, no source).
const sameClock = 0.01
