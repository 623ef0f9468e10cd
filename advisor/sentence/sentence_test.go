package sentence

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"hotroom/advisor"
	"hotroom/knowledge"
	"hotroom/knowledge/storm"
)

// bench is a small invented knowledge.
func bench() *Names {
	return NewNames(&knowledge.Base{
		Boards: []knowledge.Board{
			{ID: "harrow-x40", Name: "Harrow X40", Maker: "Fennimore", Socket: "S1"},
			{ID: "harrow-x40-pro", Name: "Harrow X40 Pro", Maker: "Fennimore", Socket: "S1"},
			{ID: "gorse-lite", Name: "Bowen Gorse Lite", Maker: "Bowen", Socket: "S2"},
		},
		Chips: []knowledge.Chip{
			{ID: "ember-10", Name: "Ember 10", Maker: "Sill", Socket: "S1", Cores: 10},
			{ID: "ember-16x", Name: "Ember 16X", Maker: "Sill", Socket: "S1", Cores: 16},
			{ID: "flint-10", Name: "Flint 10", Maker: "Sill", Socket: "S2", Cores: 10},
		},
		Enclosures: []knowledge.Enclosure{{ID: "open-bench", Name: "Open bench"}, {ID: "quiet-case", Name: "Quiet case"}},
		Coolers:    []knowledge.Cooler{{ID: "tall-air", Name: "Tall air cooler"}, {ID: "loop-240", Name: "Liquid loop 240"}},
		Loads:      []knowledge.Load{{ID: "render", Name: "Rendering, all cores"}, {ID: "gaming", Name: "Gaming"}},
		Rooms:      []knowledge.Room{{Word: "hot", Celsius: 32}, {Word: "cool", Celsius: 21}},
	})
}

// asked gives the keys of a question that were set, so that a test shows only
// what it is about.
func asked(t *testing.T, q advisor.Question) map[string]any {
	t.Helper()
	data, err := json.Marshal(q)
	if err != nil {
		t.Fatal(err)
	}
	all := map[string]any{}
	if err := json.Unmarshal(data, &all); err != nil {
		t.Fatal(err)
	}
	for k, v := range all {
		if v == nil || v == "" {
			delete(all, k)
		}
	}
	return all
}

type values = map[string]any

