package bench

import (
	"cmp"
	"math"
	"slices"
)

// What counts as throttling: package power or clock falls by more than 3 % from
// its plateau while the hot spot is at its own plateau, or falls and recovers
// again and again while it is near it.
const (
	throttleShare = 0.03
	plateauS      = 120.0 // a plateau is the largest median over so long
	sawteeth      = 3     // falls that recover, from which they are no accident
	nearShare     = 0.8   // of the warming, from which the hot spot is near its plateau
	atShare       = 0.95  // of the warming, from which it is at its plateau
	atWithinK     = 2.0   // or this close to the largest minute
	burstSlack    = 1.25  // a burst may last longer than stated
	unstatedS     = 64.0  // how long a burst may last where nobody states it: 28 and 56 s are common; no source
	coarsestS     = 1.0   // finer samples are joined
	leastSamples  = 2     // a fall lasts this long, so that no single reading is one
)

// findThrottling looks at power and clock; without either the answer is not
// known.
func (r *reducer) findThrottling() {
	q := &r.out.Quality
	if r.log.PackageW == nil && r.log.GHz == nil {
		r.lose("B", "neither package power nor clock is in the log: throttling cannot be seen")
		return
	}
	events := slices.Concat(r.throttlingOf(r.log.PackageW), r.throttlingOf(r.log.GHz))
	q.ThrottleEvents = joined(events)
	found := len(q.ThrottleEvents) > 0
	q.Throttled = &found
}

func (r *reducer) throttlingOf(column []float64) []Event {
	if column == nil {
		return nil
	}
	s := r.load
	h := joinSamples(r.log.TimeS[s.from:s.to], column[s.from:s.to], r.rise)
	if len(h.times) < 2*leastSamples {
		return nil
	}
	h.smooth()
	h.thresholds(peak(r.log.TimeS[s.from:s.to], r.rise))
	h.burstS = unstatedS
	if b := r.options.BurstS; b != nil {
		h.burstS = burstSlack**b + coarsestS
	}
	return h.events()
}

// held is a signal that a chip should hold, with the hot spot beside it.
type held struct {
	times  []float64 // s after the start of the load
	signal []float64
	hot    []float64 // rise of the hot spot over the room, K
	atK    float64   // the hot spot's plateau begins here
	nearK  float64
	burstS float64
}

// joinSamples takes the median of each second; samples without a value are left
// out.
func joinSamples(times, signal, hot []float64) *held {
	h := &held{}
	var a, b []float64
	first := times[0]
	flush := func() {
		if len(a) > 0 {
			h.times, h.signal, h.hot = append(h.times, first-times[0]), append(h.signal, medianOfFew(a)), append(h.hot, medianOfFew(b))
			a, b = a[:0], b[:0]
		}
	}
	for i, t := range times {
		if math.IsNaN(signal[i]) {
			continue
		}
		if t-first >= coarsestS*almost || len(a) == 0 {
			flush()
			first = t
		}
		a, b = append(a, signal[i]), append(b, hot[i])
	}
	flush()
	return h
}

// smooth takes moving medians, as long as the signal's noise needs for a fall
// of 3 % to stand out by five standard deviations.
func (h *held) smooth() {
	var steps []float64
	for i := 1; i < len(h.signal); i++ {
		steps = append(steps, math.Abs(h.signal[i]-h.signal[i-1]))
	}
	noise := madToSigma * median(steps) / math.Sqrt2
	enough := throttleShare / 5 * median(h.signal)
	length := 3
	// The median's own noise is 1.25·σ/√n.
	for length < 31 && 1.25*noise/math.Sqrt(float64(length)) > enough {
		length += 2
	}
	h.signal = movingMedian(h.signal, length)
	h.hot = movingMedian(h.hot, 5)
}

func movingMedian(values []float64, length int) []float64 {
	out := make([]float64, len(values))
	around := make([]float64, length)
	for i := range values {
		from, to := max(0, i-length/2), min(len(values), i+length/2+1)
		out[i] = medianOfFew(around[:copy(around, values[from:to])])
	}
	return out
}

// thresholds places the plateau of the rise below its largest minute, K.
func (h *held) thresholds(peakK float64) {
	base := math.Min(h.hot[0], peakK)
	h.atK = math.Min(peakK-(1-atShare)*(peakK-base), peakK-atWithinK)
	h.nearK = base + nearShare*(peakK-base)
}

