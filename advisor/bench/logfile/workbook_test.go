package logfile_test

import (
	"bytes"
	"context"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"hotroom/advisor/bench/logfile"
)

// workbook is written by an independent library: github.com/xuri/excelize.
func workbook(t *testing.T, build func(f *excelize.File)) string {
	t.Helper()
	f := excelize.NewFile()
	build(f)
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// sheet fills the first sheet: a header, then 40 samples 10 s apart whose time
// is written by the caller.
func sheet(t *testing.T, f *excelize.File, clock func(i int) any, style int) {
	t.Helper()
	set := func(column, row int, value any) {
		cell, err := excelize.CoordinatesToCellName(column, row)
		if err != nil {
			t.Fatal(err)
		}
		if err := f.SetCellValue("Sheet1", cell, value); err != nil {
			t.Fatal(err)
		}
		if column == 1 && row > 1 && style > 0 {
			if err := f.SetCellStyle("Sheet1", cell, cell, style); err != nil {
				t.Fatal(err)
			}
		}
	}
	for i, name := range []string{"time", "hot_c", "note", "room_c"} {
		set(i+1, 1, name)
	}
	for i := range 40 {
		set(1, i+2, clock(i))
		set(2, i+2, 30+float64(i)/2)
		set(4, i+2, 22.0)
	}
}

func TestWorkbook(t *testing.T) {
	begin := time.Date(2025, 3, 4, 23, 57, 0, 0, time.UTC)
	for name, tt := range map[string]struct {
		clock  func(i int) any
		format string
	}{
		"seconds":     {func(i int) any { return 10 * i }, ""},
		"dates":       {func(i int) any { return begin.Add(time.Duration(10*i) * time.Second) }, ""},
		"own format":  {func(i int) any { return 45000 + float64(10*i)/86400 }, `yyyy\-mm\-dd hh:mm:ss.000`},
		"time of day": {func(i int) any { return float64(10*i) / 86400 }, "hh:mm:ss"},
		"elapsed":     {func(i int) any { return 1 + float64(10*i)/86400 }, "[h]:mm:ss"},
		"text":        {func(i int) any { return begin.Add(time.Duration(10*i) * time.Second).Format(time.RFC3339) }, ""},
	} {
		book := workbook(t, func(f *excelize.File) {
			style := 0
			if tt.format != "" {
				var err error
				if style, err = f.NewStyle(&excelize.Style{CustomNumFmt: &tt.format}); err != nil {
					t.Fatal(err)
				}
			}
			sheet(t, f, tt.clock, style)
			if err := f.SetCellValue("Sheet1", "B7", "OL"); err != nil {
				t.Fatal(err)
			}
		})
		l, err := logfile.Read(context.Background(), "a.xlsx", strings.NewReader(book), logfile.Options{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(l.TimeS) != 39 || math.Abs(l.TimeS[38]-390) > 0.002 || l.HotC[38] != 49.5 || l.RoomC[38] != 22 {
			t.Errorf("%s: %d samples, the last at %g s, %g °C", name, len(l.TimeS), l.TimeS[len(l.TimeS)-1], l.HotC[len(l.HotC)-1])
		}
		var said []string
		for _, d := range l.Defects {
			said = append(said, d.String())
		}
		if want := `line 1: a column that is not read ("note"); line 7: the thermocouple is open: no reading ("OL")`; strings.Join(said, "; ") != want {
			t.Errorf("%s:\ngot  %s\nwant %s", name, strings.Join(said, "; "), want)
		}
		if name == "dates" && !l.Start.Equal(begin) {
			t.Errorf("it starts at %v", l.Start)
		}
	}
}

// A damaged workbook is refused with a sentence, wherever it is cut.
func TestDamagedWorkbook(t *testing.T) {
	whole := workbook(t, func(f *excelize.File) { sheet(t, f, func(i int) any { return 10 * i }, 0) })
	for at := 4; at < len(whole); at += 97 {
		broken := []byte(whole)
		broken[at] ^= 0x5a
		for _, text := range []string{whole[:at], string(broken)} {
			_, _ = logfile.Read(context.Background(), "a.xlsx", strings.NewReader(text), logfile.Options{}) // must not panic
		}
	}
	if _, err := logfile.Read(context.Background(), "a.xlsx", strings.NewReader(whole[:len(whole)/2]), logfile.Options{}); err == nil || !strings.Contains(err.Error(), "the workbook is damaged") {
		t.Errorf("got %v", err)
	}
}
