// Package bench turns a data logger's record of one load into a judged run: the
// temperature that the board settles at, how fast it warms, whether it held its
// clock, and how far the figures can be trusted.
package bench

import (
	"context"

	"hotroom/advisor/bench/logfile"
	"hotroom/advisor/uncertainty"
	"hotroom/knowledge"
)

// Options are what is known of a run besides its log.
type Options struct {
	Thermometer *knowledge.Thermometer // nil: IEC 60584-1 class 2
	IdleW       *float64               // package power at idle, W; nil: not known
	// BurstS is how long the board may draw more than it sustains, s; the fall
	// at its end is no throttling. nil: not stated.
	BurstS *float64
}

// Reduction is a log worked up: the figures, and what a picture of them needs.
type Reduction struct {
	Quality Quality
	Outcome string // knowledge.Settled, Throttled or Unsettled

	Minutes  float64  // under load
	HotC     *float64 // hot spot that the run counts with, °C
	GHz      *float64 // sustained clock
	Volts    *float64 // V
	PackageW *float64 // sustained package power, W
	BoardC   *float64 // the board's own sensor, °C

	Budget  uncertainty.Budget
	Heating *Heating // nil: none was determined
	Points  []Point  // rise under load, thinned
	Defects []logfile.Defect
}

// Point is the mean of a few samples.
type Point struct {
	TimeS float64 // after the start of the load
	RiseK float64 // over the room
	count float64
}

// Reduce works a log up. It uses the log's own memory: the log holds only the
// samples without spikes afterwards. The error is the context's; what the data
// cannot say is said in the quality's reasons.
func Reduce(ctx context.Context, l *logfile.Log, o Options) (*Reduction, error) {
	r := &reducer{log: l, options: o, good: len(l.TimeS)}
	r.out.Defects = l.Defects
	r.spikes = removeSpikes(l)
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	if r.sensible() && r.findLoad() {
		r.measure()
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		r.judge()
	}
	r.report()
	return &r.out, nil
}

// reducer carries a log through the steps.
type reducer struct {
	log     *logfile.Log
	options Options
	good    int // samples before the spikes went
	spikes  int

	load  stretch // samples under load
	span  float64 // s under load
	rise  []float64
	final final

	verdicts []verdict
	out      Reduction
}

// measure works out everything that needs no model.
func (r *reducer) measure() {
	l, s := r.log, r.load
	r.span = l.TimeS[s.to-1] - l.TimeS[s.from]
	r.out.Minutes = r.span / 60
	r.rise = riseOver(l, s)
	r.out.Points = thinned(l.TimeS[s.from:s.to], r.rise)
	r.final = finalDrift(r.out.Points, r.span)
	q := &r.out.Quality
	q.RoomMeanC = value(mean(l.RoomC[s.from:s.to]))
	q.RoomDriftC = value(roomDrift(l.TimeS[s.from:s.to], l.RoomC[s.from:s.to]))
	q.PeakC = value(peak(l.TimeS[s.from:s.to], l.HotC[s.from:s.to]))
	r.out.GHz = r.sustained(l.GHz)
	r.out.Volts = r.sustained(l.Volts)
	r.out.PackageW = r.sustained(l.PackageW)
	r.out.BoardC = r.sustained(l.BoardC)
}

// judge finds throttling, fits the heating, and decides what the run is worth.
func (r *reducer) judge() {
	r.findThrottling()
	throttled := r.out.Quality.Throttled != nil && *r.out.Quality.Throttled
	if throttled {
		r.takeHeld()
		return
	}
	heating, refusal := fitHeating(r.afterBurst(), r.span)
	r.out.Heating = heating
	r.takeSettled(refusal)
}
