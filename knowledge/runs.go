package knowledge

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"

	"hotroom/knowledge/document"
	"hotroom/knowledge/nearest"
	"hotroom/knowledge/sheet"
)

// RunColumns gives the names of the columns of runs.csv in their usual order.
func RunColumns() []string {
	return []string{
		"id", "date", "board", "chip", "firmware", "enclosure", "cooler", "thermometer", "load", "setup",
		"power_limit_w", "current_limit_a", "room_c", "graphics_w", "altitude_m", "minutes",
		"ghz", "volts", "package_w", "hot_c", "outcome", "by", "note",
	}
}

// Outcomes gives the words for how a run ended.
func Outcomes() []string { return []string{Settled, Throttled, Crashed, Unsettled} }

func setups() []string { return []string{"rated", "shipped", "open", "custom"} }

// readRuns takes the rows of runs.csv.
func (l *loader) readRuns(src []byte) {
	s, problems := sheet.Read(runsFile, src, RunColumns(), []string{"id", "board", "chip", "outcome", "room_c"})
	l.take(problems)
	if s == nil {
		return
	}
	l.rows = s.Rows
	l.base.Runs = make([]Run, len(s.Rows))
	for i := range s.Rows {
		l.readRun(&s.Rows[i], &l.base.Runs[i])
	}
}

func (l *loader) readRun(row *sheet.Row, r *Run) {
	*r = Run{
		ID: row.Field("id"), Date: row.Field("date"), Board: row.Field("board"), Chip: row.Field("chip"),
		Firmware: row.Field("firmware"), Enclosure: row.Field("enclosure"), Cooler: row.Field("cooler"),
		Thermometer: row.Field("thermometer"), Load: row.Field("load"), Setup: row.Field("setup"),
		Outcome: row.Field("outcome"), By: row.Field("by"), Note: row.Field("note"), At: row.At,
	}
	for _, f := range []struct {
		column string
		span   span
		into   **float64
	}{
		{"power_limit_w", span{0, 10000, true}, &r.PowerLimitW},
		{"current_limit_a", span{0, 10000, true}, &r.CurrentLimitA},
		{"minutes", span{0, 100000, true}, &r.Minutes},
		{"ghz", span{0, 20, true}, &r.GHz},
		{"volts", span{0, 5, true}, &r.Volts},
		{"package_w", span{0, 10000, true}, &r.PackageW},
		{"hot_c", span{-20, 300, false}, &r.HotC},
	} {
		if n, ok := l.cell(row, f.column, f.span); ok {
			*f.into = &n
		}
	}
	r.RoomC, _ = l.cell(row, "room_c", span{-20, 60, false})
	r.GraphicsW, _ = l.cell(row, "graphics_w", span{0, 2000, false})
	r.AltitudeM, _ = l.cell(row, "altitude_m", span{-500, 9000, false})
}

// cell reads a number; false where it is empty or reported.
func (l *loader) cell(row *sheet.Row, column string, allowed span) (float64, bool) {
	text := row.Field(column)
	if text == "" {
		return 0, false
	}
	n, err := strconv.ParseFloat(text, 64)
	switch {
	case strings.Contains(text, ","):
		l.wrong(row, column, column+" is "+document.Quote(text), "write a decimal point, not a comma")
	case err != nil || math.IsNaN(n) || math.IsInf(n, 0) || strings.ContainsAny(text, "xXpP_"):
		l.wrong(row, column, column+" is "+document.Quote(text), "give a number without its unit")
	case !allowed.holds(n):
		l.wrong(row, column, column+" is "+text, allowed.String())
	default:
		return n, true
	}
	return 0, false
}

func (l *loader) wrong(row *sheet.Row, column, what, mend string) {
	l.field(row, column, what, mend, false)
}

func (l *loader) wonder(row *sheet.Row, column, what, mend string) {
	l.field(row, column, what, mend, true)
}

// checkRuns checks the runs against themselves and everything they name.
func (l *loader) checkRuns() {
	b := New(l.base)
	for i := range l.rows {
		row, r := &l.rows[i], &l.base.Runs[i]
		for _, column := range []string{"id", "board", "chip", "outcome", "room_c"} {
			if row.Field(column) == "" {
				l.wrong(row, column, "the run has no "+column, "fill it in")
			}
		}
		if first, twice := l.known[runKind].add(r.ID, row.Place("id")); twice {
			l.wrong(row, "id", "the run "+document.Quote(r.ID)+" is given twice",
				fmt.Sprintf("the first stands at %s: give this one another id", first))
		}
		l.words(row, r)
		l.names(row, r)
		l.fallBack(b, row, r)
		l.measured(b, row, r)
	}
}

