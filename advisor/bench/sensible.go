package bench

import (
	"slices"
	"strconv"
)

// sensible looks for readings that cannot be a hot spot over a room; false,
// with the reason, where the log cannot be trusted.
func (r *reducer) sensible() bool {
	l := r.log
	first, last := r.line(0), r.line(len(l.TimeS)-1)
	if low, high := slices.Min(l.HotC), slices.Max(l.HotC); low == high {
		r.fail("lines %d–%d: the hot spot reads %s °C throughout: a stuck sensor, or one that is not attached", first, last, strconv.FormatFloat(low, 'f', -1, 64))
		return false
	}
	if n := r.colder(); n > len(l.TimeS)/2 {
		r.fail("lines %d–%d: the hot spot is colder than the room on %d of %d lines: are the two thermometers swapped?", first, last, n, len(l.TimeS))
		return false
	}
	if r.inFahrenheit() {
		r.fail("line %d: the hot spot begins at %.1f, a little above what the room's %.1f °C are in °F, and passes %.0f: set the logger to °C, or convert the column", first, l.HotC[0], l.RoomC[0], fahrenheitHottest)
		return false
	}
	return true
}

// colder counts the samples that are clearly below the room.
func (r *reducer) colder() int {
	n := 0
	for i, hot := range r.log.HotC {
		if hot < r.log.RoomC[i]-1 {
			n++
		}
	}
	return n
}

// What a hot spot logged in °F looks like beside a room in °C: it begins a
// little above the room's temperature in °F, and goes where hardly a board does.
const (
	belowRoomF        = 6.0
	aboveRoomF        = 30.0
	fahrenheitHottest = 120.0
)

func (r *reducer) inFahrenheit() bool {
	l := r.log
	n := min(len(l.HotC), 10)
	above := median(l.HotC[:n]) - (median(l.RoomC[:n])*1.8 + 32)
	return !l.RoomTyped && above > -belowRoomF && above < aboveRoomF && quantile(l.HotC, loadQuantile) > fahrenheitHottest
}
