package advisor_test

import (
	"errors"
	"slices"
	"testing"

	"hotroom/advisor"
	"hotroom/rules"
)

func TestRefusals(t *testing.T) {
	s := demo(t)
	good := advisor.Question{Board: "quarry", Chip: "v10", RoomC: number(30)}
	ask := func(change func(q *advisor.Question)) advisor.Question {
		q := good
		change(&q)
		return q
	}
	for _, c := range []struct {
		name      string
		q         advisor.Question
		kind      advisor.RefusalKind
		field     string
		says      string
		candidate string
	}{
		{
			"board", ask(func(q *advisor.Question) { q.Board = "quary" }), advisor.NotFound, "board",
			`the knowledge holds no board "quary": take one that it holds`, "quarry",
		},
		{
			"no board", ask(func(q *advisor.Question) { q.Board = "" }), advisor.Missing, "board",
			"the question names no board: name one", "anvil",
		},
		{
			"socket", ask(func(q *advisor.Question) { q.Chip = "q12" }), advisor.Unfit, "chip",
			"the Tessaly Q12 does not fit the Dunmarrow Quarry: the chip needs socket TS5 and the board has VH3: choose a board with socket TS5 or a chip for VH3", "ingot",
		},
		{
			"hot room", ask(func(q *advisor.Question) { q.RoomC = number(400) }), advisor.BadValue, "room_c",
			"a room of 400 °C is not possible here: give one from -20 to 60 °C", "",
		},
		{
			"altitude", ask(func(q *advisor.Question) { q.AltitudeM = number(-5) }), advisor.BadValue, "altitude_m",
			"an altitude of -5 m is not possible here: give one from 0 to 9000 m", "",
		},
		{
			"power", ask(func(q *advisor.Question) { q.PowerW = number(0) }), advisor.BadValue, "power_w",
			"a power cap of 0 W is not possible here: give one above 0 and up to 2000 W", "",
		},
		{
			"setup", ask(func(q *advisor.Question) { q.Setup = "wild" }), advisor.BadValue, "setup",
			`there is no power setup "wild": take rated, shipped, open or custom`, "custom",
		},
		{
			"cap and setup", ask(func(q *advisor.Question) { q.Setup, q.PowerW = advisor.SetupRated, number(150) }), advisor.BadValue, "setup",
			`the power setup "rated" has caps of its own, and a cap was given as well: leave the cap out or ask for the setup "custom"`, "",
		},
		{
			"custom without caps", ask(func(q *advisor.Question) { q.Setup = advisor.SetupCustom }), advisor.Missing, "power_w",
			`the power setup "custom" needs a cap: give a power in W, a current in A, or both`, "",
		},
		{
			"above the table", ask(func(q *advisor.Question) { q.GHz = number(5.2) }), advisor.Unfit, "ghz",
			"5.2 GHz is outside what is known of the Varnholt V10: its operating points go from 3.2 to 4.7 GHz: ask for a clock between them; nothing is extrapolated", "",
		},
		{
			"tuning",
			advisor.Question{Board: "flint", Chip: "v10", GHz: number(4.6)},
			advisor.NotAllowed, "ghz",
			"4.6 GHz is above the stock all-core clock of the Varnholt V10 (4.4 GHz), and the knowledge marks the Gorsebank Flint as not tunable: ask for 4.4 GHz or less; what the makers do not allow is not advised", "",
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := advisor.Advise(t.Context(), s, c.q)
			refusal, ok := errors.AsType[*advisor.Refusal](err)
			if !ok {
				t.Fatalf("got %v, want a refusal", err)
			}
			if refusal.Kind != c.kind || refusal.Field != c.field || refusal.Error() != c.says {
				t.Errorf("got %s, %s, %q", refusal.Kind, refusal.Field, refusal.Error())
			}
			if c.candidate != "" && !slices.Contains(refusal.Candidates, c.candidate) {
				t.Errorf("%q is not among the candidates %q", c.candidate, refusal.Candidates)
			}
		})
	}
}

// A rule book that says yes to everything still cannot make a yes of what no
// rule may overturn.
func TestNoRuleOverturnsTheModel(t *testing.T) {
	book, problems := rules.Load("always.toml", []byte("[score]\nstart = 100\nfloor = 0\nceiling = 100\n[[verdict]]\nid = \"yes\"\nsay = \"Yes.\"\n"))
	if book == nil {
		t.Fatal(problems)
	}
	s, err := advisor.NewSnapshot(demo(t).Base(), book, "test")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name    string
		q       advisor.Question
		verdict string
		finding string
	}{
		{"cannot settle", advisor.Question{Board: "slate", Chip: "v10", RoomC: number(33), Setup: advisor.SetupOpen}, advisor.No, "model:cannot-settle"},
		{"first point", advisor.Question{Board: "quarry", Chip: "v10", RoomC: number(20), PowerW: number(40)}, advisor.No, "model:first-point"},
		{"throttled", advisor.Question{Board: "kiln", Chip: "v10", RoomC: number(33)}, advisor.WithCare, ""},
		{"plain", advisor.Question{Board: "gneiss", Chip: "v10", RoomC: number(20)}, advisor.Yes, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			a, err := advisor.AdviseBriefly(t.Context(), s, c.q)
			if err != nil {
				t.Fatal(err)
			}
			if a.Verdict != c.verdict {
				t.Errorf("the verdict is %q, want %q: %s", a.Verdict, c.verdict, a.Headline)
			}
			said := slices.ContainsFunc(a.Findings, func(f advisor.Finding) bool { return f.Rule == c.finding })
			if c.finding != "" && !said {
				t.Errorf("no finding %q in %+v", c.finding, a.Findings)
			}
			if c.verdict != advisor.Yes && a.Headline == "Yes." {
				t.Error("the headline still says yes")
			}
		})
	}
}
