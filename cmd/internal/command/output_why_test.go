package command

import (
	"testing"

	"hotroom/advisor/sentence"
)

// whole reasons, made up by hand, in both layouts.
func TestReasons(t *testing.T) {
	reasons := why{
		Score: 61.4,
		Rules: []whyRule{
			{
				Rule: "thin-margin", Kind: "concern", Fired: true, Points: -8, When: "margin.kept_c < 10", Values: []string{"margin.kept_c = 6.9 K"},
				Text: "Only 6.9 °C are left.",
			},
			{Rule: "no-price", Kind: "caution", When: "board.price > 200", Values: []string{"board.price = unknown"}, Unknown: []string{"board.price"}},
			{Rule: "bad\x1b[2J", Kind: "merit", When: "1 / 0 > 1", Fault: "it divides by zero"},
		},
		Facts: []whyRow{{"board.name", "word", "Gorsebank Slate\x1b[2J"}, {"board.price", "money", nil}, {"margin.kept_c", "K", 6.9}, {"asked.tuned", "yes/no", false}, {"board.firmware", "word", ""}},
	}
	golden(t, "why-80.txt", style{width: 80}.reasons(careful(), reasons))
	golden(t, "why-40.txt", style{width: 40}.reasons(careful(), reasons))
	golden(t, "why-plain.txt", style{plain: true}.reasons(careful(), reasons))
}

func TestLead(t *testing.T) {
	st := style{width: 80}
	unsettled := careful()
	unsettled.HotSpot.ExpectedC, unsettled.Ceiling.RoomC, unsettled.Ceiling.PackageW = nil, nil, nil
	atLeast := careful()
	atLeast.Ceiling.PackageAtLeast = true
	none := careful()
	none.Ceiling.PackageW = nil
	for _, tt := range []struct {
		name, want string
		got        string
	}{
		{"yes or no", "", st.lead(sentence.Asked{Kind: sentence.YesNo}, careful())},
		{
			"how hot", "How hot: 91 °C expected at the hot spot, 90 % sure between 83 and 98 °C; the\nlimit is 105 °C.\n\n",
			st.lead(sentence.Asked{Kind: sentence.HowHot}, careful()),
		},
		{
			"how hot, unsettled", "How hot: it does not settle: below 250 °C the regulator makes heat faster than\nthe board can shed it.\n\n",
			st.lead(sentence.Asked{Kind: sentence.HowHot}, unsettled),
		},
		{
			"how far", "How far, at 95 % confidence: a room of 38 °C, or 201 W of package power.\n\n",
			st.lead(sentence.Asked{Kind: sentence.HowFar}, careful()),
		},
		{
			"how far, room", "How far, at 95 % confidence: a room of 38 °C.\n\n",
			st.lead(sentence.Asked{Kind: sentence.HowFar, Over: sentence.OverRoom}, careful()),
		},
		{
			"how far, the table ends", "How far, at 95 % confidence: at least 201 W of package power, where the chip's\ntable ends.\n\n",
			st.lead(sentence.Asked{Kind: sentence.HowFar, Over: sentence.OverPower}, atLeast),
		},
		{
			"how far, nothing", "How far, at 95 % confidence: no package power: even the chip's first operating\npoint keeps no margin.\n\n",
			st.lead(sentence.Asked{Kind: sentence.HowFar, Over: sentence.OverPower}, none),
		},
		{
			"how far, unsettled", "How far, at 95 % confidence: no room between -50 and 100 °C, where the search\nends, or no power is known, because there is no steady temperature.\n\n",
			st.lead(sentence.Asked{Kind: sentence.HowFar}, unsettled),
		},
	} {
		if tt.got != tt.want {
			t.Errorf("%s\n got %q\nwant %q", tt.name, tt.got, tt.want)
		}
	}
}
