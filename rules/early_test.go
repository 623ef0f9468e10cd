package rules

import (
	"math"
	"testing"

	"hotroom/rules/facts"

	"pgregory.net/rapid"
)

// earlyBooks are catalogues that wait for ceilings in every way.
func earlyBooks(t *testing.T) map[string]*Book {
	rule := func(kind, when, points, say string) *Book {
		if points != "" {
			points = "points = '" + points + "'\n"
		}
		return book(t, head+verdicts+"[[rule]]\nname = \"r\"\nkind = '"+kind+"'\nwhen = '"+when+"'\n"+points+"say = '"+say+"'\n")
	}
	return map[string]*Book{
		"default":        defaultBook(t),
		"a merit":        rule(Merit, "known(ceiling.room_c) && ceiling.room_c > 40", "8", "x"),
		"a concern":      rule(Concern, "ceiling.room_c < 40", "-8", "x"),
		"a veto":         rule(Veto, "ceiling.room_c < 40", "", "x"),
		"worked out":     rule(Concern, "margin.kept_c < 20", "-abs(ceiling.package_spare_w)", "x"),
		"in the words":   rule(Caution, "margin.kept_c < 20", "", "{ceiling.package_spare_w}"),
		"may break":      rule(Caution, "known(ceiling.room_c) && 1 / floor(ceiling.room_c / 40) > 0", "", "x"),
		"text may break": rule(Merit, "margin.kept_c < 20", "1", "{1 / floor(margin.kept_c / 10)}"),
		"in a verdict":   book(t, head+"[[verdict]]\nid = \"yes\"\nwhen = \"ceiling.room_c > 40 && margin.kept_c > 0\"\nsay = \"y\"\n[[verdict]]\nid = \"no\"\nsay = \"n\"\n"),
	}
}

// What is foreseen before the ceilings are known comes true, whatever they are.
func TestForesee(t *testing.T) {
	for name, b := range earlyBooks(t) {
		t.Run(name, func(t *testing.T) {
			seen := map[Outlook]int{}
			rapid.Check(t, func(t *rapid.T) {
				f := drawEarly(t)
				outlook := b.Foresee(&f)
				seen[outlook]++
				for range 4 {
					f.Ceiling = drawCeilings(t)
					yes := b.Judge(f).Verdict == Yes
					if b.IsYes(&f) != yes {
						t.Fatalf("IsYes says %v, and it is %s", !yes, b.Judge(f).Verdict)
					}
					if yes && f.Margin.KeptC < b.LeastKept() {
						t.Fatalf("a yes keeps %g K, and %g K are said to be the least", f.Margin.KeptC, b.LeastKept())
					}
					if outlook == SureYes && !yes || outlook == SureNoYes && yes {
						t.Fatalf("foreseen %d, and it is %s", outlook, b.Judge(f).Verdict)
					}
				}
			})
			if name == "default" && (seen[SureYes] == 0 || seen[SureNoYes] == 0) {
				t.Errorf("nothing is ever sure: %v", seen)
			}
		})
	}
}

func drawEarly(t *rapid.T) facts.Facts {
	f := facts.Calm()
	f.Margin.KeptC = rapid.Float64Range(-10, 40).Draw(t, "kept")
	f.Margin.ExpectedC = f.Margin.KeptC + rapid.Float64Range(0, 20).Draw(t, "doubt")
	f.Power.LossPerPhaseW = rapid.Float64Range(0, 5).Draw(t, "loss per phase")
	f.Evidence.CrashedNear = float64(rapid.IntRange(0, 1).Draw(t, "crashed"))
	f.Clock.CapLossPercent = rapid.Float64Range(0, 20).Draw(t, "cap loss")
	if rapid.Bool().Draw(t, "capped") {
		f.Clock.LimitedBy = "power"
	}
	return f
}

func drawCeilings(t *rapid.T) facts.Ceiling {
	number := func(label string) float64 {
		if rapid.IntRange(0, 3).Draw(t, label+" known") == 0 {
			return math.NaN()
		}
		return rapid.Float64Range(-50, 150).Draw(t, label)
	}
	return facts.Ceiling{
		RoomC: number("room"), PackageW: number("package"), RoomHeadroomC: number("headroom"), PackageSpareW: number("spare"),
		PackageAtLeast: rapid.Bool().Draw(t, "at least"),
	}
}
