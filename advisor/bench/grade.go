package bench

import (
	"fmt"
	"math"
	"slices"
	"strconv"
)

// verdict is something that costs a run its grade.
type verdict struct{ grade, text string }

// lose notes what makes a run no better than a grade.
func (r *reducer) lose(grade, format string, args ...any) {
	r.verdicts = append(r.verdicts, verdict{grade, fmt.Sprintf(format, args...)})
}

// note says something that costs nothing.
func (r *reducer) note(format string, args ...any) { r.lose("A", format, args...) }

// fail ends the run before anything could be measured.
func (r *reducer) fail(format string, args ...any) { r.refuse(fmt.Sprintf(format, args...)) }

// The shares of bad rows and the room's drift from which a grade is lost. Common
// practice, no source.
const (
	fewBad, manyBad     = 0.01, 0.05
	calmRoomK, wildRoom = 1.0, 3.0
	coarseSamplesS      = 30.0
	sureHalfK           = 4.0 // half of the 95 % interval
)

// report grades the run and gathers the reasons.
func (r *reducer) report() {
	q := &r.out.Quality
	q.Samples, q.Spikes, q.Gaps = r.log.Rows, r.spikes, r.log.Gaps
	if r.span > 0 {
		q.Used = r.load.to - r.load.from
	}
	r.gradeData()
	q.Grade = "A"
	q.Reasons = []string{}
	for _, v := range r.verdicts {
		q.Grade = max(q.Grade, v.grade)
	}
	slices.SortStableFunc(r.verdicts, func(a, b verdict) int { return -compare(a.grade, b.grade) })
	for _, v := range r.verdicts {
		q.Reasons = append(q.Reasons, v.text)
	}
	for _, d := range r.out.Defects {
		q.Reasons = append(q.Reasons, d.String())
	}
	if q.ThrottleEvents == nil {
		q.ThrottleEvents = []Event{}
	}
	if q.Budget == nil {
		q.Budget = []BudgetEntry{}
	}
}

func compare(a, b string) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// gradeData judges the record itself.
func (r *reducer) gradeData() {
	bad := r.log.Rows - r.good + r.spikes
	share := float64(bad) / math.Max(1, float64(r.log.Rows))
	switch {
	case share > manyBad:
		r.lose("C", "%d of %d rows could not be used", bad, r.log.Rows)
	case share > fewBad:
		r.lose("B", "%d of %d rows could not be used", bad, r.log.Rows)
	}
	if r.spikes > 0 {
		r.note("%s removed (further than 3 times 1.4826 MAD from the median of seven readings)", several(r.spikes, "spike"))
	}
	if r.log.RoomTyped {
		r.lose("C", "the room was not logged: one temperature is taken for the whole run, and its drift is not known")
	}
	r.gradeFigures()
}

func (r *reducer) gradeFigures() {
	q := &r.out.Quality
	if q.RoomDriftC != nil && !r.log.RoomTyped {
		r.gradeRoom(math.Abs(*q.RoomDriftC))
	}
	if q.Used > 1 && r.span/float64(q.Used-1) > coarseSamplesS {
		r.lose("B", "a sample every %s: short throttling would go unseen", seconds(r.span/float64(q.Used-1)))
	}
	if r.out.Budget != nil {
		if half := r.out.Budget.Expanded(0.95); half > sureHalfK {
			r.lose("B", "the value is known to ±%s only (95 %%)", kelvin(half))
		}
	}
	if h := r.out.Heating; h != nil && len(h.Parts) == 2 {
		r.note("two time constants: %s for %s of the rise and %s for %s; time_constant_min is the one of the larger part",
			seconds(h.Parts[0].TimeConstantS), kelvin(h.Parts[0].AmplitudeK), seconds(h.Parts[1].TimeConstantS), kelvin(h.Parts[1].AmplitudeK))
	}
	if q.Throttled != nil && *q.Throttled {
		r.note("%s", throttleWords(q.ThrottleEvents))
	}
	if b, hot := r.out.BoardC, r.out.HotC; b != nil && hot != nil {
		r.note("the board's own sensor read %s °C over the last 10 minutes", strconv.FormatFloat(*b, 'f', 1, 64))
	}
}

func (r *reducer) gradeRoom(driftK float64) {
	room := r.log.RoomC[r.load.from:r.load.to]
	switch {
	case driftK > wildRoom:
		r.lose("C", "the room moved by %s under load", kelvin(driftK))
	case driftK > calmRoomK:
		r.lose("B", "the room moved by %s under load", kelvin(driftK))
	case slices.Min(room) == slices.Max(room):
		r.lose("B", "room_c reads %s °C on every line under load: a stuck sensor, or a figure typed in", strconv.FormatFloat(room[0], 'f', -1, 64))
	}
}

func throttleWords(events []Event) string {
	deepest := 0.0
	for _, e := range events {
		deepest = math.Max(deepest, e.DepthPercent)
	}
	return fmt.Sprintf("throttled %s, first at %s under load, by up to %.0f %%", times(len(events)), seconds(events[0].StartS), deepest)
}

func times(n int) string {
	if n == 1 {
		return "once"
	}
	return strconv.Itoa(n) + " times"
}

func several(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.Itoa(n) + " " + thing + "s"
}

// seconds writes a duration in seconds, minutes or hours.
func seconds(s float64) string {
	switch {
	case s < 100:
		return strconv.FormatFloat(s, 'f', 0, 64) + " s"
	case s < 2*3600:
		return strconv.FormatFloat(s/60, 'f', 1, 64) + " min"
	}
	return strconv.FormatFloat(s/3600, 'f', 1, 64) + " h"
}

func kelvin(k float64) string {
	if k > 99 {
		return "more than 99 K"
	}
	return strconv.FormatFloat(k, 'f', 1, 64) + " K"
}

func signedKelvin(k float64) string {
	if k > 0 {
		return "+" + kelvin(k)
	}
	return kelvin(k)
}

func (r *reducer) line(i int) int { return int(r.log.Line[i]) }
