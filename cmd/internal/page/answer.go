package page

import (
	"fmt"
	"html/template"
	"net/url"
	"strings"

	"hotroom/advisor"
	"hotroom/cmd/internal/picture"
)

// answerView is an answer as a page shows it.
type answerView struct {
	Verdict, Word, Headline, Rest, Conditions string
	Scale                                     scale
	Margin, Evidence                          string
	Figures                                   []figure
	Findings                                  []finding
	Changes                                   []change
	Cautions, Defaults, Estimated, Runs       []string
	Versions                                  advisor.Versions
	Link, Data, Card, Picture                 string
	Rooms, Powers                             string // the sweeps
}

type figure struct{ Name, Value string }

type finding struct{ Kind, Points, Text, Source string }

type change struct{ Text, Address, Outcome string }

func (a *asking) answered(advice advisor.Advice) *answerView {
	base, values := a.Snapshot.Base(), Query(a.question)
	v := &answerView{
		Verdict: advice.Verdict, Word: verdictWord(advice.Verdict), Headline: advice.Headline, Rest: afterWord(advice),
		Conditions: picture.Conditions(base, advice.Question), Scale: a.scale(advice), Margin: margin(advice.Margin),
		Evidence: picture.Evidence(base, advice), Figures: figures(advice), Cautions: advice.Cautions, Defaults: advice.Defaults,
		Estimated: advice.Estimated, Runs: advice.Runs, Versions: advice.Versions,
		Link: a.address(Answer, values), Data: a.Site.Home + "v1/advice?" + values.Encode(),
		Card: a.Site.Home + "card?" + values.Encode(), Picture: a.Site.Home + "chart.svg?" + values.Encode(),
	}
	v.Rooms, v.Powers = a.address(Sweep, with(values, "over", "room")), a.address(Sweep, with(values, "over", "power"))
	for _, f := range advice.Findings {
		v.Findings = append(v.Findings, finding{f.Kind, points(f.Points), f.Text, f.Source})
	}
	for _, c := range advice.Changes {
		v.Changes = append(v.Changes, a.changed(advice.Question, c))
	}
	return v
}

// Link is the address of the answer to a question.
func Link(s Site, q advisor.Question) string { return s.Home + "?" + Query(q).Encode() }

func with(values url.Values, name, value string) url.Values {
	out := url.Values{}
	for n := range values {
		out.Set(n, values.Get(n))
	}
	out.Set(name, value)
	return out
}

// changed links to the question that a change makes: what was asked, and what
// is then different.
func (a *asking) changed(was advisor.Question, c advisor.Change) change {
	values, before, after := Query(a.question), Query(was), Query(c.Question)
	for name := range after {
		if after.Get(name) != before.Get(name) {
			values.Set(name, after.Get(name))
		}
	}
	outcome := verdictWord(c.Verdict)
	if c.MarginKeptC != nil {
		outcome += ", " + celsius(*c.MarginKeptC) + " kept"
	}
	return change{c.Text, a.address(Answer, values), outcome}
}

// Snippet is what a guide puts into its page to show the card.
func (v *answerView) Snippet() string {
	return `<iframe src="https://YOUR-HOST` + template.HTMLEscapeString(v.Card) + `" title="` + template.HTMLEscapeString(v.Headline) + `" width="420" height="480" loading="lazy"></iframe>`
}

// figures lists the numbers of an answer.
func figures(a advisor.Advice) []figure {
	return []figure{
		{"Hot spot", hotSpot(a.HotSpot)},
		{"Limit", limit(a.Limit)},
		{"Clock", clock(a.Clock)},
		{"Room may reach", roomCeiling(a.Ceiling)},
		{"Power may reach", powerCeiling(a)},
		{"Package", fmt.Sprintf("%s W; %s A at %s V", whole(a.Power.PackageW), whole(a.Power.CoreA), fixed(a.Power.Volts, 2))},
		{"Regulator", regulator(a.Power)},
		{"Air", air(a.Air)},
		{"Warming", warming(a.Time)},
		{"Capacitors", capacitors(a.Capacitor)},
	}
}

func hotSpot(h advisor.HotSpot) string {
	if h.ExpectedC == nil || h.LowC == nil || h.HighC == nil {
		return "no steady temperature: it gets hotter without end"
	}
	return celsius(*h.ExpectedC) + " expected, 90 % sure between " + whole(*h.LowC) + " and " + celsius(*h.HighC)
}

func limit(l advisor.Limit) string {
	if l.ValueC == nil {
		return "none is known"
	}
	return celsius(*l.ValueC) + " (" + l.Kind + "), from " + l.StatedBy
}

func clock(c advisor.Clock) string {
	if c.LimitedBy == "chip" || c.SustainedGHz >= c.TargetGHz-0.005 {
		return fixed(c.SustainedGHz, 2) + " GHz held, all that was wanted"
	}
	text := fixed(c.SustainedGHz, 2) + " GHz held of " + fixed(c.TargetGHz, 2) + " GHz wanted, held back by " + strings.TrimSpace(c.LimitedBy)
	if c.LossPercent > 0 {
		text += "; " + fixed(c.LossPercent, 1) + " % lost to heat"
	}
	return text
}

func roomCeiling(c advisor.Ceiling) string {
	if c.RoomC == nil {
		return "outside -50 to 100 °C, where the search ends"
	}
	return down(*c.RoomC) + " °C before the kept margin is used up"
}

func powerCeiling(a advisor.Advice) string {
	c := a.Ceiling
	switch {
	case c.PackageW == nil && a.HotSpot.ExpectedC == nil:
		return "not known, because there is no steady temperature"
	case c.PackageW == nil:
		return "none: even the chip's first operating point leaves no kept margin"
	case c.PackageAtLeast:
		return "at least " + down(*c.PackageW) + " W, where the chip's table ends"
	}
	return down(*c.PackageW) + " W before the kept margin is used up"
}

func regulator(p advisor.Power) string {
	if p.RegulatorLossW == nil {
		return "its heat has no steady value"
	}
	text := fixed(*p.RegulatorLossW, 1) + " W of heat"
	if p.RegulatorEfficiency != nil {
		text += ", " + fixed(100**p.RegulatorEfficiency, 1) + " % efficient"
	}
	return text
}

func air(a advisor.Air) string {
	if a.LocalC == nil || a.CaseRiseC == nil {
		return "its temperature at the regulator has no steady value"
	}
	return celsius(*a.LocalC) + " at the regulator, " + celsius(*a.CaseRiseC) + " above the room; " + fixed(a.AirspeedMS, 1) + " m/s"
}

func warming(t advisor.Time) string {
	if t.To95PercentMin == nil {
		return "without end"
	}
	text := "95 % of the way in " + whole(*t.To95PercentMin) + " min"
	if t.ToLimitMin != nil {
		text += "; passes the limit after " + whole(*t.ToLimitMin) + " min"
	}
	return text
}

// mostYears is the longest life that is credited.
const mostYears = 15

func capacitors(c advisor.Capacitor) string {
	if c.Kind == nil || c.LifeYears == nil || c.TemperatureC == nil {
		return "life not known"
	}
	text := *c.Kind + " at " + celsius(*c.TemperatureC) + ": " + fixed(*c.LifeYears, 1) + " years of this load without a break"
	if *c.LifeYears >= mostYears {
		text += " (more is never credited)"
	}
	return text
}
