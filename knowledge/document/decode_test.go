package document

import (
	"go/token"
	"slices"
	"strings"
	"testing"
)

type rack struct {
	ID        string   `toml:"id" need:"yes"`
	Kind      string   `toml:"kind" oneof:"open|closed|half-open"`
	Built     string   `toml:"built" kind:"date"`
	Slots     int      `toml:"slots" need:"yes"`
	Wide      bool     `toml:"wide"`
	Weight    *float64 `toml:"weight_kg"`
	Depth     float64  `toml:"depth_mm" default:"600"`
	Tags      []string `toml:"tags"`
	Say       Text     `toml:"say"`
	Fan       fan      `toml:"fan" need:"yes"`
	Door      *door    `toml:"door"`
	Rail      rail     `toml:"rail"`
	Shelves   []shelf  `toml:"shelf"`
	Untouched string   `toml:"-"`

	At        token.Position `toml:"-"`
	Defaulted []string       `toml:"-"`
}

type fan struct {
	Speed float64 `toml:"speed_ms" need:"yes"`
	Noise float64 `toml:"noise_db" default:"30"`
}

type door struct {
	Glass bool           `toml:"glass"`
	At    token.Position `toml:"-"`
}

type rail struct {
	Length float64 `toml:"length_mm" default:"450"`
}

type shelf struct {
	Load float64        `toml:"load_kg" need:"yes"`
	At   token.Position `toml:"-"`
}

type file struct {
	Racks []rack `toml:"rack"`
}

const good = `# racks
[[rack]]
id = "a"
kind = 'half-open'
built = 2026-02-28
slots = 42
weight_kg = 80
tags = [
  "x",
  "y", # last
]
fan.speed_ms = 2.5
[rack.door]
glass = true
[[rack.shelf]]
load_kg = 5
[[rack.shelf]]
load_kg = 7.5

[[rack]]
"id" = "b"
built = "2024-02-29"
slots = 1_0
fan = { speed_ms = 1, noise_db = 20 }
shelf = [{ load_kg = 1 }]
say = """
two
lines"""
`

func TestDecodeGood(t *testing.T) {
	table, problems := Parse("r.toml", []byte(good))
	var f file
	problems = append(problems, table.Decode(&f)...)
	if problems != nil {
		t.Fatal(problems)
	}
	a, b := f.Racks[0], f.Racks[1]
	if a.ID != "a" || a.Kind != "half-open" || a.Built != "2026-02-28" || a.Slots != 42 || *a.Weight != 80 ||
		a.Depth != 600 || !slices.Equal(a.Tags, []string{"x", "y"}) || a.Fan != (fan{2.5, 30}) || !a.Door.Glass ||
		a.Rail.Length != 450 || len(a.Shelves) != 2 || a.Shelves[1].Load != 7.5 {
		t.Errorf("first: %+v", a)
	}
	if b.ID != "b" || b.Built != "2024-02-29" || b.Slots != 10 || b.Door != nil || b.Say.String() != "two\nlines" || len(b.Shelves) != 1 {
		t.Errorf("second: %+v", b)
	}
	if want := []string{"depth_mm", "fan.noise_db", "rail.length_mm"}; !slices.Equal(a.Defaulted, want) {
		t.Errorf("defaulted %q, want %q", a.Defaulted, want)
	}
	if want := []string{"depth_mm", "rail.length_mm"}; !slices.Equal(b.Defaulted, want) {
		t.Errorf("defaulted %q, want %q", b.Defaulted, want)
	}
	for _, place := range []struct {
		at   token.Position
		want string
	}{
		{a.At, "r.toml:2:1"},
		{a.Door.At, "r.toml:13:1"},
		{a.Shelves[1].At, "r.toml:17:1"},
		{b.At, "r.toml:20:1"},
		{b.Shelves[0].At, "r.toml:25:10"},
		{b.Say.At(4), "r.toml:28:1"},
		{table.Tables("rack")[0].At("tags"), "r.toml:8:8"},
		{table.Tables("rack")[0].At("fan", "speed_ms"), "r.toml:12:16"},
		{table.Tables("rack")[0].At("fan", "noise_db"), "r.toml:12:1"},
		{table.Tables("rack")[0].At("door"), "r.toml:13:1"},
		{table.Tables("rack")[0].At("none"), "r.toml:2:1"},
		{table.Tables("rack")[1].At("fan", "noise_db"), "r.toml:24:34"},
		{table.Tables("rack")[1].KeyAt("slots"), "r.toml:23:1"},
		{table.At("rack"), "r.toml:2:1"},
	} {
		if place.at.String() != place.want {
			t.Errorf("got %v, want %v", place.at, place.want)
		}
	}
	keys := table.Tables("rack")[1].Keys()
	if want := []string{"id", "built", "slots", "fan", "shelf", "say"}; !slices.Equal(keys, want) {
		t.Errorf("keys %q, want %q", keys, want)
	}
}

