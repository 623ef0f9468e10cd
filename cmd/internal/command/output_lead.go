package command

import (
	"fmt"
	"strings"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
)

// lead answers in one sentence what was asked besides yes or no; nothing where
// only that was asked.
func (st style) lead(asked sentence.Asked, a advisor.Advice) string {
	text := ""
	switch asked.Kind {
	case sentence.HowHot:
		text = howHot(a)
	case sentence.HowFar:
		text = howFar(asked.Over, a)
	}
	if text == "" {
		return ""
	}
	return st.paragraph(safe(text), 0) + "\n"
}

func howHot(a advisor.Advice) string {
	h := a.HotSpot
	if h.ExpectedC == nil || h.LowC == nil || h.HighC == nil {
		return "How hot: it " + noSettling + "."
	}
	text := fmt.Sprintf("How hot: %s expected at the hot spot, 90 %% sure between %s and %s", celsius(*h.ExpectedC), whole(*h.LowC), celsius(*h.HighC))
	if a.Limit.ValueC != nil {
		text += fmt.Sprintf("; the limit is %s", celsius(*a.Limit.ValueC))
	}
	return text + "."
}

func howFar(over string, a advisor.Advice) string {
	var parts []string
	if over != sentence.OverPower {
		text := "no room between -50 and 100 °C, where the search ends"
		if a.Ceiling.RoomC != nil {
			text = "a room of " + down(*a.Ceiling.RoomC) + " °C"
		}
		parts = append(parts, text)
	}
	if over != sentence.OverRoom {
		parts = append(parts, farthestPower(a))
	}
	return "How far, at 95 % confidence: " + strings.Join(parts, ", or ") + "."
}

func farthestPower(a advisor.Advice) string {
	c := a.Ceiling
	switch {
	case c.PackageW == nil && a.HotSpot.ExpectedC == nil:
		return "no power is known, because there is no steady temperature"
	case c.PackageW == nil:
		return "no package power: even the chip's first operating point keeps no margin"
	case c.PackageAtLeast:
		return "at least " + down(*c.PackageW) + " W of package power, where the chip's table ends"
	}
	return down(*c.PackageW) + " W of package power"
}

// whatWouldChange lists the changes that make a yes of an answer.
func (st style) whatWouldChange(a advisor.Advice) string {
	if text := st.changes(a.Changes); text != "" {
		return strings.TrimPrefix(text, "\n")
	}
	if a.Verdict == advisor.Yes {
		return st.paragraph("It is a yes already. The room could reach "+roomCeiling(a)+".", 0)
	}
	return st.paragraph("None of the changes that were tried (a lower cap, a lighter load, a cooler room, more air, another cooler) makes it a yes; another board may: ask which board takes this chip.", 0)
}
