package logfile_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf16"

	"hotroom/advisor/bench/logfile"
	"hotroom/knowledge/storm"
)

func read(text string, o logfile.Options) (*logfile.Log, error) {
	return logfile.Read(context.Background(), "a.csv", strings.NewReader(text), o)
}

// rows writes 40 samples, 10 s apart from line 2 on; change replaces some.
func rows(header string, row func(i int) string, change map[int]string) string {
	var b strings.Builder
	b.WriteString(header + "\n")
	for i := range 40 {
		text, ok := change[i+2]
		if !ok {
			text = row(i)
		}
		b.WriteString(text + "\n")
	}
	return b.String()
}

func plain(i int) string { return fmt.Sprintf("%d,%.1f,22.0", 10*i, 30+float64(i)/2) }

const header = "time_s,hot_c,room_c"

// Every defect is reported with its line, and costs no other row.
func TestDefects(t *testing.T) {
	for name, tt := range map[string]struct {
		text string
		want string
		left int
	}{
		"none":                 {rows(header, plain, nil), "", 40},
		"open":                 {rows(header, plain, map[int]string{5: "30,OL,22", 6: "40,----,22", 9: "70,,22"}), `lines 5–6, 9: the thermocouple is open: no reading ("OL"), 3 in all`, 37},
		"no number":            {rows(header, plain, map[int]string{5: "30,hot,22"}), `line 5: the hot spot's reading is no number ("hot")`, 39},
		"railed":               {rows(header, plain, map[int]string{5: "30,1372.0,22"}), `line 5: the hot spot is outside -40 to 300 °C ("1372.0")`, 39},
		"no room":              {rows(header, plain, map[int]string{5: "30,31.5,"}), "line 5: no room temperature", 39},
		"room in °F":           {rows(header, plain, map[int]string{5: "30,31.5,71.6"}), `line 5: the room is outside -20 to 60 °C (in °F?) ("71.6")`, 39},
		"repeated":             {rows(header, plain, map[int]string{5: "20,31.5,22"}), "line 5: the time stamp before is repeated; line 6: samples are missing before it", 39},
		"dropped":              {rows(header, plain, map[int]string{5: "", 6: ""}), "line 7: samples are missing before it", 38},
		"back for one row":     {rows(header, plain, map[int]string{8: "5,33.0,22"}), "line 8: the time goes backwards", 39},
		"ahead for one row":    {rows(header, plain, map[int]string{8: "99999,33.0,22"}), "line 8: samples are missing before it", 39},
		"width":                {rows(header, plain, map[int]string{5: "30,31.5", 7: "50,32.5,22,1"}), "lines 5, 7: another number of fields than the header has", 38},
		"empty field at end":   {rows(header, plain, map[int]string{5: "30,31.5,22.0,"}), "", 40},
		"second header":        {rows(header, plain, map[int]string{5: "s,°C,°C"}), `line 5: text instead of numbers (a second header?) ("s")`, 39},
		"unreadable time":      {rows(header, plain, map[int]string{5: "3O,31.5,22"}), `line 5: the time cannot be read ("3O")`, 39},
		"thousands":            {rows(header, plain, map[int]string{41: `"1,390",49.5,22`}), `line 41: a number with a thousands separator ("1,390")`, 39},
		"preamble":             {"logger 12\n\n" + rows(header, plain, nil), "line 1: text above the table, passed over", 40},
		"other column":         {rows("time_s,hot_c,room_c,fan", func(i int) string { return plain(i) + ",900" }, nil), `line 1: a column that is not read ("fan")`, 40},
		"restart":              {rows(header, func(i int) string { return plain((i + 36) % 40) }, nil), "lines 2–5: left out, because the clock started again and another stretch is longer, 4 in all", 36},
		"empty power":          {rows(header+",package_w", func(i int) string { return plain(i) + ",100" }, map[int]string{5: "30,31.5,22,"}), "line 5: package_w has no number", 40},
		"too long":             {rows(header, plain, map[int]string{5: strings.Repeat("9", 1<<17)}), "line 5: longer than a line of a log can be", 39},
		"comma as thousands":   {rows("time_s;hot_c;room_c", func(i int) string { return strings.ReplaceAll(plain(i), ",", ";") }, map[int]string{7: "50;1.032,5;22,0"}), `line 7: a number with a thousands separator ("1.032,5")`, 39},
		"another decimal mark": {rows("time_s;hot_c;room_c", func(i int) string { return strings.ReplaceAll(plain(i), ",", ";") }, map[int]string{7: "50;32,5;22.0"}), `line 7: the hot spot's reading is no number ("32,5")`, 39},
	} {
		t.Run(name, func(t *testing.T) {
			l, err := read(tt.text, logfile.Options{})
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, d := range l.Defects {
				got = append(got, d.String())
			}
			said := strings.Join(got, "; ")
			if tt.want == "" && said != "" || !strings.Contains(said, tt.want) {
				t.Errorf("got  %s\nwant %s", said, tt.want)
			}
			if len(l.TimeS) != tt.left {
				t.Errorf("%d samples are left, want %d: %s", len(l.TimeS), tt.left, said)
			}
			for i := 1; i < len(l.TimeS); i++ {
				if l.TimeS[i] <= l.TimeS[i-1] {
					t.Fatalf("sample %d is not later than the one before", i)
				}
			}
		})
	}
}

