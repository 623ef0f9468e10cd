package bench

import (
	"math"

	"hotroom/advisor/bench/logfile"
)

// stretch is some samples, from one up to before another.
type stretch struct{ from, to int }

// riseOver gives the hot spot over the room under load, sample by sample, K: so
// that a room that drifts is taken out as it goes.
func riseOver(l *logfile.Log, s stretch) []float64 {
	rise := make([]float64, 0, s.to-s.from)
	for i := s.from; i < s.to; i++ {
		rise = append(rise, l.HotC[i]-l.RoomC[i])
	}
	return rise
}

// mostPoints is how many points a fit gets: a day's log then has one for every
// 43 seconds, and a board warms in minutes.
const mostPoints = 2000

// thinned takes means over equal times, so that ten readings a second cost no
// more than one; times are then s after the first.
func thinned(times, values []float64) []Point {
	span := times[len(times)-1] - times[0]
	width := span / mostPoints
	var points []Point
	next := math.Inf(-1)
	for i, t := range times {
		t -= times[0]
		if t >= next {
			points = append(points, Point{})
			next = math.Max(t, (math.Floor(t/width)+1)*width)
			if len(times) <= mostPoints {
				next = t // every sample is a point
			}
		}
		p := &points[len(points)-1]
		p.TimeS, p.RiseK, p.count = p.TimeS+t, p.RiseK+values[i], p.count+1
	}
	for i := range points {
		points[i].TimeS /= points[i].count
		points[i].RiseK /= points[i].count
	}
	return points
}

// line is a straight line through points, by weighted least squares.
type line struct {
	slope, level float64 // K/s; K at the middle
	middle       float64 // s
	sumOfSquares float64
}

func lineThrough(points []Point) line {
	var n, t, y float64
	for _, p := range points {
		n, t, y = n+p.count, t+p.count*p.TimeS, y+p.count*p.RiseK
	}
	l := line{middle: t / n, level: y / n}
	var tt, ty float64
	for _, p := range points {
		d := p.TimeS - l.middle
		tt, ty = tt+p.count*d*d, ty+p.count*d*(p.RiseK-l.level)
	}
	if tt > 0 {
		l.slope = ty / tt
	}
	for _, p := range points {
		r := p.RiseK - l.at(p.TimeS)
		l.sumOfSquares += p.count * r * r
	}
	return l
}

func (l line) at(t float64) float64 { return l.level + l.slope*(t-l.middle) }

// roomDrift gives how far the room moved under load, K: the largest less the
// smallest minute, negative where the room ends cooler than it began.
func roomDrift(times, room []float64) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	first, last := math.NaN(), math.NaN()
	eachMedian(times, room, peakSeconds, func(m float64) {
		if math.IsNaN(first) {
			first = m
		}
		low, high, last = math.Min(low, m), math.Max(high, m), m
	})
	if last < first {
		return low - high
	}
	return high - low
}
