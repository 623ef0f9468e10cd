package chart

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"hotroom/cmd/internal/harmless"
)

// Round is a round of testing, a row a board, in the caller's order: the way
// from the room to the hot spot beside its limit, and the figures that must be
// read with it. Boards without a temperature stay in it and say why.
type Round struct {
	Title    string
	Subtitle string
	HotSpot  Axis // of HotSpot and Limit; "hot spot, °C" when empty
	Clock    Axis // "held clock, GHz" when empty
	Package  Axis // "package, W" when empty
	Room     Axis // "room, °C" when empty
	Rows     []RoundRow
	Notes    []string // lines below the picture
	Width    float64  // px; 900 when 0, at least 720, more when the figures need it; the height follows
}

// The outcomes that have a mark of their own.
const (
	Settled   = "settled"
	Throttled = "throttled"
	Crashed   = "crashed"
	Unsettled = "unsettled"
)

// RoundRow is one board of a round. Numbers that are not known are NaN.
type RoundRow struct {
	Name    string
	HotSpot float64 // in the unit of Round.HotSpot
	Limit   float64 // in the unit of Round.HotSpot
	Room    float64 // in the unit of Round.Room; the row's line begins there
	Clock   float64 // held, in the unit of Round.Clock
	Package float64 // in the unit of Round.Package
	Outcome string  // Settled, Throttled, Crashed, Unsettled, or any other word
	// Unlike says why this run is not like for like with the others; the row
	// gets a mark and the reason a footnote. Empty: it is.
	Unlike string
}

// SVG writes the chart as a picture that needs nothing but itself.
func (r Round) SVG(w io.Writer) error { return r.tidy().draw().writeSVG(w) }

// PNG writes the chart in its light colours, two dots a px.
func (r Round) PNG(w io.Writer) error { return r.tidy().draw().writePNG(w) }

// tidy fills in names and makes the rows' texts harmless.
func (r Round) tidy() Round {
	r.HotSpot = r.HotSpot.or("hot spot", "°C")
	r.Clock = r.Clock.or("held clock", "GHz")
	r.Package = r.Package.or("package", "W")
	r.Room = r.Room.or("room", "°C")
	r.Rows = slices.Clone(r.Rows)
	for i := range r.Rows {
		row := &r.Rows[i]
		row.Name = cmp.Or(harmless.Text(row.Name), "unnamed")
		row.Outcome, row.Unlike = harmless.Text(row.Outcome), harmless.Text(row.Unlike)
	}
	return r
}

// unlike lists the reasons for footnotes, each once, in the order of the rows.
func (r Round) unlike() []string {
	var list []string
	for _, row := range r.Rows {
		if row.Unlike != "" && !slices.Contains(list, row.Unlike) {
			list = append(list, row.Unlike)
		}
	}
	return list
}

// mark gives the footnote mark of a row, " [1]", or "".
func (r Round) mark(row RoundRow) string {
	if row.Unlike == "" {
		return ""
	}
	return fmt.Sprintf(" [%d]", slices.Index(r.unlike(), row.Unlike)+1)
}

// footnotes gives the marks with their reasons.
func (r Round) footnotes() []string {
	var list []string
	for i, reason := range r.unlike() {
		list = append(list, fmt.Sprintf("[%d] not like for like: %s", i+1, reason))
	}
	return list
}

// values gives the temperatures that must be seen.
func (r Round) values() []float64 {
	var list []float64
	for _, row := range r.Rows {
		list = append(list, row.Room, row.HotSpot, row.Limit)
	}
	return present(list...)
}

// figure is a column of numbers beside the rows.
type figure struct {
	axis  Axis
	cells []string
}

// figures gives the columns: hot spot, clock, package power, room.
func (r Round) figures() []figure {
	return []figure{
		r.figure(r.HotSpot, func(row RoundRow) float64 { return row.HotSpot }),
		r.figure(r.Clock, func(row RoundRow) float64 { return row.Clock }),
		r.figure(r.Package, func(row RoundRow) float64 { return row.Package }),
		r.figure(r.Room, func(row RoundRow) float64 { return row.Room }),
	}
}

func (r Round) figure(axis Axis, of func(RoundRow) float64) figure {
	f := figure{axis: Axis{harmless.Text(axis.Name), harmless.Text(axis.Unit)}}
	values := make([]float64, len(r.Rows))
	for i, row := range r.Rows {
		values[i] = of(row)
	}
	places := decimals(values...)
	for _, v := range values {
		f.cells = append(f.cells, digits(v, places))
	}
	return f
}