func TestRefusals(t *testing.T) {
	few := func(n int) string { return strings.Join(strings.SplitAfter(rows(header, plain, nil), "\n")[:n+1], "") }
	for name, tt := range map[string]struct{ text, want string }{
		"empty":            {"", "a.csv: the log is empty: give a file with a header and a sample a row"},
		"header alone":     {header + "\n", "a.csv: 0 good samples: too few to judge a run by: at least 20 are needed"},
		"two samples":      {few(2), "a.csv: 2 good samples: too few to judge a run by: at least 20 are needed"},
		"19 samples":       {few(19), "a.csv: 19 good samples: too few to judge a run by: at least 20 are needed"},
		"20 short samples": {few(20), "a.csv: the good samples cover 190 s: at least 300 s are needed, with the load on for longer than the board takes to warm"},
		"all open":         {rows(header, func(i int) string { return fmt.Sprintf("%d,OL,22", i) }, nil), `a.csv: 0 good samples: too few to judge a run by: at least 20 are needed; lines 2–41: the thermocouple is open: no reading ("OL"), 40 in all`},
		"room in °F":       {rows(header, func(i int) string { return fmt.Sprintf("%d,90,71.6", i*10) }, nil), `a.csv: 0 good samples: too few to judge a run by: at least 20 are needed; lines 2–41: the room is outside -20 to 60 °C (in °F?) ("71.6"), 40 in all`},
		"no header":        {"1,2,3\n4,5,6\n", "a.csv: line 1: no line names the time: the header needs time_s or time, and hot_c (or hot_mv and junction_c)"},
		"no hot":           {"time_s,room_c\n1,2\n", "a.csv: line 1: no line names the hot spot: the header needs hot_c, or hot_mv and junction_c"},
		"near miss":        {"times,hot_c,room_c\n1,2,3\n", `a.csv: line 1: unknown column "times": did you mean "time_s"?`},
		"°F in the header": {"time_s,hot_f,room_c\n1,2,3\n", `a.csv: line 1: the column "hot_f" is in °F: set the logger to °C, or convert the column and name it in °C`},
		"no room":          {"time_s,hot_c\n1,2\n", "a.csv: line 1: there is no column room_c: add it, or give the room with --room"},
		"no junction":      {"time_s,hot_mv,room_c\n1,2,3\n", "a.csv: line 1: there is hot_mv but no junction_c: a bare thermocouple needs the temperature of its cold junction"},
		"twice":            {"time_s,hot_c,hot_c,room_c\n1,2,3,4\n", `a.csv: line 1: the column "hot_c" is given twice: keep one`},
		"binary":           {"\x00\x01\x02", "a.csv: line 1: the log is no text, or UTF-16 without a byte order mark: save it as UTF-8 text"},
		"no workbook":      {"PK\x03\x04 and more", "a.csv: the workbook is damaged (zip: not a valid zip file): save it again, or as CSV"},
	} {
		if _, err := read(tt.text, logfile.Options{}); err == nil || err.Error() != tt.want {
			t.Errorf("%s:\ngot  %v\nwant %s", name, err, tt.want)
		}
	}
}

