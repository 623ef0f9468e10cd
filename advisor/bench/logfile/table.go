package logfile

import (
	"hotroom/advisor/thermocouple"
)

// table turns rows of text into samples.
type table struct {
	log     *Log
	options Options
	rows    source
	header  header
	numbers numeral
	clock   clock
	defects defects
}

func (t *table) defect(k Kind, line int, seen []byte) { t.defects.add(k, line, seen) }

// What a hot spot and a room may read, °C: a board is gone long before the one
// and nobody tests outside the other, but a room in °F is above it.
const (
	coldestHotC, hottestHotC   = -40.0, 300.0
	coldestRoomC, hottestRoomC = -20.0, 60.0
)

// bytesPerRow is a low guess, so that memory is taken once.
const bytesPerRow = 24

// reserve makes the columns that the header has.
func (t *table) reserve() {
	if s, ok := t.rows.(*text); ok {
		t.numbers.comma = s.separator != ','
	}
	rows := min(t.options.Size/bytesPerRow, mostSamples)
	for c, into := range t.optional() {
		if t.header.has(c) {
			*into = make([]float64, 0, rows)
		}
	}
	l := t.log
	l.TimeS, l.HotC, l.RoomC = make([]float64, 0, rows), make([]float64, 0, rows), make([]float64, 0, rows)
	l.Line = make([]int32, 0, rows)
}

// optional gives the columns that a log may do without.
func (t *table) optional() map[column]*[]float64 {
	l := t.log
	return map[column]*[]float64{clockColumn: &l.GHz, voltsColumn: &l.Volts, packageColumn: &l.PackageW, boardColumn: &l.BoardC}
}

// row takes one row.
func (t *table) row(fields [][]byte, line int) {
	if blank(fields) {
		return
	}
	t.log.Rows++
	if !t.fits(fields) {
		t.defect(wrongWidth, line, nil)
		return
	}
	at, ok := t.time(fields, line)
	if !ok {
		return
	}
	t.clock.pace(t, at, line)
	hot, okHot := t.hot(fields, line)
	room, okRoom := t.room(fields, line)
	if !okHot || !okRoom || !t.inOrder(at, line) {
		return
	}
	l := t.log
	l.TimeS, l.HotC, l.RoomC, l.Line = append(l.TimeS, at), append(l.HotC, hot), append(l.RoomC, room), append(l.Line, int32(line))
	t.extra(&l.GHz, fields, clockColumn, unreadableClock, line)
	t.extra(&l.Volts, fields, voltsColumn, unreadableVolts, line)
	t.extra(&l.PackageW, fields, packageColumn, unreadablePackage, line)
	t.extra(&l.BoardC, fields, boardColumn, unreadableBoard, line)
}

// fits reports whether a row has the header's fields; empty ones after them are
// let through, and a workbook leaves empty ones off.
func (t *table) fits(fields [][]byte) bool {
	if len(fields) < t.header.width {
		return false
	}
	return blank(fields[t.header.width:])
}

func (t *table) time(fields [][]byte, line int) (float64, bool) {
	field := fields[t.header.field[timeColumn]]
	at, what := t.clock.read(field, &t.numbers)
	switch what {
	case good:
	case grouped:
		t.defect(thousands, line, field)
		return 0, false
	default:
		if t.textOnly(fields) {
			t.defect(secondHeader, line, field)
		} else {
			t.defect(unreadableTime, line, field)
		}
		return 0, false
	}
	at, passed := t.clock.passMidnight(at)
	if passed {
		t.defect(midnight, line, nil)
	}
	return at, true
}

// textOnly reports whether no field of a row is a number.
func (t *table) textOnly(fields [][]byte) bool {
	for _, f := range fields {
		n := t.numbers
		if _, what := n.read(f); what == good {
			return false
		}
	}
	return true
}

// hot reads the hot spot in °C, from millivolts where it must.
func (t *table) hot(fields [][]byte, line int) (float64, bool) {
	c := hotColumn
	if !t.header.has(hotColumn) {
		c = voltageColumn
	}
	field := fields[t.header.field[c]]
	v, what := t.numbers.read(field)
	switch what {
	case empty:
		t.defect(openCircuit, line, field)
		return 0, false
	case grouped:
		t.defect(thousands, line, field)
		return 0, false
	case unnumeric:
		t.defect(unreadableHot, line, field)
		return 0, false
	}
	if c == voltageColumn {
		var ok bool
		if v, ok = t.fromMillivolts(v, fields, line); !ok {
			return 0, false
		}
	}
	if v < coldestHotC || v > hottestHotC {
		t.defect(hotOutside, line, field)
		return 0, false
	}
	return v, true
}

func (t *table) fromMillivolts(millivolts float64, fields [][]byte, line int) (float64, bool) {
	field := fields[t.header.field[junctionColumn]]
	junction, what := t.numbers.read(field)
	if what != good {
		t.defect(unreadableJunction, line, field)
		return 0, false
	}
	celsius, err := thermocouple.Compensated(millivolts, junction)
	if err != nil {
		t.defect(hotOutside, line, fields[t.header.field[voltageColumn]])
		return 0, false
	}
	return celsius, true
}

func (t *table) room(fields [][]byte, line int) (float64, bool) {
	if t.log.RoomTyped {
		return *t.options.RoomC, true
	}
	field := fields[t.header.field[roomColumn]]
	v, what := t.numbers.read(field)
	switch {
	case what == grouped:
		t.defect(thousands, line, field)
	case what != good:
		t.defect(unreadableRoom, line, field)
	case v < coldestRoomC || v > hottestRoomC:
		t.defect(roomOutside, line, field)
	default:
		return v, true
	}
	return 0, false
}

// extra reads a column that a log may do without.
func (t *table) extra(into *[]float64, fields [][]byte, c column, k Kind, line int) {
	if !t.header.has(c) {
		return
	}
	field := fields[t.header.field[c]]
	v, what := t.numbers.read(field)
	if what != good || v < 0 && c != boardColumn {
		t.defect(k, line, field)
		v = missing()
	}
	*into = append(*into, v)
}

// farStep is how many usual steps a time stamp may jump ahead before going
// back shows that it was the jump that was wrong.
const farStep = 10

// inOrder keeps the times of a stretch rising. A stamp that jumps far ahead for
// one row is taken back; one that goes back for one row is left out; a clock
// that goes back and stays there starts a new stretch.
func (t *table) inOrder(at float64, line int) bool {
	times := t.log.TimeS
	n := len(times)
	from := 0
	if s := t.clock.stretches; len(s) > 0 {
		from = s[len(s)-1]
	}
	if n-from == 1 && from > 0 && at > times[from-1] { // the row before went back alone
		t.takeBack(backwards)
		t.clock.stretches = t.clock.stretches[:len(t.clock.stretches)-1]
		return true
	}
	if n == from || at > times[n-1] {
		return true
	}
	if at == times[n-1] {
		t.defect(repeated, line, nil)
		return false
	}
	if n-from > 1 && at > times[n-2] && times[n-1]-times[n-2] > farStep*t.clock.usualSoFar() {
		t.takeBack(backwards)
		return true
	}
	t.clock.stretches = append(t.clock.stretches, n)
	return true
}

// takeBack removes the last sample and reports it.
func (t *table) takeBack(k Kind) {
	n := len(t.log.TimeS) - 1
	t.defect(k, int(t.log.Line[n]), nil)
	for _, column := range t.log.columns() {
		if *column != nil {
			*column = (*column)[:n]
		}
	}
	t.log.Line = t.log.Line[:n]
}
