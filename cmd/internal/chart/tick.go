package chart

import "math"

// scale is an axis with nice numbers on it: from and to are multiples of step,
// and step is 1, 2 or 5 times a power of ten.
type scale struct {
	from, to, step float64
	decimals       int // of a tick's label
	parts          int // small parts that a step is divided into
}

// nice makes a scale that covers the values in at most most steps (two at
// least). Without any value it covers 0 to 1; a single value gets a unit.
func nice(most int, values ...float64) scale {
	low, high := 0.0, 1.0
	for i, v := range present(values...) {
		if i == 0 {
			low, high = v, v
		}
		low, high = min(low, v), max(high, v)
	}
	if least := max(1e-6, math.Abs(low)*1e-9); high-low < least {
		low, high = low-0.5, high+0.5
	}
	return cover(low, high, max(most, 2))
}

// cover finds the smallest step that covers the range in at most most steps.
func cover(low, high float64, most int) scale {
	power := int(math.Floor(math.Log10((high - low) / float64(most))))
	for ; ; power++ {
		for _, lead := range []int{1, 2, 5} {
			s := spread(low, high, lead, power)
			if math.Round((s.to-s.from)/s.step) <= float64(most) {
				return s
			}
		}
	}
}

// spread rounds a range outwards to multiples of lead·10^power.
func spread(low, high float64, lead, power int) scale {
	s := scale{step: float64(lead) * math.Pow10(power), decimals: max(0, -power), parts: 5}
	if power < 0 { // a division by a whole number is exact where 0.1 is not
		s.step = float64(lead) / math.Pow10(-power)
	}
	if lead == 2 {
		s.parts = 4
	}
	const slack = 1e-9 // of a step: 0.30000000000000004 is on the mark of 0.3
	s.from = math.Floor(low/s.step+slack) * s.step
	s.to = math.Ceil(high/s.step-slack) * s.step
	return s
}

// ticks gives the numbers on the scale, both ends among them.
func (s scale) ticks() []float64 {
	n := int(math.Round((s.to - s.from) / s.step))
	list := make([]float64, n+1)
	for i := range list {
		list[i] = round(s.from+float64(i)*s.step, s.decimals)
	}
	return list
}

// label writes a tick's number.
func (s scale) label(v float64) string { return digits(v, s.decimals) }

// ruler lays a scale from one place to another, in px or in cells.
type ruler struct {
	scale
	first, last float64
}

// at gives a value's place on the ruler.
func (r ruler) at(v float64) float64 {
	return r.first + (v-r.from)/(r.to-r.from)*(r.last-r.first)
}