// The same samples come out however they are written.
func TestWritings(t *testing.T) {
	usual, err := read(rows(header, plain, nil), logfile.Options{})
	if err != nil {
		t.Fatal(err)
	}
	utf16le := func(text string) string {
		b := []byte{0xff, 0xfe}
		for _, u := range utf16.Encode([]rune(text)) {
			b = append(b, byte(u), byte(u>>8))
		}
		return string(b)
	}
	utf16be := func(text string) string {
		b := []byte{0xfe, 0xff}
		for _, u := range utf16.Encode([]rune(text)) {
			b = append(b, byte(u>>8), byte(u))
		}
		return string(b)
	}
	text := rows(header, plain, nil)
	timed := func(format func(s int) string) string {
		return rows("time,hot_c,room_c", func(i int) string { return format(10*i) + plain(i)[strings.Index(plain(i), ","):] }, nil)
	}
	for name, written := range map[string]string{
		"byte order mark": "\ufeff" + text,
		"CRLF":            strings.ReplaceAll(text, "\n", "\r\n"),
		"UTF-16 LE":       utf16le(text),
		"UTF-16 BE":       utf16be(text),
		"semicolons":      strings.ReplaceAll(text, ",", ";"),
		"decimal comma":   strings.ReplaceAll(strings.ReplaceAll(text, ",", ";"), ".", ","),
		"tabs":            strings.ReplaceAll(text, ",", "\t"),
		"quoted":          `"` + strings.TrimSuffix(strings.ReplaceAll(strings.ReplaceAll(text, ",", `","`), "\n", "\"\n\""), `"`),
		"blanks":          strings.ReplaceAll(text, ",", " , "),
		"upper case":      strings.ToUpper(text[:len(header)]) + text[len(header):],
		"no final end":    strings.TrimSuffix(text, "\n"),
		"hh:mm:ss": timed(func(s int) string {
			s += 23*3600 + 58*60
			return fmt.Sprintf("%02d:%02d:%02d", s/3600%24, s/60%60, s%60)
		}),
		"dates":         timed(func(s int) string { return fmt.Sprintf("2025-03-04T09:%02d:%02d+01:00", s/60, s%60) }),
		"without zone":  timed(func(s int) string { return fmt.Sprintf("2025-03-04 09:%02d:%02d", s/60, s%60) }),
		"other columns": rows("a,b,time_s,hot_c,room_c", func(i int) string { return "x,," + plain(i) }, nil),
	} {
		l, err := read(written, logfile.Options{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(l.TimeS) != 40 {
			t.Errorf("%s: %d samples: %v", name, len(l.TimeS), l.Defects)
			continue
		}
		for i := range l.TimeS {
			if l.TimeS[i] != usual.TimeS[i] || l.HotC[i] != usual.HotC[i] || l.RoomC[i] != usual.RoomC[i] {
				t.Errorf("%s: sample %d is %g s, %g °C, %g °C", name, i, l.TimeS[i], l.HotC[i], l.RoomC[i])
				break
			}
		}
		if (name == "dates" || name == "without zone") && l.Start.Format("2006-01-02") != "2025-03-04" {
			t.Errorf("%s: it starts at %v", name, l.Start)
		}
	}
}

func TestMidnight(t *testing.T) {
	l, err := read(rows("time,hot_c,room_c", func(i int) string {
		s := 23*3600 + 58*60 + 10*i
		return fmt.Sprintf("%02d:%02d:%02d,%d,22", s/3600%24, s/60%60, s%60, 30+i)
	}, nil), logfile.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if got := l.TimeS[len(l.TimeS)-1]; got != 390 || len(l.Defects) != 1 || l.Defects[0].String() != "line 14: the clock passes midnight, counted on" {
		t.Errorf("the last sample is at %g s; %v", got, l.Defects)
	}
}

func TestTypedRoom(t *testing.T) {
	room := 23.5
	l, err := read(rows("time_s,hot_c", func(i int) string { return fmt.Sprintf("%d,%d", 10*i, 30+i) }, nil), logfile.Options{RoomC: &room})
	if err != nil || !l.RoomTyped || l.RoomC[7] != 23.5 {
		t.Errorf("%v, %+v", err, l)
	}
}

func TestEveryColumn(t *testing.T) {
	l, err := read(rows("vrm_c,package_w,volts,ghz,room_c,junction_c,hot_mv,time_s", func(i int) string {
		return fmt.Sprintf("70,120.5,1.05,4.2,22,24.000,%.3f,%d", 2.0+float64(i)/100, 10*i)
	}, nil), logfile.Options{})
	if err != nil {
		t.Fatal(err)
	}
	// 24 °C are 0.960 mV (NIST ITS-90 table, from memory), and 2.960 mV 72.7 °C.
	if math.Abs(l.HotC[0]-72.7) > 0.1 || l.BoardC[3] != 70 || l.PackageW[3] != 120.5 || l.Volts[3] != 1.05 || l.GHz[3] != 4.2 || l.Line[3] != 5 {
		t.Errorf("%+v", l)
	}
}

func TestStopsWithTheContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := logfile.Read(ctx, "a.csv", strings.NewReader(rows(header, plain, nil)), logfile.Options{}); err == nil || !strings.Contains(err.Error(), "context canceled") {
		t.Errorf("got %v", err)
	}
}

// oddLogs are where altering starts.
func oddLogs() [][]byte {
	var list [][]byte
	for _, text := range []string{
		rows(header, plain, nil), rows(header, plain, map[int]string{5: "5,OL,22", 9: "99999,30,22"}),
		"\ufefftime;hot_mv;junction_c;room_c\n00:00:00,5;1,5;22,1;22\n23:59:59;1;2;3\n", "\xff\xfet\x00i\x00", "time_s,hot_c,room_c,ghz\n1,\"2\"\"3\",4,\n", "PK\x03\x04",
	} {
		list = append(list, []byte(text))
	}
	return list
}

func FuzzRead(f *testing.F) {
	for _, data := range oddLogs() {
		f.Add(data)
	}
	f.Fuzz(func(t *testing.T, data []byte) { checkLog(t, data) })
}

func TestStorm(t *testing.T) { storm.Run(t, "FuzzRead", oddLogs(), checkLog) }

// checkLog: whatever the bytes, reading ends without a panic and what is left is
// in order, in range and as long in every column.
func checkLog(t *testing.T, data []byte) (good bool) {
	room := 22.0
	l, _ := logfile.Read(context.Background(), "a.csv", strings.NewReader(string(data)), logfile.Options{RoomC: &room})
	if l == nil {
		return false
	}
	for i := range l.TimeS {
		if i > 0 && !(l.TimeS[i] > l.TimeS[i-1]) || !(l.HotC[i] >= -40 && l.HotC[i] <= 300) || !(l.RoomC[i] >= -20 && l.RoomC[i] <= 60) {
			t.Fatalf("sample %d: %g s, %g °C, %g °C", i, l.TimeS[i], l.HotC[i], l.RoomC[i])
		}
	}
	for _, column := range [][]float64{l.HotC, l.RoomC} {
		if len(column) != len(l.TimeS) {
			t.Fatal("columns differ in length")
		}
	}
	for _, column := range [][]float64{l.GHz, l.Volts, l.PackageW, l.BoardC} {
		if column != nil && len(column) != len(l.TimeS) {
			t.Fatal("columns differ in length")
		}
	}
	return true
}
