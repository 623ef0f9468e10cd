package journal

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"

	"hotroom/knowledge"
	"hotroom/knowledge/document"
	"hotroom/knowledge/sheet"
)

// table is how a runs.csv is written: its columns in their order, its quoting,
// its line endings.
type table struct {
	content  []byte
	columns  []string
	ids      []string
	ending   string // of a line
	open     bool   // the last line has no ending
	quoteAll bool
}

const byteOrderMark = "\ufeff"

// newTable looks at a file; without any it begins one. Mistakes in its rows are
// found later, with all others.
func newTable(content []byte) (*table, error) {
	if len(bytes.TrimSpace(bytes.TrimPrefix(content, []byte(byteOrderMark)))) == 0 {
		content = append(bytes.TrimSpace(content), strings.Join(knowledge.RunColumns(), ",")+"\n"...)
	}
	t := &table{content: content, ending: "\n"}
	s, problems := sheet.Read(runsFile, content, knowledge.RunColumns(), []string{"id"})
	if s == nil {
		return nil, fatal(problems)
	}
	for i := range s.Rows {
		t.ids = append(t.ids, s.Rows[i].Field("id"))
	}
	text := bytes.TrimPrefix(content, []byte(byteOrderMark))
	header, err := csv.NewReader(bytes.NewReader(text)).Read()
	if err != nil {
		return nil, fmt.Errorf("the header of %s cannot be read: %w", runsFile, err)
	}
	for _, name := range header {
		t.columns = append(t.columns, strings.TrimSpace(name))
	}
	if i := bytes.IndexByte(text, '\n'); i > 0 && text[i-1] == '\r' {
		t.ending = "\r\n"
	}
	t.open = !bytes.HasSuffix(text, []byte{'\n'})
	t.quoteAll = quotesAll(text, len(header))
	return t, nil
}

// quotesAll reports whether the last line has every field between quotes.
func quotesAll(text []byte, columns int) bool {
	lines := bytes.Split(bytes.TrimSpace(text), []byte{'\n'})
	last := bytes.TrimSpace(lines[len(lines)-1])
	return bytes.HasPrefix(last, []byte{'"'}) && bytes.HasSuffix(last, []byte{'"'}) && bytes.Count(last, []byte(`","`)) == columns-1
}

// with gives the content with one more line. Nothing that stood there changes;
// a last line without an ending gets one, and the new one has none then.
func (t *table) with(line string) []byte {
	content := slices.Clone(t.content)
	if t.open {
		return append(content, t.ending+line...)
	}
	return append(content, line+t.ending...)
}

// ID makes an id of a run's date, board and chip, with a number behind it where
// it is taken.
func ID(run *knowledge.Run, taken func(id string) bool) string {
	stem := strings.Trim(strings.Join([]string{run.Date, run.Board, run.Chip}, "-"), "-")
	id := stem
	for n := 2; taken(id); n++ {
		id = stem + "-" + strconv.Itoa(n)
	}
	return id
}

// remarks are the columns that no answer depends on: a table may do without.
func remarks() []string { return []string{"date", "firmware", "minutes", "by", "note"} }

// omitted lists what the table has no column for and no answer depends on.
func (t *table) omitted(run *knowledge.Run) []string {
	var list []string
	for _, column := range remarks() {
		if field(run, column) != "" && !slices.Contains(t.columns, column) {
			list = append(list, column)
		}
	}
	return list
}

// line writes a run in the table's own columns.
func (t *table) line(run *knowledge.Run) (string, error) {
	for _, column := range knowledge.RunColumns() {
		text := field(run, column)
		if strings.IndexFunc(text, unicode.IsControl) >= 0 {
			return "", fmt.Errorf("%s holds a line break or another control character: a run is one line", column)
		}
		if text != "" && text != "0" && !slices.Contains(t.columns, column) && !slices.Contains(remarks(), column) {
			return "", fmt.Errorf("%s has no column %q for %s: add it to the header, or leave the value out", runsFile, column, document.Quote(text))
		}
	}
	fields := make([]string, len(t.columns))
	for i, column := range t.columns {
		fields[i] = t.quoted(field(run, column))
	}
	return strings.Join(fields, ","), nil
}

// quoted writes a field as the file does, and as RFC 4180 needs it.
func (t *table) quoted(text string) string {
	if t.quoteAll || strings.ContainsAny(text, "\",\r\n") {
		return `"` + strings.ReplaceAll(text, `"`, `""`) + `"`
	}
	return text
}

// field gives a run's text in a column, "" where there is none.
func field(r *knowledge.Run, column string) string {
	switch column {
	case "room_c":
		return number(&r.RoomC)
	case "graphics_w":
		return number(&r.GraphicsW)
	case "altitude_m":
		return number(&r.AltitudeM)
	}
	if n, ok := map[string]*float64{
		"power_limit_w": r.PowerLimitW, "current_limit_a": r.CurrentLimitA, "minutes": r.Minutes,
		"ghz": r.GHz, "volts": r.Volts, "package_w": r.PackageW, "hot_c": r.HotC,
	}[column]; ok {
		return number(n)
	}
	return strings.TrimSpace(map[string]string{
		"id": r.ID, "date": r.Date, "board": r.Board, "chip": r.Chip, "firmware": r.Firmware, "enclosure": r.Enclosure,
		"cooler": r.Cooler, "thermometer": r.Thermometer, "load": r.Load, "setup": r.Setup, "outcome": r.Outcome, "by": r.By, "note": r.Note,
	}[column])
}

func number(v *float64) string {
	if v == nil {
		return ""
	}
	return strconv.FormatFloat(*v, 'f', -1, 64)
}
