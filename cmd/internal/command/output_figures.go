package command

import (
	"fmt"
	"strings"

	"hotroom/advisor"
)

// label is the width of the column with the names of the figures.
const label = 14

// figures lists the numbers of an answer, each with its unit and its name.
func (st style) figures(a advisor.Advice) string {
	var b strings.Builder
	for _, row := range [][2]string{
		{"Hot spot", hotSpot(a)},
		{"Limit", limit(a)},
		{"Margin", margin(a.Margin)},
		{"Clock", clock(a.Clock)},
		{"Hottest room", roomCeiling(a)},
		{"Most power", powerCeiling(a)},
		{"Chip", fmt.Sprintf("%s package, %s A core at %.2f V", watts(a.Power.PackageW), whole(a.Power.CoreA), a.Power.Volts)},
		{"Regulator", regulator(a.Power)},
		{"Air", air(a.Air)},
		{"Warms up", warming(a.Time)},
		{"Capacitors", capacitor(a.Capacitor)},
	} {
		if st.plain {
			b.WriteString(row[0] + ": " + row[1] + ".\n")
			continue
		}
		b.WriteString(st.hanging(pad(row[0], label), row[1], label))
	}
	return b.String()
}

const noSettling = "does not settle: below 250 °C the regulator makes heat faster than the board can shed it"

func hotSpot(a advisor.Advice) string {
	h := a.HotSpot
	if h.ExpectedC == nil {
		return noSettling
	}
	text := celsius(*h.ExpectedC) + " expected"
	if h.LowC != nil && h.HighC != nil {
		text += fmt.Sprintf(", 90 %% sure between %s and %s", whole(*h.LowC), celsius(*h.HighC))
	}
	if a.Clock.LimitedBy != "temperature" {
		return text
	}
	if h.UnthrottledC == nil {
		return text + "; without lowering the clock it would not settle"
	}
	return text + "; without lowering the clock " + celsius(*h.UnthrottledC)
}

func limit(a advisor.Advice) string {
	if a.Limit.ValueC == nil {
		return "none is known"
	}
	text := celsius(*a.Limit.ValueC) + " (" + a.Limit.Kind + "), from " + a.Limit.StatedBy
	var others []string
	for _, l := range a.Limits {
		if l.ValueC != nil && l != a.Limit && *l.ValueC >= *a.Limit.ValueC && l.Kind != a.Limit.Kind {
			others = append(others, celsius(*l.ValueC)+" ("+l.Kind+")")
		}
	}
	if len(others) > 0 {
		text += "; the next are " + strings.Join(others, " and ")
		text = strings.Replace(text, "the next are", either(len(others), "the next is", "the next are"), 1)
	}
	return safe(text)
}

func margin(m advisor.Margin) string {
	if m.ExpectedC == nil || m.KeptC == nil {
		return "none: there is no steady temperature to compare with the limit"
	}
	text := distance(*m.ExpectedC) + " expected; " + keptMargin(*m.KeptC)
	if m.ExceedProbability != nil {
		text += "; chance of passing the limit " + percent(*m.ExceedProbability)
	}
	return text
}

// distance says how far a temperature stays from the limit.
func distance(k float64) string {
	switch {
	case whole(k) == "0":
		return "at the limit"
	case k < 0:
		return celsius(-k) + " over the limit"
	}
	return celsius(k) + " below the limit"
}

// keptMargin says how much of the margin can be counted on.
func keptMargin(k float64) string {
	if k < 0 {
		return "up to " + celsius(-k) + " over it at 95 % confidence"
	}
	return celsius(k) + " kept at 95 % confidence"
}

func clock(c advisor.Clock) string {
	if c.LimitedBy == "chip" || c.SustainedGHz >= c.TargetGHz-0.005 {
		return fmt.Sprintf("%.2f GHz held, all that was wanted", c.SustainedGHz)
	}
	text := fmt.Sprintf("%.2f GHz held of %.2f GHz wanted; %s", c.SustainedGHz, c.TargetGHz, limiter(c.LimitedBy))
	if c.LossPercent > 0 {
		text += fmt.Sprintf(", %.1f %% lost to heat", c.LossPercent)
	}
	return text
}

func limiter(by string) string {
	switch by {
	case "power":
		return "the power cap decides"
	case "current":
		return "the current cap decides"
	case "temperature":
		return "the board's throttle temperature decides"
	}
	return "limited by " + safe(by)
}

func roomCeiling(a advisor.Advice) string {
	if a.Ceiling.RoomC == nil {
		return "outside -50 to 100 °C, where the search ends"
	}
	return down(*a.Ceiling.RoomC) + " °C before the kept margin is used up"
}

func powerCeiling(a advisor.Advice) string {
	c := a.Ceiling
	switch {
	case c.PackageW == nil && a.HotSpot.ExpectedC == nil:
		return "not known, because there is no steady temperature"
	case c.PackageW == nil:
		return "none: even the chip's first operating point leaves no kept margin"
	case c.PackageAtLeast:
		return "at least " + down(*c.PackageW) + " W package, where the chip's table ends"
	}
	return down(*c.PackageW) + " W package before the kept margin is used up"
}

func regulator(p advisor.Power) string {
	if p.RegulatorLossW == nil {
		return "its heat has no steady value"
	}
	text := fmt.Sprintf("%.1f W of heat", *p.RegulatorLossW)
	if p.RegulatorEfficiency != nil {
		text += fmt.Sprintf(", %.1f %% efficient", 100**p.RegulatorEfficiency)
	}
	return text
}

func air(a advisor.Air) string {
	if a.LocalC == nil {
		return "its temperature at the regulator has no steady value"
	}
	text := celsius(*a.LocalC) + " at the regulator"
	if a.CaseRiseC != nil {
		text += ", " + celsius(*a.CaseRiseC) + " above the room"
	}
	return text + fmt.Sprintf(", moving at %.1f m/s", a.AirspeedMS)
}

func warming(t advisor.Time) string {
	if t.To95PercentMin == nil {
		return "without end"
	}
	text := "95 % of the way in " + minutes(*t.To95PercentMin)
	if t.ToLimitMin != nil {
		text += "; passes the limit after " + minutes(*t.ToLimitMin)
	}
	return text
}

// mostYears is the longest life that is ever credited.
const mostYears = 15

func capacitor(c advisor.Capacitor) string {
	if c.Kind == nil {
		return "the knowledge does not describe them"
	}
	if c.LifeYears == nil || c.TemperatureC == nil {
		return safe(*c.Kind) + "; life has no steady value"
	}
	text := fmt.Sprintf("%s at %s: %s of this load without a break", safe(*c.Kind), celsius(*c.TemperatureC), years(*c.LifeYears))
	if *c.LifeYears >= mostYears {
		text += " (more is never credited)"
	}
	return text
}
