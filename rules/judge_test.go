package rules

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"sync"
	"testing"

	"hotroom/rules/facts"

	"pgregory.net/rapid"
)

const head = `
[score]
start = 50
floor = 0
ceiling = 100
`

const verdicts = `
[[verdict]]
id = "no"
when = "vetoed || score < 20"
say = "no at {score}"
[[verdict]]
id = "yes"
when = "score >= 50"
say = "yes at {score}"
[[verdict]]
id = "with-care"
when = "score >= 30"
say = "care at {score}"
[[verdict]]
id = "unknown"
say = "unknown at {score}"
`

func book(t testing.TB, src string) *Book {
	t.Helper()
	b, problems := Load("test.toml", []byte(src))
	if b == nil {
		t.Fatal(printed(problems))
	}
	return b
}

func ruleText(kind, when, points string) string {
	return fmt.Sprintf("\n[[rule]]\nname = \"r\"\nkind = %q\nwhen = %q\npoints = %q\nsay = \"said {margin.kept_c}\"\n", kind, when, points)
}

func judgeAnything(t *testing.T, b *Book) {
	unknown := facts.Calm()
	for _, f := range facts.List() {
		if f.Type == facts.Number {
			f.Set(&unknown, math.NaN())
		}
	}
	for _, f := range []facts.Facts{facts.Calm(), unknown, {}} {
		j := b.Judge(f)
		if rank(j.Verdict) < 0 {
			t.Fatalf("the verdict is %q", j.Verdict)
		}
		if j.Vetoed && j.Verdict != No {
			t.Fatalf("a veto gives %s", j.Verdict)
		}
	}
}

func TestJudge(t *testing.T) {
	tests := []struct {
		name, rules string
		verdict     string
		say         string
		unjudged    string
		fault       string
	}{
		{"nothing fires", ruleText("concern", "margin.kept_c < 5", "-10"), Yes, "yes at 50", "", ""},
		{"a concern takes points", ruleText("concern", "margin.kept_c > 5", "-margin.kept_c / 2"), WithCare, "care at 32", "", ""},
		{"the score has a floor", ruleText("concern", "margin.kept_c > 5", "-1000"), No, "no at 0", "", ""},
		{"the score has a ceiling", ruleText("merit", "margin.kept_c > 5", "1000"), Yes, "yes at 100", "", ""},
		{"a veto is no whatever the score", ruleText("veto", "margin.kept_c > 5", "50"), No, "no at 100", "", ""},
		{"an unknown merit changes nothing", ruleText("merit", "board.price > 5", "20"), Yes, "yes at 50", "r board.price", ""},
		{"an unknown caution changes nothing", ruleText("caution", "board.price > 5", "0"), Yes, "yes at 50", "r board.price", ""},
		{"an unknown concern leaves with-care", ruleText("concern", "board.price > 5", "-5"), WithCare, "care at 50", "r board.price", ""},
		{"unknown points of a concern leave with-care", ruleText("concern", "margin.kept_c > 5", "-board.price"), WithCare, "care at 50", "r board.price", ""},
		{"an unknown veto leaves unknown", ruleText("veto", "board.price > 5", "0"), Unknown, "unknown at 50", "r board.price", ""},
		{"a veto with unknown points is a veto", ruleText("veto", "margin.kept_c > 5", "board.price"), No, "no at 50", "r board.price", ""},
		{"known() makes it known", ruleText("concern", "known(board.price) && board.price > 5", "-5"), Yes, "yes at 50", "", ""},
		{"unknown can be asked for", ruleText("concern", "!known(board.price)", "-5"), WithCare, "care at 45", "", ""},
		{"a division by zero is a fault", ruleText("merit", "1 / asked.graphics_w > 5", "20"), Unknown, "unknown at 50", "", "r: when: division by zero"},
		{"infinite points are a fault", ruleText("merit", "margin.kept_c > 5", "1e308 * margin.kept_c"), Unknown, "unknown at 50", "", "r: points: it gave +Inf, which is no finite number"},
		{"points against the kind are a fault", ruleText("concern", "margin.kept_c > 5", "margin.kept_c"), Unknown, "unknown at 50", "", "r: points: a concern may not have 36"},
		{"a fault leaves a no", ruleText("concern", "margin.kept_c > 5", "margin.kept_c") + strings.Replace(ruleText("veto", "true", "0"), `"r"`, `"v"`, 1), No, "no at 50", "", "r: points: a concern may not have 36"},
	}
	for _, test := range tests {
		f := facts.Calm()
		f.Board.Price = math.NaN()
		j := book(t, head+verdicts+test.rules).Judge(f)
		unjudged, fault := "", ""
		for _, u := range j.Unjudged {
			unjudged += u.Rule + " " + strings.Join(u.Facts, ",")
		}
		for _, f := range j.Faults {
			fault += f.Rule + ": " + f.What
			if f.At.Line == 0 {
				t.Errorf("%s: the fault has no place", test.name)
			}
		}
		if j.Verdict != test.verdict || j.Say != test.say || unjudged != test.unjudged || fault != test.fault {
			t.Errorf("%s: got %s, %q, unjudged %q, fault %q", test.name, j.Verdict, j.Say, unjudged, fault)
		}
	}
}

