package logfile

import (
	"bytes"
	"math"
	"slices"
	"time"
)

// clock turns time stamps into seconds and keeps them in order. Seconds, times
// of the day and dates may not be mixed in one file.
type clock struct {
	form  form
	days  float64 // passed at midnight, s
	start time.Time

	seen     bool
	previous float64 // of the row before, good or not, s
	steps    []float64
	usual    float64 // the long end of the usual steps, s; 0 until known
	pending  []pendingStep

	stretches []int // where each begins in the samples
}

type form int

const (
	unknownForm form = iota
	seconds
	timeOfDay
	dated
)

const day = 24 * 3600.0

// read gives a time stamp in seconds.
func (c *clock) read(field []byte, n *numeral) (float64, reading) {
	if c.form == unknownForm || c.form == seconds {
		v, what := n.read(field)
		if what == good {
			c.form = seconds
		}
		if what == good || what == grouped || c.form == seconds {
			return v, what
		}
	}
	if c.form == unknownForm || c.form == timeOfDay {
		if v, ok := clockTime(field); ok {
			c.form = timeOfDay
			return v, good
		}
	}
	if c.form == unknownForm || c.form == dated {
		if v, ok := parseDate(field); ok {
			if c.form == unknownForm {
				c.form, c.start = dated, v
			}
			return v.Sub(c.start).Seconds(), good
		}
	}
	return 0, unnumeric
}

// clockTime reads hh:mm:ss with or without decimals, in s.
func clockTime(field []byte) (float64, bool) {
	parts := bytes.Split(field, []byte{':'})
	if len(parts) != 3 {
		return 0, false
	}
	sum := 0.0
	for i, p := range parts {
		n := numeral{comma: true}
		v, what := n.read(p)
		if what != good || v < 0 || i > 0 && v >= 60 || i < 2 && v != math.Trunc(v) {
			return 0, false
		}
		sum = sum*60 + v
	}
	return sum, true
}

// parseDate reads RFC 3339, also with a blank for the T and without a zone.
func parseDate(field []byte) (time.Time, bool) {
	for _, layout := range []string{time.RFC3339, "2006-01-02T15:04:05", time.DateTime} {
		if at, err := time.Parse(layout, string(field)); err == nil {
			return at, true
		}
	}
	return time.Time{}, false
}

// passMidnight counts a time of day on where it starts again at midnight.
func (c *clock) passMidnight(at float64) (float64, bool) {
	if c.form != timeOfDay {
		return at, false
	}
	at += c.days
	if c.seen && at < c.previous-day/2 {
		c.days += day
		return at + day, true
	}
	return at, false
}

// pendingStep is a step from one row to the next, kept until the usual step is
// known.
type pendingStep struct {
	step float64
	line int
}

// The usual step is the long end of the first few: a logger that rounds its
// time stamps makes some long ones.
const (
	stepsToJudge = 200
	usualShare   = 0.9
	holeFactor   = 1.5
)

// pace watches for holes in the time stamps.
func (c *clock) pace(t *table, at float64, line int) {
	if c.seen && at > c.previous {
		p := pendingStep{at - c.previous, line}
		if c.usual > 0 {
			c.judge(t, p)
		} else if c.pending = append(c.pending, p); len(c.pending) == stepsToJudge {
			c.settlePace(t)
		}
	}
	c.seen, c.previous = true, at
}

func (c *clock) settlePace(t *table) {
	if len(c.pending) == 0 {
		return
	}
	for _, p := range c.pending {
		c.steps = append(c.steps, p.step)
	}
	slices.Sort(c.steps)
	c.usual = c.steps[int(usualShare*float64(len(c.steps)-1))]
	for _, p := range c.pending {
		c.judge(t, p)
	}
	c.pending, c.steps = nil, nil
}

// usualSoFar gives the usual step, or the middle of the first few.
func (c *clock) usualSoFar() float64 {
	if c.usual > 0 || len(c.pending) == 0 {
		return c.usual
	}
	steps := make([]float64, len(c.pending))
	for i, p := range c.pending {
		steps[i] = p.step
	}
	slices.Sort(steps)
	return steps[len(steps)/2]
}

func (c *clock) judge(t *table, p pendingStep) {
	if p.step > holeFactor*c.usual {
		t.defect(hole, p.line, nil)
	}
}

// finish keeps the stretch with the most samples, where the clock started
// again, and lets it begin at 0 s.
func (c *clock) finish(t *table) {
	c.settlePace(t)
	for _, first := range c.stretches {
		t.defect(restarted, int(t.log.Line[first]), nil)
	}
	from, to := c.longest(len(t.log.TimeS))
	for i, line := range t.log.Line {
		if i < from || i >= to {
			t.defect(leftOut, int(line), nil)
		}
	}
	t.log.cut(from, to)
	if to == from {
		return
	}
	first := t.log.TimeS[0]
	if c.form == dated {
		t.log.Start = c.start.Add(time.Duration(first * float64(time.Second)))
	}
	for i := range t.log.TimeS {
		t.log.TimeS[i] -= first
	}
}

func (c *clock) longest(samples int) (from, to int) {
	bounds := append([]int{0}, c.stretches...)
	bounds = append(bounds, samples)
	for i := 1; i < len(bounds); i++ {
		if bounds[i]-bounds[i-1] > to-from {
			from, to = bounds[i-1], bounds[i]
		}
	}
	return from, to
}

// cut keeps some samples.
func (l *Log) cut(from, to int) {
	for _, column := range l.columns() {
		if *column != nil {
			*column = (*column)[from:to]
		}
	}
	l.Line = l.Line[from:to]
}

func (l *Log) columns() []*[]float64 {
	return []*[]float64{&l.TimeS, &l.HotC, &l.RoomC, &l.GHz, &l.Volts, &l.PackageW, &l.BoardC}
}
