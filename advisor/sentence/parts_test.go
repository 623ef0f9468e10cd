package sentence

import (
	"reflect"
	"strings"
	"testing"

	"hotroom/advisor"
)

func raws(list []token) string {
	var words []string
	for _, t := range list {
		if t.stop {
			t.raw += "."
		}
		words = append(words, t.raw)
	}
	return strings.Join(words, " ")
}

func TestTokens(t *testing.T) {
	known := func(fold string) bool { return fold == "smallcube" || fold == "v10" }
	for in, want := range map[string]string{
		"basalt/v10/hot":              "basalt. v10. hot",
		"chalk+q12, 27 deg":           "chalk q12. 27 deg",
		"w/ v-10 @ 30":                "with v-10 at 30",
		"small-cube ten-core 10-core": "small-cube ten core 10-core",
		"ingot-q16-38C":               "ingot q16 38C",
		"1,600 m; -5 °C":              "1,600 m. -5 °C",
		"(really?) yes":               "really. yes",
		"a , b":                       "a. b",
		"room=30":                     "room 30",
		"€200 200€":                   "€200 200€",
		"24/7":                        "24. 7",
		"--- ...":                     "",
	} {
		if got := raws(tokens(in, known)); got != want {
			t.Errorf("tokens(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestPattern(t *testing.T) {
	for _, tt := range []struct {
		pattern, text string
		want          string // what it matched, "-" for nothing
	}{
		{"how hot|warm", "tell me how warm it is", "how warm"},
		{"how hot", "how very hot", "-"},
		{"how ?very hot", "how very hot", "how very hot"},
		{"how far ... push", "how far can i push", "how far can i push"},
		{"how far ... push", "how far a b c d e f push", "-"},
		{"how ... push", "how far, push", "-"},
		{"max PLACE", "the max room", "max room"},
	} {
		list := tokens(tt.text, func(string) bool { return false })
		from, to, ok := pattern(tt.pattern).find(list)
		got := "-"
		if ok {
			got = raws(list[from:to])
		}
		if got != tt.want {
			t.Errorf("%q in %q: %q, want %q", tt.pattern, tt.text, got, tt.want)
		}
	}
}

func TestNegations(t *testing.T) {
	for text, want := range map[string]string{
		"not in a quiet case":                  "not in a quiet case",
		"without the liquid loop, at 30 C":     "without the liquid loop",
		"will it not throttle at 35 C":         "",
		"won't the gorse lite hold":            "",
		"the gorse lite isn't enough":          "",
		"my room isn't hot at 30 C":            "isn't hot",
		"not gorse lite but harrow x40":        "not gorse lite",
		"instead of gaming":                    "instead of gaming",
		"anything but the harrow x40, please":  "anything but the harrow x40",
		"or not":                               "",
		"no idea if gorse lite holds":          "",
		"I don't want the gorse lite":          "don't want the gorse lite",
		"no more than 180 W":                   "",
		"never above 25 C":                     "",
		"not planning on gaming":               "not planning on gaming",
		"not at 35 C":                          "not at 35 C",
		"does not only render, it also gaming": "not only render",
	} {
		r := bench().Read(text, advisor.Question{})
		var got []string
		for _, u := range r.Unplaced {
			if strings.ContainsAny(u, " ") {
				got = append(got, u)
			}
		}
		if strings.Join(got, "; ") != want {
			t.Errorf("%q: denied %q, want %q", text, got, want)
		}
	}
}

func TestKinds(t *testing.T) {
	for text, want := range map[string]Kind{
		"will harrow x40 take ember 10":             YesNo,
		"harrow x40 ember 10":                       "",
		"which board for ember 10":                  Which,
		"is harrow x40 the best board for ember 10": "",
		"harrow x40 or harrow x40 pro":              Compare,
		"how hot does harrow x40 get":               HowHot,
		"how far can it go":                         HowFar,
		"max power 180 W":                           "",
		"max power for ember 10":                    HowFar,
		"why":                                       Why,
		"why does harrow x40 fail":                  "",
		"what would change that":                    Changes,
		"what could I change on the harrow x40":     "",
	} {
		if got := bench().Read(text, advisor.Question{}).Kind; got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

func TestCarry(t *testing.T) {
	n := func(v float64) *float64 { return &v }
	names := bench()
	compared := Asked{Boards: []string{"harrow-x40", "harrow-x40-pro"}, Kind: Compare, Question: advisor.Question{Chip: "ember-10"}}
	for _, tt := range []struct {
		name        string
		before, now Asked
		want        Asked
		notes       []string
	}{
		{
			"a room goes on comparing", compared,
			Asked{Question: advisor.Question{RoomC: n(35)}},
			Asked{Boards: compared.Boards, Kind: Compare, Question: advisor.Question{Chip: "ember-10", RoomC: n(35)}},
			nil,
		},
		{
			"why keeps the boards", compared,
			Asked{Kind: Why},
			Asked{Boards: compared.Boards, Kind: Why, Question: advisor.Question{Chip: "ember-10"}},
			nil,
		},
		{
			"one board ends a comparison", compared,
			Asked{Question: advisor.Question{Board: "harrow-x40"}},
			Asked{Kind: YesNo, Question: advisor.Question{Board: "harrow-x40", Chip: "ember-10"}},
			nil,
		},
		{
			"another socket's chip drops the boards", compared,
			Asked{Question: advisor.Question{Chip: "flint-10"}},
			Asked{Kind: YesNo, Question: advisor.Question{Chip: "flint-10"}},
			nil,
		},
		{
			"a budget is kept with which",
			Asked{Kind: Which, Budget: n(200), Question: advisor.Question{Chip: "ember-10"}},
			Asked{Question: advisor.Question{Chip: "ember-16x"}},
			Asked{Kind: Which, Budget: n(200), Question: advisor.Question{Chip: "ember-16x"}},
			nil,
		},
		{
			"how far goes on",
			Asked{Kind: HowFar, Over: OverPower, Question: advisor.Question{Board: "harrow-x40", Chip: "ember-10"}},
			Asked{Question: advisor.Question{RoomC: n(30)}},
			Asked{Kind: HowFar, Over: OverPower, Question: advisor.Question{Board: "harrow-x40", Chip: "ember-10", RoomC: n(30)}},
			nil,
		},
		{
			"a chip that does not fit is forgotten",
			Asked{Question: advisor.Question{Chip: "ember-10", GHz: n(4.2)}},
			Asked{Question: advisor.Question{Board: "gorse-lite"}},
			Asked{Kind: YesNo, Question: advisor.Question{Board: "gorse-lite", GHz: n(4.2)}},
			[]string{"the ember-10 does not fit the gorse-lite and was forgotten"},
		},
	} {
		got, notes := names.Carry(tt.before, tt.now)
		if len(got.Boards) == 0 {
			got.Boards = nil
		}
		if !reflect.DeepEqual(got, tt.want) || !reflect.DeepEqual(notes, tt.notes) {
			t.Errorf("%s\n got %+v %q\nwant %+v %q", tt.name, got, notes, tt.want, tt.notes)
		}
	}
}
