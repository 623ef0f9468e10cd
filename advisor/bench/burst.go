package bench

import "slices"

// afterBurst gives the points to fit: from where the power no longer stands
// above what is sustained, if that is in the first third of the load.
func (r *reducer) afterBurst() []Point {
	if r.log.PackageW == nil || r.out.PackageW == nil {
		return r.out.Points
	}
	s := r.load
	h := joinSamples(r.log.TimeS[s.from:s.to], r.log.PackageW[s.from:s.to], r.rise)
	if len(h.times) == 0 {
		return r.out.Points
	}
	signal := movingMedian(h.signal, 3)
	end := 0.0
	for i, v := range signal {
		if h.times[i] < r.span/3 && v > (1+burstShare)**r.out.PackageW {
			end = h.times[min(i+1, len(h.times)-1)]
		}
	}
	if end < shortestBurstS {
		return r.out.Points
	}
	r.note("for its first %s the package drew more than it sustains: the heating is fitted from there on", seconds(end))
	from := slices.IndexFunc(r.out.Points, func(p Point) bool { return p.TimeS >= end })
	return r.out.Points[max(from, 0):]
}

// A burst stands out of what is sustained by this share, for this long.
const (
	burstShare     = 0.10
	shortestBurstS = 5.0
)