func verdictText(id, when, say string) string {
	s := fmt.Sprintf("\n[[verdict]]\nid = %q\nsay = %q\n", id, say)
	if when != "" {
		s += fmt.Sprintf("when = %q\n", when)
	}
	return s
}

// A verdict that cannot be judged is passed over, and nothing better than it
// is given.
func TestUnknownNeverHelps(t *testing.T) {
	const price = "board.price > 500"
	no, care, unknown := verdictText(No, "vetoed", "n"), verdictText(WithCare, "true", "c"), verdictText(Unknown, "", "u")
	tests := []struct{ name, verdicts, want, say string }{
		{"no passed over, then yes", verdictText(No, price, "n") + verdictText(Yes, "true", "y") + unknown, Unknown, "u"},
		{"no passed over, then with-care", verdictText(No, price, "n") + care + unknown, Unknown, "u"},
		{"no passed over, then another no", verdictText(No, price, "n") + verdictText(No, "true", "n2") + unknown, No, "n2"},
		{"with-care passed over, then yes", no + verdictText(WithCare, price, "c") + verdictText(Yes, "true", "y") + unknown, Unknown, "u"},
		{"yes passed over, then with-care", no + verdictText(Yes, price, "y") + care + unknown, WithCare, "c"},
		{"yes passed over, then unknown", no + verdictText(Yes, price, "y") + unknown, Unknown, "u"},
		{"a verdict that breaks", no + verdictText(WithCare, "1 / asked.graphics_w > 1", "c") + verdictText(Yes, "true", "y") + unknown, Unknown, "u"},
		{"a text that breaks", no + verdictText(Yes, "true", "{1 / asked.graphics_w}") + unknown, Unknown, "u"},
		{"unknown with a when of its own", verdictText(No, price, "n") + verdictText(Unknown, "vetoed", "u1") + verdictText(Unknown, "asked.room_c > 0", "u2") + verdictText(Yes, "", "y"), Unknown, "u2"},
	}
	for _, test := range tests {
		f := facts.Calm()
		f.Board.Price = math.NaN()
		if j := book(t, head+test.verdicts).Judge(f); j.Verdict != test.want || j.Say != test.say {
			t.Errorf("%s: got %s, %q; want %s, %q", test.name, j.Verdict, j.Say, test.want, test.say)
		}
	}
}

// A veto with several ways to say no says the one that holds.
func TestVetoWording(t *testing.T) {
	src := head + verdictText(No, "score > 90", "first") + verdictText(No, "asked.room_c > 0", "second") + verdictText(No, "vetoed", "third") +
		verdictText(Unknown, "", "u") + ruleText("veto", "true", "0")
	if j := book(t, src).Judge(facts.Calm()); j.Verdict != No || j.Say != "second" {
		t.Errorf("got %s, %q", j.Verdict, j.Say)
	}
}

func TestFiredAndItsValues(t *testing.T) {
	b := book(t, head+verdicts+ruleText("concern", "margin.kept_c > 5 && board.phases == 12 && !asked.tuned && board.name != board.id && margin.kept_c < 90", "-1"))
	j := b.Judge(facts.Calm())
	if len(j.Fired) != 1 || j.Fired[0].Text != "said 36" || j.Fired[0].Points != -1 || j.Fired[0].Kind != Concern {
		t.Fatalf("got %+v", j.Fired)
	}
	if got := list(b.Explain(facts.Calm())[0].Values); got != "margin.kept_c = 36 K, board.phases = 12, asked.tuned = no, board.name = Calm Board, board.id = calm-board" {
		t.Errorf("got %s", got)
	}
}

