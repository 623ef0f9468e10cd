package bench

import (
	"math"
	"slices"
)

// window is a moving window of values kept in order, so that its median is at
// hand.
type window struct{ sorted []float64 }

func (w *window) add(v float64) {
	i, _ := slices.BinarySearch(w.sorted, v)
	w.sorted = slices.Insert(w.sorted, i, v)
}

func (w *window) remove(v float64) {
	if i, ok := slices.BinarySearch(w.sorted, v); ok {
		w.sorted = slices.Delete(w.sorted, i, i+1)
	}
}

// median gives NaN for an empty window.
func (w *window) median() float64 {
	n := len(w.sorted)
	switch {
	case n == 0:
		return math.NaN()
	case n%2 == 1:
		return w.sorted[n/2]
	}
	return (w.sorted[n/2-1] + w.sorted[n/2]) / 2
}

const peakSeconds = 60.0

// peak gives the largest median over any 60 seconds; of a shorter stretch, its
// median.
func peak(times, values []float64) float64 {
	highest := math.Inf(-1)
	eachMedian(times, values, peakSeconds, func(m float64) { highest = math.Max(highest, m) })
	if math.IsInf(highest, -1) {
		return median(values)
	}
	return highest
}

// eachMedian visits the median of the values in every full window of some
// seconds. Several samples a second count as their median.
func eachMedian(times, values []float64, seconds float64, visit func(median float64)) {
	times, values = perSecond(times, values)
	var w window
	first := 0
	for i, v := range values {
		if !math.IsNaN(v) {
			w.add(v)
		}
		for times[i]-times[first] > seconds {
			w.remove(values[first])
			first++
		}
		if first > 0 || times[i]-times[0] >= seconds*0.98 {
			visit(w.median())
		}
	}
}

// perSecond gives the median of each second where there are several samples in
// it: what a window of many seconds shows is the same, at a tenth of the work.
func perSecond(times, values []float64) (t, v []float64) {
	n := len(times)
	if n < 2 || (times[n-1]-times[0])/float64(n-1) > coarsestS/2 {
		return times, values
	}
	var second []float64
	first := times[0]
	flush := func() {
		if len(second) > 0 {
			t, v = append(t, first), append(v, medianOfFew(second))
			second = second[:0]
		}
	}
	for i := range times {
		if times[i]-first >= coarsestS*almost {
			flush()
			first = times[i]
		}
		if !math.IsNaN(values[i]) {
			second = append(second, values[i])
		}
	}
	flush()
	return t, v
}

// almost lets a second end with the sample that is due then, whatever its time
// stamp's rounding.
const almost = 0.999

const sustainedSeconds = 10 * 60.0

// sustained gives the median of a column over the last 10 minutes under load;
// nil where it was not logged.
func (r *reducer) sustained(column []float64) *float64 {
	if column == nil {
		return nil
	}
	from := r.lastSeconds(sustainedSeconds)
	return value(median(column[from:r.load.to]))
}

// lastSeconds gives the first sample of the last seconds under load.
func (r *reducer) lastSeconds(seconds float64) int {
	times := r.log.TimeS[r.load.from:r.load.to]
	from, _ := slices.BinarySearch(times, times[len(times)-1]-seconds)
	return r.load.from + from
}