// fall is a stretch below the plateau: from one sample up to before another.
type fall struct {
	stretch
	plateau   float64
	recovered bool
	at, near  bool // the hot spot was at, near its plateau
}

// events lists what is throttling among the falls.
func (h *held) events() []Event {
	falls := h.falls()
	teeth := 0
	for _, f := range falls {
		if f.recovered && (f.at || f.near) {
			teeth++
		}
	}
	var list []Event
	for _, f := range falls {
		if f.at || f.near && f.recovered && teeth >= sawteeth {
			list = append(list, h.event(f))
		}
	}
	return list
}

func (h *held) event(f fall) Event {
	lowest := slices.Min(h.signal[f.from:f.to])
	return Event{
		StartS: rounded(h.times[f.from]), EndS: rounded(h.times[min(f.to, len(h.times)-1)]),
		DepthPercent: rounded(100 * (1 - lowest/f.plateau)),
	}
}

// falls walks along the signal with the plateau that it has held so far. A fall
// that lasts although the hot spot is not at its plateau is the end of a burst,
// or another load: the plateau begins anew.
func (h *held) falls() []fall {
	var list []fall
	p := newPlateau()
	for i := 0; i < len(h.signal); i++ {
		if p.ready() && h.below(i, p.level) {
			f := h.fallFrom(i, p.level)
			switch {
			case h.times[len(h.times)-1]-h.times[f.from] < leastSamples*coarsestS:
				return list // the load going off
			case f.recovered || f.at && h.times[i] > h.burstS:
				list = append(list, f)
				i = f.to - 1
				continue
			default:
				p = newPlateau()
			}
		}
		p.add(h.times[i], h.signal[i])
	}
	return list
}

// below reports whether the signal is below the plateau for long enough.
func (h *held) below(i int, level float64) bool {
	for j := i; j < min(i+leastSamples, len(h.signal)); j++ {
		if h.signal[j] >= (1-throttleShare)*level {
			return false
		}
	}
	return true
}

func (h *held) fallFrom(i int, level float64) fall {
	f := fall{stretch: stretch{i, len(h.signal)}, plateau: level}
	for j := i; j < len(h.signal); j++ {
		if h.signal[j] >= (1-throttleShare)*level {
			f.to, f.recovered = j, true
			break
		}
	}
	hottest := slices.Max(h.hot[max(0, i-2):min(i+2, len(h.hot))])
	f.at, f.near = hottest >= h.atK, hottest >= h.nearK
	return f
}

// plateau is the largest median that a signal has held for two minutes. Until
// two minutes have passed it is the median so far: the largest of many short
// ones would be too high.
type plateau struct {
	level  float64
	since  float64
	full   bool
	times  []float64
	values []float64
	window window
}

func newPlateau() *plateau { return &plateau{} }

// ready reports whether there is enough to speak of a plateau.
func (p *plateau) ready() bool { return len(p.times) >= leastPlateau }

const leastPlateau = 5 // samples

func (p *plateau) add(t, v float64) {
	if len(p.times) == 0 {
		p.since = t
	}
	p.times, p.values = append(p.times, t), append(p.values, v)
	p.window.add(v)
	for len(p.times) > leastPlateau && t-p.times[0] > plateauS {
		p.window.remove(p.values[0])
		p.times, p.values = p.times[1:], p.values[1:]
	}
	switch middle := p.window.median(); {
	case p.full:
		p.level = math.Max(p.level, middle)
	default:
		p.level = middle
		p.full = t-p.since >= plateauS
	}
}

// joined orders events and joins those of power and clock that overlap.
func joined(events []Event) []Event {
	slices.SortFunc(events, func(a, b Event) int { return cmp.Compare(a.StartS, b.StartS) })
	list := []Event{}
	for _, e := range events {
		if last := len(list) - 1; last >= 0 && e.StartS <= list[last].EndS {
			list[last].EndS = math.Max(list[last].EndS, e.EndS)
			list[last].DepthPercent = math.Max(list[last].DepthPercent, e.DepthPercent)
			continue
		}
		list = append(list, e)
	}
	return list
}
