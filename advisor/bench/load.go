package bench

import (
	"fmt"
	"math"
	"slices"
)

// What tells load from idle. Common practice, no source.
const (
	idleQuantile  = 0.02
	loadQuantile  = 0.98
	powerS        = 15.0 // over which the power's median is taken
	loadShare     = 0.35 // of the way from idle to load, where the load counts as on: a throttled chip stays above
	leastStep     = 2.0  // load over idle for the power to show a load going on
	shortestS     = 60.0 // shorter pauses and bursts are no load of their own
	leastWarmingK = 3.0  // rise under load below which none can have been on
	idleFactor    = 1.6  // of the idle power, up to which a chip idles
)

// findLoad finds the samples under load; false, with the reason, where there
// are none.
func (r *reducer) findLoad() bool {
	l := r.log
	r.load = stretch{0, len(l.TimeS)}
	warming := r.warming()
	if idle, load := powerRange(l.TimeS, l.PackageW); load > leastStep*idle && !r.worksAt(idle) {
		r.load = loadByPower(l.TimeS, l.PackageW, idle+loadShare*(load-idle))
		r.sayStart()
		return r.longEnough()
	} else if r.idles(load) || math.IsNaN(load) && warming < leastWarmingK || r.options.IdleW == nil && warming < leastWarmingK {
		r.fail("lines %d–%d: the load never comes on: the hot spot moves by %.1f K over the room%s", r.line(0), r.line(len(l.TimeS)-1), warming, powerSeen(load))
		return false
	}
	if l.PackageW == nil {
		r.load = r.loadByWarming()
		r.lose("B", "package power is not in the log: the load is taken to be on from %s to %s by the temperature alone", seconds(l.TimeS[r.load.from]), seconds(l.TimeS[r.load.to-1]))
	}
	r.sayStart()
	return r.longEnough()
}

// powerRange gives the lowest and the highest median of the package power over
// 15 s, W; NaN where it was not logged.
func powerRange(times, power []float64) (low, high float64) {
	low, high = math.NaN(), math.NaN()
	if power == nil {
		return low, high
	}
	eachMedian(times, power, powerS, func(m float64) {
		if !(m >= low) {
			low = m
		}
		if !(m <= high) {
			high = m
		}
	})
	return low, high
}

// worksAt reports whether a package power in W is known to be above idle: a log
// may hold no idling, but a burst and throttling.
func (r *reducer) worksAt(powerW float64) bool {
	return r.options.IdleW != nil && powerW > idleFactor**r.options.IdleW
}

// idles reports whether a package power in W is the chip's idle power.
func (r *reducer) idles(powerW float64) bool {
	return r.options.IdleW != nil && powerW < idleFactor**r.options.IdleW
}

// warming gives how far the rise moves over the whole record, K.
func (r *reducer) warming() float64 {
	rise := riseOver(r.log, stretch{0, len(r.log.TimeS)})
	return quantile(rise, loadQuantile) - quantile(rise, idleQuantile)
}

func powerSeen(w float64) string {
	if math.IsNaN(w) {
		return ""
	}
	return fmt.Sprintf(", and the package draws %.0f W throughout", w)
}

func (r *reducer) sayStart() {
	if r.load.from == 0 {
		r.note("the load is on from the first sample (line %d): how long it had been on before is not known", r.line(0))
	}
}

func (r *reducer) longEnough() bool {
	if r.load.to-r.load.from >= 2 {
		return true
	}
	r.fail("lines %d–%d: the load is on for no longer than a moment", r.line(0), r.line(len(r.log.TimeS)-1))
	return false
}

// loadByPower gives the longest stretch with the power above a threshold, W.
// Pauses shorter than a minute are passed over.
func loadByPower(times, power []float64, threshold float64) stretch {
	var best stretch
	longest := -1.0
	from, last := -1, -1 // of the present stretch
	end := func() {
		if from >= 0 && times[last]-times[from] > longest {
			best, longest = stretch{from, last + 1}, times[last]-times[from]
		}
	}
	for i, p := range power {
		if !(p > threshold) {
			continue
		}
		if from < 0 || times[i]-times[last] > shortestS {
			end()
			from = i
		}
		last = i
	}
	end()
	return best
}

// How the load is found by the temperature alone.
const (
	edgeShare   = 0.05 // of the whole movement: so far from its ends the hot spot is on its way
	edgeWindows = 50   // windows in a record, in one of which the edge lies
)

// loadByWarming finds the load by the temperature alone. The load goes off
// after the last time at the top, if the record ends well below it, and comes
// on after the last time at the bottom before that. The edges themselves are
// where warming and cooling are steepest: an exponential is so at its start.
func (r *reducer) loadByWarming() stretch {
	l := r.log
	points := thinned(l.TimeS, riseOver(l, stretch{0, len(l.TimeS)}))
	rises := make([]float64, len(points))
	for i, p := range points {
		rises[i] = p.RiseK
	}
	rises = movingMedian(rises, 5)
	low, high := quantile(rises, idleQuantile), quantile(rises, loadQuantile)
	step := edgeShare * (high - low)
	top := lastIndex(rises, func(v float64) bool { return v >= high-step })
	whole := stretch{0, len(l.TimeS)}
	if top < 0 {
		return whole
	}
	if rises[len(rises)-1] < high-2*step {
		off := edge(points, top, -1)
		whole.to, _ = slices.BinarySearch(l.TimeS, points[off].TimeS)
	}
	if bottom := lastIndex(rises[:top], func(v float64) bool { return v <= low+step }); bottom >= 0 {
		on := edge(points, bottom, 1)
		whole.from, _ = slices.BinarySearch(l.TimeS, points[on].TimeS)
	}
	return whole
}

func lastIndex(values []float64, of func(float64) bool) int {
	for i := len(values) - 1; i >= 0; i-- {
		if of(values[i]) {
			return i
		}
	}
	return -1
}

// edge gives where, round a point, the steepest rise begins, or the steepest
// fall for a sign of −1.
func edge(points []Point, around int, sign float64) int {
	size := max(3, len(points)/edgeWindows/4)
	from, to := max(0, around-4*size), min(len(points)-size, around+2*size)
	best, at := math.Inf(-1), min(around, len(points)-1)
	for i := from; i <= to; i++ {
		if slope := sign * lineThrough(points[i:i+size]).slope; slope > best {
			best, at = slope, i
		}
	}
	return at
}