// words checks the fields that take one of a few words, and the date.
func (l *loader) words(row *sheet.Row, r *Run) {
	l.word(row, "outcome", r.Outcome, Outcomes())
	l.word(row, "setup", r.Setup, setups())
	if r.Date == "" {
		return
	}
	if _, err := time.Parse(time.DateOnly, r.Date); err != nil {
		l.wrong(row, "date", "date is "+document.Quote(r.Date), "give a date of the calendar as YYYY-MM-DD")
	}
}

func (l *loader) word(row *sheet.Row, column, given string, allowed []string) {
	if given == "" || slices.Contains(allowed, given) {
		return
	}
	mend := "give one of " + strings.Join(allowed, ", ")
	if best, ok := nearest.Word(given, allowed); ok {
		mend = "did you mean " + document.Quote(best) + "?"
	}
	l.wrong(row, column, column+" is "+document.Quote(given), mend)
}

// names checks that everything a run names exists.
func (l *loader) names(row *sheet.Row, r *Run) {
	for _, ref := range []struct {
		kind kind
		id   string
	}{
		{boardKind, r.Board},
		{chipKind, r.Chip},
		{enclosureKind, r.Enclosure},
		{coolerKind, r.Cooler},
		{loadKind, r.Load},
		{thermometerKind, r.Thermometer},
	} {
		if what, mend, bad := l.dangling(ref.kind, ref.id); bad {
			l.wrong(row, string(ref.kind), what, mend)
		}
	}
}

// fallBack gives a run that names no enclosure or cooler the default one.
func (l *loader) fallBack(b *Base, row *sheet.Row, r *Run) {
	if e := b.DefaultEnclosure(); r.Enclosure == "" && e != nil {
		r.Enclosure = e.ID
		l.wonder(row, "enclosure", "the run names no enclosure", "it is read with "+document.Quote(e.ID)+"; write down the one it stood in")
	} else if r.Enclosure == "" && !l.unread[enclosureKind] {
		l.wrong(row, "enclosure", "the run names no enclosure and none is known", "add one to "+surroundingsFile)
	}
	if c := b.DefaultCooler(); r.Cooler == "" && c != nil {
		r.Cooler = c.ID
		l.wonder(row, "cooler", "the run names no cooler", "it is read with "+document.Quote(c.ID)+"; write down the one it had")
	} else if r.Cooler == "" && !l.unread[coolerKind] {
		l.wrong(row, "cooler", "the run names no cooler and none is known", "add one to "+surroundingsFile)
	}
}

// measured checks what was measured against the outcome, the board and the
// chip.
func (l *loader) measured(b *Base, row *sheet.Row, r *Run) {
	if r.Outcome == Settled || r.Outcome == Throttled {
		for _, column := range []string{"ghz", "volts", "package_w", "hot_c"} {
			if row.Field(column) == "" {
				l.wrong(row, column, "the "+r.Outcome+" run has no "+column, "fill it in, or correct the outcome")
			}
		}
	}
	if r.HotC != nil && row.Field("room_c") != "" && *r.HotC < r.RoomC {
		l.wrong(row, "hot_c", fmt.Sprintf("hot_c is %s, below the room's %s °C", number(*r.HotC), number(r.RoomC)), "a hot spot is never colder than its room: correct one of them")
	}
	board, okBoard := b.Board(r.Board)
	chip, okChip := b.Chip(r.Chip)
	stated := okBoard && okChip && board.Socket != "" && chip.Socket != "" // a missing socket is told where it is missing
	if stated && board.Socket != chip.Socket {
		l.wrong(row, "chip", fmt.Sprintf("chip %s has socket %s and board %s has %s", document.Quote(r.Chip), chip.Socket, document.Quote(r.Board), board.Socket), "name a chip that fits the board")
	}
	if okBoard && r.Outcome == Settled && r.HotC != nil && board.Limit.HotSpotC != nil && *r.HotC > *board.Limit.HotSpotC {
		l.wonder(row, "hot_c", fmt.Sprintf("the settled run is at %s °C, above the board's hot_spot_c of %s", number(*r.HotC), number(*board.Limit.HotSpotC)),
			"check whether the clock was held; if not, the outcome is throttled")
	}
}
