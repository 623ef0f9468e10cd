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
	if idle, load := powerRange(l.TimeS, l.PackageW); load > leastStep*idle {
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
	eachMedian(times, power, powerS, func(_ int, m float64) {
		if !(m >= low) {
			low = m
		}
		if !(m <= high) {
			high = m
		}
	})
	return low, high
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

// What makes a stretch of warming or cooling a load that comes on or goes off.
const (
	steepWindows = 20   // windows in a record, in which slopes are taken
	steepShare   = 0.15 // of the whole movement, in one window
)

// loadByWarming finds the load by the temperature alone: it comes on where the
// steepest warming begins and goes off where the steepest cooling does, if the
// hot spot does not come back afterwards. An exponential is steepest at its
// start.
func (r *reducer) loadByWarming() stretch {
	l := r.log
	whole := stretch{0, len(l.TimeS)}
	points := thinned(l.TimeS, riseOver(l, whole))
	size := max(5, len(points)/steepWindows)
	if len(points) < 2*size {
		return whole
	}
	movement := r.warming()
	on, off := steepest(points, size, 1), len(points)
	if !steep(points[on:on+size], movement) {
		on = 0
	}
	if at := on + steepest(points[on:], size, -1); steep(points[at:at+size], movement) && staysBelow(points[at:], movement) {
		off = at
	}
	from, _ := slices.BinarySearch(l.TimeS, points[on].TimeS)
	to := len(l.TimeS)
	if off < len(points) {
		to, _ = slices.BinarySearch(l.TimeS, points[off].TimeS)
	}
	return stretch{from, to}
}

// steepest gives where the window with the steepest rise begins, or with the
// steepest fall for a sign of −1.
func steepest(points []Point, size int, sign float64) int {
	best, at := math.Inf(-1), 0
	for i := 0; i+size <= len(points); i++ {
		if slope := sign * lineThrough(points[i:i+size]).slope; slope > best {
			best, at = slope, i
		}
	}
	return at
}

func steep(points []Point, movement float64) bool {
	l := lineThrough(points)
	return math.Abs(l.slope)*(points[len(points)-1].TimeS-points[0].TimeS) > steepShare*movement
}

// staysBelow reports whether a fall at the first point is not made good again.
func staysBelow(points []Point, movement float64) bool {
	later := points[len(points)/2:]
	for _, p := range later {
		if p.RiseK > points[0].RiseK-steepShare*movement {
			return false
		}
	}
	return true
}