func TestRead(t *testing.T) {
	tests := []struct {
		text     string
		want     values
		unplaced []string
	}{
		{
			"Will the Harrow X40 Pro handle an Ember 16X in a 32 °C room?",
			values{"board": "harrow-x40-pro", "chip": "ember-16x", "room_c": 32.0},
			nil,
		},
		{
			"ember-10 on harrow-x40, hot room, open bench, tall-air, rendering",
			values{"board": "harrow-x40", "chip": "ember-10", "room_c": 32.0, "enclosure": "open-bench", "cooler": "tall-air", "load": "render"},
			nil,
		},
		{"fennimore harrow x40 with sill ember 10 at 90F", values{"board": "harrow-x40", "chip": "ember-10", "room_c": 32.222222222}, nil},
		{"gorse with flint at 32 degrees", values{"board": "gorse-lite", "chip": "flint-10", "room_c": 32.0}, nil},
		{"is 95 degrees Fahrenheit fine for ember 10 on harrow x40", values{"board": "harrow-x40", "chip": "ember-10", "room_c": 35.0}, nil},
		{"harow x40 and embre 10", values{"board": "harrow-x40", "chip": "ember-10"}, nil},
		{"the 10-core on the Gorse Lite", values{"board": "gorse-lite", "chip": "flint-10"}, nil},
		{"ember 10 capped at 180 W", values{"chip": "ember-10", "setup": "custom", "power_w": 180.0}, nil},
		{"ember 10, 210 A", values{"chip": "ember-10", "setup": "custom", "current_a": 210.0}, nil},
		{"ember 10 at 4.9 GHz with no limits", values{"chip": "ember-10", "ghz": 4.9, "setup": "open"}, nil},
		{"ember 10 at 4,9GHz at stock", values{"chip": "ember-10", "ghz": 4.9, "setup": "shipped"}, nil},
		{"harrow x40 pro, rated, with a 300 W graphics card", values{"board": "harrow-x40-pro", "setup": "rated", "graphics_w": 300.0}, nil},
		{"harrow x40 pro without a graphics card", values{"board": "harrow-x40-pro", "graphics_w": 0.0}, nil},
		{"gorse lite at 1,600 m in a cool room", values{"board": "gorse-lite", "altitude_m": 1600.0, "room_c": 21.0}, nil},
		{"gorse lite at 5,200 ft", values{"board": "gorse-lite", "altitude_m": 1584.96}, nil},
		{"and at 35?", values{"room_c": 35.0}, nil},
		{"gorse-lite+flint-10 & hot", values{"board": "gorse-lite", "chip": "flint-10", "room_c": 32.0}, nil},
		{"room 35", values{"room_c": 35.0}, nil},
		{"in a −5 °C room", values{"room_c": -5.0}, nil},
		{"gorse lite in my gaming room", values{"board": "gorse-lite"}, []string{"gaming"}},
		{"gaming in the quiet case", values{"load": "gaming", "enclosure": "quiet-case"}, nil},
		// What cannot be placed is said.
		{"gorse lite with 3 fans and a 125 W thing", values{"board": "gorse-lite"}, []string{"3", "fans", "125 W"}},
		{"gorse lite at 1.5 km", values{"board": "gorse-lite", "altitude_m": 1500.0}, nil},
		{"gorse lite with a 2 m cable", values{"board": "gorse-lite"}, []string{"2 m", "cable"}},
		{"does the gorse lite run too hot with flint 10, and where is its hot spot", values{"board": "gorse-lite", "chip": "flint-10"}, nil},
		{"will gorse lite stay cool in a hot room", values{"board": "gorse-lite", "room_c": 32.0}, nil},
		{"not a hot room", values{}, []string{"not a hot room"}},
		{"harrow x40 pro with graphics", values{"board": "harrow-x40-pro"}, []string{"graphics"}},
		{"", values{}, nil},
	}
	for _, tt := range tests {
		t.Run(tt.text, func(t *testing.T) {
			r := bench().Read(tt.text, advisor.Question{})
			if r.Ask != nil {
				t.Fatalf("asks back: %v", r.Ask)
			}
			if got := asked(t, r.Question); !reflect.DeepEqual(got, tt.want) {
				t.Errorf("question\n got %v\nwant %v\ntaken %q", got, tt.want, r.Taken)
			}
			if !reflect.DeepEqual(r.Unplaced, tt.unplaced) {
				t.Errorf("unplaced %q, want %q", r.Unplaced, tt.unplaced)
			}
		})
	}
}

func TestReadAsksBack(t *testing.T) {
	tests := []struct{ text, want string }{
		{"x40 with ember 10", `"x40" fits several boards: say which: harrow-x40, harrow-x40-pro`},
		{"ember on harrow x40", `"ember" fits several chips: say which: ember-10, ember-16x`},
		{"ember 10 or ember 16x on harrow x40", `more than one chip is named: ask about one at a time: ember-10, ember-16x`},
		{"gorse lite in a hot room at 21 °C", `two values for the room are given: 21 °C and hot (32 °C): give one`},
		{"gorse lite at 21 °C and 35 °C", `two values for the room are given: 21 °C and 35 °C: give one`},
		{"ember 10 at stock, capped at 180 W", `two values for the setup are given: shipped and a cap of your own: give one`},
		{"the 14-core", `no known chip has 14 cores: name the chip`},
		{"the 14-core ember 10", `"ember 10" is not a 14-core chip: name the chip or its cores, not both`},
		{strings.Repeat("a", 1<<20), `the sentence is 1048576 bytes long: ask in at most 1000 bytes`},
		{strings.Repeat("a ", 400), `the sentence has 400 words: ask in at most 120 words`},
	}
	for _, tt := range tests {
		r := bench().Read(tt.text, advisor.Question{})
		if r.Ask == nil || r.Ask.Error() != tt.want {
			t.Errorf("%.60s\n got %v (taken %q)\nwant %s", tt.text, r.Ask, r.Taken, tt.want)
		}
	}
}