// head opens a rack that lacks nothing; each test adds its lines after it.
const head = "[[rack]]\nid = \"a\"\nslots = 1\nfan.speed_ms = 1\n"

func TestMessages(t *testing.T) {
	tests := []struct{ name, src, want string }{
		{"unknown key, near", head + "depth_m = 3\n", `
r.toml:5:1: unknown key "depth_m": did you mean "depth_mm"?
depth_m = 3
^
`},
		{"unknown key, far", head + "[rack.fan.x]\n[rack.door]\ncolour = 1\n", `
r.toml:5:11: unknown key "x": [rack.fan] may have speed_ms, noise_db
[rack.fan.x]
          ^
r.toml:7:1: unknown key "colour": [rack.door] may have glass
colour = 1
^
`},
		{"key of a table below", head + "glass = true\nload_kg = 5\n", `
r.toml:5:1: unknown key "glass": move it under [rack.door]
glass = true
^
r.toml:6:1: unknown key "load_kg": move it under [[rack.shelf]]
load_kg = 5
^
`},
		{"wrong types", "[[rack]]\nid = 3\nslots = 1.5\nwide = \"yes\"\nweight_kg = \"80 kg\"\ntags = \"x\"\nsay = 1\nfan = 3\nshelf = {load_kg = 1}\nbuilt = 7\nkind = true\n", `
r.toml:2:6: id is 3: give a text between quotes
id = 3
     ^
r.toml:3:9: slots is 1.5: give a whole number
slots = 1.5
        ^
r.toml:4:8: wide is "yes", a text: write true or false, without quotes
wide = "yes"
       ^
r.toml:5:13: weight_kg is "80 kg", a text: give a number without quotes or unit
weight_kg = "80 kg"
            ^
r.toml:6:8: tags is "x", a text: give a list of texts, ["…"]
tags = "x"
       ^
r.toml:7:7: say is 1: give a text between quotes
say = 1
      ^
r.toml:8:7: fan is 3: write its keys under [rack.fan]
fan = 3
      ^
r.toml:9:9: shelf is a table: start each one with [[rack.shelf]]
shelf = {load_kg = 1}
        ^
r.toml:10:9: built is 7: give a date of the calendar as YYYY-MM-DD
built = 7
        ^
r.toml:11:8: kind is true, a yes or no: give a text between quotes
kind = true
       ^
`},
		{"missing", "[[rack]]\nid = \" \"\n[[rack.shelf]]\n", `
r.toml:1:1: [[rack]] has no slots: add slots = a number
[[rack]]
^
r.toml:1:1: [[rack]] has no fan: add [rack.fan]
[[rack]]
^
r.toml:2:6: id is empty: write something between the quotes
id = " "
     ^
r.toml:3:1: [[rack.shelf]] has no load_kg: add load_kg = a number
[[rack.shelf]]
^
`},
		{"out of set", head + "kind = \"opened\"\n[[rack]]\nid = \"b\"\nslots = 2\nfan.speed_ms = 1\nkind = \"glass house\"", `
r.toml:5:8: kind is "opened": did you mean "open"? (open, closed or half-open)
kind = "opened"
       ^
r.toml:10:8: kind is "glass house": give one of open, closed or half-open
kind = "glass house"
       ^
`},
		{"numbers and dates that are none", head + "depth_mm = -nan\nweight_kg = -inf\nbuilt = \"2026-02-30\"\n[rack.rail]\nlength_mm = 1e999\nx = 2026-02-30\n", `
r.toml:5:12: depth_mm is -nan: give a finite number
depth_mm = -nan
           ^
r.toml:6:13: weight_kg is -inf: give a finite number
weight_kg = -inf
            ^
r.toml:7:9: built is "2026-02-30": give a date of the calendar as YYYY-MM-DD
built = "2026-02-30"
        ^
r.toml:9:13: 1e999 is too large for a number: write a value that exists
length_mm = 1e999
            ^
r.toml:10:1: unknown key "x": [rack.rail] may have length_mm
x = 2026-02-30
^
r.toml:10:5: 2026-02-30 is no date or time (impossible date): write a value that exists
x = 2026-02-30
    ^
`},
		{"given twice", head + "slots = 2\n[rack.door]\n[rack.door]\nglass = 3\n", `
r.toml:5:1: "slots" is given twice: it already stands in line 3: keep one
slots = 2
^
r.toml:7:1: "door" is given twice: it already stands in line 6: keep one
[rack.door]
^
`},
		{"syntax errors, all of them", "[[rack]]\nid = \"a\nslots = twelve\ndepth_mm = 12,5\nfan.speed_ms = 1\n[rack.door\nglass = 1\n[rack.rail]\nlength_mm = 3 mm\nlenth_mm = 4\n", `
r.toml:2:8: basic strings cannot have new lines: close the text with a quote on the same line
id = "a
       ^
r.toml:3:9: expected keyword "true": put text between quotes, or write true or false
slots = twelve
        ^
r.toml:4:14: expected newline but got U+002C ',': write a decimal point, not a comma
depth_mm = 12,5
             ^
r.toml:6:11: expected ']' to close table name: close the header with ]
[rack.door
          ^
r.toml:9:15: expected newline but got U+006D 'm': write one key = value on a line, text between quotes
length_mm = 3 mm
              ^
r.toml:10:1: unknown key "lenth_mm": did you mean "length_mm"?
lenth_mm = 4
^
`},
		{"never closed", head + "tags = [\"x\",\n\"y\"\nsay = \"\"\"\nabc\n", `
r.toml:7:1: expected ',' or ']' after array value: write one key = value on a line, text between quotes
say = """
^
r.toml:7:1: multiline basic string not terminated by """: close the text with the quotes it starts with
say = """
^
`},
		{"not UTF-8", head + "# caf\xe9\nkind = \"\xe9\xe9\"\n", "\n" +
			`r.toml:5:6: byte 0xE9 is not UTF-8: save the file as UTF-8
# caf?
     ^
r.toml:6:8: kind is "??": give one of open, closed or half-open
kind = "??"
       ^
r.toml:6:9: byte 0xE9 is not UTF-8: save the file as UTF-8
kind = "??"
        ^
`},
		{"byte order mark, carriage returns", "\ufeff" + strings.ReplaceAll(head+"wide = 1\n", "\n", "\r\n"), `
r.toml:5:8: wide is 1: write true or false, without quotes
wide = 1
       ^
`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			table, problems := Parse("r.toml", []byte(tt.src))
			problems = append(problems, table.Decode(&file{})...)
			problems.Sort()
			if got := shown(problems); got != tt.want {
				t.Errorf("got%s\nwant%s", got, tt.want)
			}
		})
	}
}

func shown(problems Problems) string {
	var b strings.Builder
	b.WriteString("\n")
	for _, p := range problems {
		b.WriteString(p.String() + "\n" + p.Excerpt())
	}
	return b.String()
}

func TestUTF16(t *testing.T) {
	table, problems := Parse("r.toml", []byte("\xff\xfea\x00"))
	want := "r.toml:1:1: the file is UTF-16: save it as UTF-8"
	if table != nil || problems.Error() != want {
		t.Errorf("got %v, %q; want nil, %q", table, problems.Error(), want)
	}
}

func BenchmarkRead(b *testing.B) {
	src := []byte(strings.Repeat(good, 60))
	b.SetBytes(int64(len(src)))
	b.ReportAllocs()
	for b.Loop() {
		table, problems := Parse("r.toml", src)
		var f file
		if problems = append(problems, table.Decode(&f)...); problems != nil {
			b.Fatal(problems)
		}
	}
}
