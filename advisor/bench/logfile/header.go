package logfile

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"hotroom/knowledge/nearest"
)

// column is a column that is read.
type column int

const (
	timeColumn column = iota
	hotColumn
	voltageColumn // bare thermocouple, mV
	junctionColumn
	roomColumn
	clockColumn
	voltsColumn
	packageColumn
	boardColumn
	columnCount
)

// Columns gives the names of the columns that are read.
func Columns() []string {
	return []string{"time_s", "time", "hot_c", "hot_mv", "junction_c", "room_c", "ghz", "volts", "package_w", "vrm_c"}
}

func columnOf(name string) (column, bool) {
	c, ok := map[string]column{
		"time_s": timeColumn, "time": timeColumn, "hot_c": hotColumn, "hot_mv": voltageColumn, "junction_c": junctionColumn,
		"room_c": roomColumn, "ghz": clockColumn, "volts": voltsColumn, "package_w": packageColumn, "vrm_c": boardColumn,
	}[name]
	return c, ok
}

// header says in which field each column stands, −1 for none.
type header struct {
	field  [columnCount]int
	width  int
	other  []string // names that are not read
	double string   // a name that is given twice
}

func (h *header) has(c column) bool { return h.field[c] >= 0 }

// headerOf reads a row as the header of a table: true where it names the time
// and a reading of the hot spot.
func headerOf(fields [][]byte) (header, bool) {
	h := header{width: len(fields)}
	for i := range h.field {
		h.field[i] = -1
	}
	for i, f := range fields {
		name := strings.ToLower(string(trim(f)))
		c, known := columnOf(name)
		switch {
		case !known && name != "":
			h.other = append(h.other, name)
		case known && h.has(c):
			h.double = name
		case known:
			h.field[c] = i
		}
	}
	return h, h.has(timeColumn) && (h.has(hotColumn) || h.has(voltageColumn))
}

// mostPreamble is how many lines may stand above a table.
const mostPreamble = 50

// findHeader reads on to the header.
func (t *table) findHeader() error {
	var first []string
	for range mostPreamble {
		fields, line, err := t.rows.next()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return fmt.Errorf("line %d: %w", line, err)
		}
		h, ok := headerOf(fields)
		if ok {
			t.header = h
			return t.checkHeader(line)
		}
		if first == nil && len(fields) > 1 {
			for _, f := range fields {
				first = append(first, strings.ToLower(string(f)))
			}
		}
		if !blank(fields) {
			t.defect(preamble, line, nil)
		}
	}
	return noHeader(first)
}

// checkHeader refuses a header that cannot be read without guessing.
func (t *table) checkHeader(line int) error {
	h := &t.header
	if h.double != "" {
		return fmt.Errorf("line %d: the column %q is given twice: keep one", line, h.double)
	}
	if h.has(voltageColumn) && !h.has(hotColumn) && !h.has(junctionColumn) {
		return fmt.Errorf("line %d: there is hot_mv but no junction_c: a bare thermocouple needs the temperature of its cold junction", line)
	}
	if !h.has(roomColumn) {
		if i := slices.IndexFunc(h.other, fahrenheit); i >= 0 {
			return inFahrenheit(line, h.other[i])
		}
		if t.options.RoomC == nil {
			return fmt.Errorf("line %d: there is no column room_c: add it, or give the room with --room", line)
		}
		t.log.RoomTyped = true
	}
	for _, name := range h.other {
		t.defect(unreadColumn, line, []byte(name))
	}
	return nil
}

// noHeader says why no line is a header, from the first that could be one.
func noHeader(names []string) error {
	if len(names) == 0 {
		return errors.New("line 1: there is no header: name the columns, as in time_s,hot_c,room_c")
	}
	if i := slices.IndexFunc(names, fahrenheit); i >= 0 {
		return inFahrenheit(1, names[i])
	}
	for _, name := range names {
		if best, ok := nearest.Word(name, Columns()); ok && best != name {
			return fmt.Errorf("line 1: unknown column %q: did you mean %q?", name, best)
		}
	}
	if !slices.Contains(names, "time_s") && !slices.Contains(names, "time") {
		return errors.New("line 1: no line names the time: the header needs time_s or time, and hot_c (or hot_mv and junction_c)")
	}
	return errors.New("line 1: no line names the hot spot: the header needs hot_c, or hot_mv and junction_c")
}

func fahrenheit(name string) bool {
	return strings.HasSuffix(name, "_f") || strings.Contains(name, "°f") || strings.Contains(name, "fahrenheit")
}

func inFahrenheit(line int, name string) error {
	return fmt.Errorf("line %d: the column %q is in °F: set the logger to °C, or convert the column and name it in °C", line, name)
}

func blank(fields [][]byte) bool {
	return !slices.ContainsFunc(fields, func(f []byte) bool { return len(f) > 0 })
}