func TestReadWithWhatIsKnown(t *testing.T) {
	r := bench().Read("the 10-core?", advisor.Question{Board: "gorse-lite"})
	if r.Question.Chip != "flint-10" || r.Question.Board != "" {
		t.Errorf("got %+v, ask %v", r.Question, r.Ask)
	}
	want := []string{`chip flint-10 (Flint 10) (from "10-core", in part)`}
	if !reflect.DeepEqual(r.Taken, want) {
		t.Errorf("taken %q, want %q", r.Taken, want)
	}
}

func TestTaken(t *testing.T) {
	r := bench().Read("harow x40, ember 10, 95 F, at stock", advisor.Question{})
	want := []string{
		`room 35 °C (from "95 F")`,
		`board harrow-x40 (Harrow X40) (from "harow x40", spelt differently)`,
		`chip ember-10 (Ember 10)`,
		`setup shipped`,
	}
	if !reflect.DeepEqual(r.Taken, want) {
		t.Errorf("\n got %q\nwant %q", r.Taken, want)
	}
}

func TestResolve(t *testing.T) {
	tests := []struct {
		name string
		in   Spoken
		want values
		ask  string
	}{
		{"ids", Spoken{Board: "gorse-lite", Chip: "flint-10", Room: "32"}, values{"board": "gorse-lite", "chip": "flint-10", "room_c": 32.0}, ""},
		{"room word", Spoken{Room: "hot"}, values{"room_c": 32.0}, ""},
		{"caps make it custom", Spoken{Power: "180", Current: "210A"}, values{"setup": "custom", "power_w": 180.0, "current_a": 210.0}, ""},
		{"part on the chip's socket", Spoken{Board: "gorse-lite", Chip: "10"}, values{"board": "gorse-lite", "chip": "flint-10"}, ""},
		{"several", Spoken{Board: "x40"}, nil, `"x40" fits several boards: say which: harrow-x40, harrow-x40-pro`},
		{"none", Spoken{Board: "nettle"}, nil, `no board is called "nettle": nearest are gorse-lite, harrow-x40, harrow-x40-pro`},
		{"no setup", Spoken{Setup: "fast"}, nil, `no setup is called "fast": give rated, shipped, open or custom`},
		{"no room word", Spoken{Room: "tropical"}, nil, `no room is called "tropical": nearest are cool, hot`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := bench().Resolve(tt.in, advisor.Question{})
			if tt.ask != "" {
				if r.Ask == nil || r.Ask.Error() != tt.ask {
					t.Fatalf("got %v, want %s", r.Ask, tt.ask)
				}
				return
			}
			if got := asked(t, r.Question); r.Ask != nil || !reflect.DeepEqual(got, tt.want) {
				t.Errorf("got %v (ask %v), want %v", got, r.Ask, tt.want)
			}
		})
	}
}

func TestOver(t *testing.T) {
	n := func(v float64) *float64 { return &v }
	upper := advisor.Question{RoomC: n(35), Setup: advisor.SetupOpen}
	lower := advisor.Question{Board: "b", RoomC: n(32), Setup: advisor.SetupCustom, PowerW: n(180)}
	got, against := Over(upper, lower)
	if want := (values{"board": "b", "room_c": 35.0, "setup": "open"}); !reflect.DeepEqual(asked(t, got), want) {
		t.Errorf("got %v, want %v", asked(t, got), want)
	}
	want := []string{"setup open wins over custom", "room 35 °C wins over 32 °C"}
	if !reflect.DeepEqual(against, want) {
		t.Errorf("against %q, want %q", against, want)
	}
}

