package logfile

import (
	"fmt"
	"strings"
)

// Kind is a kind of defect.
type Kind int

// The kinds, in the order they are reported.
const (
	preamble Kind = iota
	unreadColumn
	secondHeader
	wrongWidth
	tooLong
	unreadableTime
	openCircuit
	unreadableHot
	hotOutside
	unreadableRoom
	roomOutside
	unreadableJunction
	thousands
	repeated
	backwards
	restarted
	leftOut
	midnight
	hole
	unreadableClock
	unreadableVolts
	unreadablePackage
	unreadableBoard
	kinds
)

// says gives what is wrong with a line, for each kind.
func (k Kind) says() string {
	return [kinds]string{
		preamble:           "text above the table, passed over",
		unreadColumn:       "a column that is not read",
		secondHeader:       "text instead of numbers (a second header?)",
		wrongWidth:         "another number of fields than the header has",
		tooLong:            "longer than a line of a log can be",
		unreadableTime:     "the time cannot be read",
		openCircuit:        "the thermocouple is open: no reading",
		unreadableHot:      "the hot spot's reading is no number",
		hotOutside:         "the hot spot is outside -40 to 300 °C",
		unreadableRoom:     "no room temperature",
		roomOutside:        "the room is outside -20 to 60 °C (in °F?)",
		unreadableJunction: "no temperature of the cold junction",
		thousands:          "a number with a thousands separator",
		repeated:           "the time stamp before is repeated",
		backwards:          "the time goes backwards",
		restarted:          "the clock starts again",
		leftOut:            "left out, because the clock started again and another stretch is longer",
		midnight:           "the clock passes midnight, counted on",
		hole:               "samples are missing before it",
		unreadableClock:    "ghz has no number",
		unreadableVolts:    "volts has no number",
		unreadablePackage:  "package_w has no number",
		unreadableBoard:    "vrm_c has no number",
	}[k]
}

// harmless reports whether a kind costs the log nothing.
func (k Kind) harmless() bool { return k == preamble || k == unreadColumn || k == midnight }

// Defect is one kind of defect, with all its lines.
type Defect struct {
	Kind  Kind
	Count int
	// Lines are the first of them as ranges, [from, to].
	Lines [][2]int
	// Seen is the first value that was found wrong; empty for none.
	Seen string
}

// Harmless reports whether it costs the log nothing.
func (d Defect) Harmless() bool { return d.Kind.harmless() }

// mostRanges is how many ranges of lines a report keeps of a kind.
const mostRanges = 12

// String says the lines and what is wrong with them.
func (d Defect) String() string {
	var b strings.Builder
	b.WriteString("line")
	if d.Count != 1 {
		b.WriteString("s")
	}
	listed := 0
	for i, r := range d.Lines {
		if i > 0 {
			b.WriteString(",")
		}
		if r[0] == r[1] {
			fmt.Fprintf(&b, " %d", r[0])
		} else {
			fmt.Fprintf(&b, " %d–%d", r[0], r[1])
		}
		listed += r[1] - r[0] + 1
	}
	if listed < d.Count {
		fmt.Fprintf(&b, " and %d more", d.Count-listed)
	}
	b.WriteString(": " + d.Kind.says())
	if d.Seen != "" {
		fmt.Fprintf(&b, " (%q)", d.Seen)
	}
	if d.Count > 2 {
		fmt.Fprintf(&b, ", %d in all", d.Count)
	}
	return b.String()
}

// defects gathers defects by kind.
type defects [kinds]Defect

func (ds *defects) add(k Kind, line int, seen []byte) {
	d := &ds[k]
	if d.Count == 0 {
		d.Kind, d.Seen = k, shown(seen)
	}
	d.Count++
	last := len(d.Lines) - 1
	switch {
	case last >= 0 && d.Lines[last][1] == line-1:
		d.Lines[last][1] = line
	case len(d.Lines) < mostRanges:
		d.Lines = append(d.Lines, [2]int{line, line})
	}
}

// shown cuts a value to what a message can carry.
func shown(seen []byte) string {
	const most = 40
	if len(seen) > most {
		return string(seen[:most]) + "…"
	}
	return string(seen)
}

func (ds *defects) count(k Kind) int { return ds[k].Count }

func (ds *defects) list() []Defect {
	var list []Defect
	for _, d := range ds {
		if d.Count > 0 {
			list = append(list, d)
		}
	}
	return list
}