func TestExplainShowsEveryRule(t *testing.T) {
	b := defaultBook(t)
	f := facts.Calm()
	f.Margin.KeptC = 2
	all := b.Explain(f)
	if len(all) != len(b.Rules()) {
		t.Fatalf("%d of %d rules", len(all), len(b.Rules()))
	}
	fired := map[string]bool{}
	for _, x := range all {
		fired[x.Name] = x.Fired
		if x.Name == "thin-margin" && (!x.Fired || x.Given != -8 || x.Text != "Only 2.0 °C to the limit are kept with 95 % confidence.") {
			t.Errorf("thin-margin: %+v", x)
		}
		if x.Name == "no-heatsink" && (x.Fired || list(x.Values) != "board.heatsink_shape = finned") {
			t.Errorf("no-heatsink: %+v", x)
		}
	}
	for _, r := range b.Judge(f).Fired {
		if !fired[r.Rule] {
			t.Errorf("%s fired for Judge only", r.Rule)
		}
		delete(fired, r.Rule)
	}
	for name, left := range fired {
		if left {
			t.Errorf("%s fired for Explain only", name)
		}
	}
}

func TestTry(t *testing.T) {
	b := defaultBook(t)
	f := facts.Calm()
	f.Board.Price = math.NaN()
	tests := []struct{ text, want string }{
		{"margin.kept_c + 1", "37"},
		{"asked.tuned", "false"},
		{"board.name", "Calm Board"},
		{"board.price > 5", "expression:1:1: board.price is unknown here: ask known(board.price) first\nboard.price > 5\n^\n"},
		{"margin.kept", "expression:1:1: no fact is called \"margin.kept\": did you mean margin.kept_c?\nmargin.kept\n^\n"},
		{"1 / 0", "expression:1:1: division by zero: see the values of the facts that it names\n1 / 0\n^\n"},
	}
	for _, test := range tests {
		value, problems := b.Try(test.text, f)
		got := printed(problems)
		if got == "" {
			got = fmt.Sprint(value)
		}
		if got != test.want {
			t.Errorf("%s gives %s; want %s", test.text, got, test.want)
		}
	}
}

func TestFormat(t *testing.T) {
	tests := []struct {
		value    any
		decimals int
		want     string
	}{
		{2.0, asDue, "2"},
		{2.04, asDue, "2"},
		{2.25, asDue, "2.2"},
		{-0.04, asDue, "0"},
		{-0.04, 1, "0.0"},
		{10.0, asDue, "10"},
		{0.0, 0, "0"},
		{100.0, 0, "100"},
		{2.345, 2, "2.35"},
		{3.0, 3, "3.000"},
		{math.NaN(), 2, "unknown"},
		{true, asDue, "yes"},
		{"w", asDue, "w"},
	}
	for _, test := range tests {
		if got := format(test.value, test.decimals); got != test.want {
			t.Errorf("format(%v, %d) = %q, want %q", test.value, test.decimals, got, test.want)
		}
	}
}

func TestJudgeConcurrently(t *testing.T) {
	b := defaultBook(t)
	want := b.Judge(facts.Calm())
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for range 50 {
				if got := b.Judge(facts.Calm()); !reflect.DeepEqual(got, want) {
					t.Errorf("got %+v", got)
				}
			}
		})
	}
	wg.Wait()
}

// Making any one number unknown never makes the default verdict better than
// unknown, nor better than it was: a no that rests on the number becomes
// unknown.
func TestUnknownNeverHelpsDefault(t *testing.T) {
	b := defaultBook(t)
	all := facts.List()
	rapid.Check(t, func(t *rapid.T) {
		f := facts.Calm()
		f.Margin.KeptC = rapid.Float64Range(-20, 40).Draw(t, "kept")
		f.Margin.ExpectedC = f.Margin.KeptC + rapid.Float64Range(0, 20).Draw(t, "doubt")
		f.HotSpot.Settles = rapid.Bool().Draw(t, "settles")
		f.Evidence.CrashedNear = float64(rapid.IntRange(0, 2).Draw(t, "crashed"))
		before := b.Judge(f)
		fact := rapid.SampledFrom(all).Draw(t, "fact")
		if optional[fact.Name] || !fact.Set(&f, math.NaN()) {
			return
		}
		if after := b.Judge(f); rank(after.Verdict) > max(rank(before.Verdict), rank(Unknown)) {
			t.Errorf("without %s: %s instead of %s", fact.Name, after.Verdict, before.Verdict)
		}
	})
}

// optional are the figures whose absence means that there is nothing to hold
// against the board: the maker states none, or there is no such part.
var optional = map[string]bool{
	"board.chip_power_w": true, "board.limit_power_w": true, "board.limit_current_a": true,
}