// What cannot be seen is passed over and said; bytes that are no text are
// refused.
func TestUnreadable(t *testing.T) {
	for _, tt := range []struct {
		text, board string
		unplaced    []string
		ask         string
	}{
		{"gorse\x07 lite\x1b", "gorse-lite", []string{"characters that cannot be seen (2)"}, ""},
		{"\u202egorse lite\u202c", "gorse-lite", []string{"characters that cannot be seen (2)"}, ""},
		{"gorse\u200d lite", "gorse-lite", nil, ""},
		{"gorse lite \xff", "", nil, "the sentence has bytes that are not UTF-8: send plain text"},
	} {
		r := bench().Read(tt.text, advisor.Question{})
		ask := ""
		if r.Ask != nil {
			ask = r.Ask.Error()
		}
		if r.Question.Board != tt.board || !reflect.DeepEqual(r.Unplaced, tt.unplaced) || ask != tt.ask {
			t.Errorf("%q: board %q, unplaced %q, ask %q", tt.text, r.Question.Board, r.Unplaced, ask)
		}
	}
}

// A reading takes a bounded time, whatever is sent.
func TestReadingIsQuick(t *testing.T) {
	names := bench()
	for _, text := range []string{
		strings.Repeat("how ", 119), strings.Repeat("not the ", 59), strings.Repeat("the max power limit ", 29), strings.Repeat("9 ", 119),
		strings.Repeat("zq ", 119), strings.Repeat("a/b-", 120), strings.Repeat("-", 999), strings.Repeat("what would make it a ", 20),
	} {
		start := time.Now()
		names.Read(text, advisor.Question{})
		if took := time.Since(start); took > time.Second {
			t.Errorf("%.40s…: %v", text, took)
		}
	}
}

// A short length is an altitude where a word says so, and is left alone where
// none does.
func TestShortHeights(t *testing.T) {
	for text, want := range map[string]float64{
		"quarry with a v10 at an altitude of 60 m": 60, "quarry with a v10, elevation 90 m": 90, "quarry with a v10, height about 45 m": 45,
		"quarry with a v10, 80 m above the sea": 80, "quarry with a v10 at 70 m asl": 70, "quarry with a v10, up at 85 m": 85,
		"quarry with a v10 and a cable of 60 m": -1, "quarry with a v10, 3 m from the wall": -1,
	} {
		got := -1.0
		r := demoNames().Read(text, advisor.Question{})
		if r.Question.AltitudeM != nil {
			got = *r.Question.AltitudeM
		}
		if got != want {
			t.Errorf("%q: %v m, want %v", text, got, want)
		}
	}
}

func FuzzRead(f *testing.F) {
	for _, s := range oddSentences {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) { checkFollow(t, s) })
}

func TestStorm(t *testing.T) {
	storm.Run(t, "FuzzRead", append(typed(t), oddSentences...), checkFollow)
}

// typed gives the sentences of the samples.
func typed(t *testing.T) []string {
	files, _ := filepath.Glob("../../testdata/sentences/*.txt")
	var list []string
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(data)) {
			if line = strings.TrimSpace(line); line != "" && line[0] != '#' && !strings.HasPrefix(line, "=>") {
				list = append(list, line)
			}
		}
	}
	if len(list) == 0 {
		t.Fatal("there are no sentences")
	}
	return list
}

var oddSentences = []string{"ember 10 on x40 at 90F", "1,6,0 m", "°°°", "\x00\xff", "no graphics", "without a gpu card 3 W", "10-core 12 cores", "a a a A A 3 A"}

// checkFollow reads a sentence after another one: whatever it says, what is
// read of it exists. It reports whether the sentence names a board and a chip of
// its own.
func checkFollow(t *testing.T, s string) bool {
	names := demoNames()
	before := Asked{Question: advisor.Question{Board: "quarry", Chip: "v10"}, Boards: []string{"quarry", "anvil"}}
	r := names.Follow(s, before)
	names.Carry(before, r.Asked)
	for _, id := range []string{r.Question.Board, r.Question.Chip} {
		if id != "" && names.socket(thing{board, id})+names.socket(thing{chip, id}) == "" {
			t.Fatalf("%q was read as %q, which does not exist", s, id)
		}
	}
	return len(r.Unplaced) == 0 && r.Question.Board != before.Question.Board && r.Question.Chip != before.Question.Chip
}

var demoNames = sync.OnceValue(func() *Names { return NewNames(knowledge.DemoBase()) })
