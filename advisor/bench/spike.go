package bench

import (
	"math"
	"slices"

	"hotroom/advisor/bench/logfile"
)

// The Hampel filter: a reading is a spike when it is further from the median of
// the seven readings round it than three times 1.4826 times their median
// absolute deviation (MAD). 1.4826 makes the MAD of normal noise its standard
// deviation (Hampel 1974).
const (
	hampelHalf   = 3 // readings on either side
	hampelSigmas = 3.0
	madToSigma   = 1.4826
	// leastSpikeK keeps the noise of a good thermometer out of the count: the
	// MAD of seven readings to a tenth of a degree is often 0. Common practice,
	// no source.
	leastSpikeK = 1.0
)

// removeSpikes drops the samples whose hot spot or room is a spike and gives
// their number.
func removeSpikes(l *logfile.Log) int {
	hot := spikes(l.HotC)
	if !l.RoomTyped {
		for i, spike := range spikes(l.RoomC) {
			hot[i] = hot[i] || spike
		}
	}
	n := 0
	for _, spike := range hot {
		if spike {
			n++
		}
	}
	if n > 0 {
		l.Keep(func(i int) bool { return !hot[i] })
	}
	return n
}

// spikes marks the spikes of a series in K. At the ends the window is cut.
func spikes(values []float64) []bool {
	marked := make([]bool, len(values))
	var around [2*hampelHalf + 1]float64
	for i, v := range values {
		from, to := max(0, i-hampelHalf), min(len(values), i+hampelHalf+1)
		n := copy(around[:], values[from:to])
		middle := medianOfFew(around[:n])
		away := math.Abs(v - middle)
		if away <= leastSpikeK {
			continue
		}
		for j := range n {
			around[j] = math.Abs(around[j] - middle)
		}
		marked[i] = away > hampelSigmas*madToSigma*medianOfFew(around[:n])
	}
	return marked
}

// fewValues is how many values are sorted by insertion, which is the fastest way
// for so few.
const fewValues = 32

// medianOfFew sorts in place.
func medianOfFew(values []float64) float64 {
	if len(values) > fewValues {
		slices.Sort(values)
	}
	for i := 1; i < len(values); i++ {
		for j := i; j > 0 && values[j] < values[j-1]; j-- {
			values[j], values[j-1] = values[j-1], values[j]
		}
	}
	n := len(values)
	if n%2 == 1 {
		return values[n/2]
	}
	return (values[n/2-1] + values[n/2]) / 2
}

// median gives the middle of the values that are there; NaN for none.
func median(values []float64) float64 { return quantile(values, 0.5) }

// quantile gives a quantile (0 to 1) of the values that are there, between the
// two nearest; NaN for none. Of very many values it looks at a part.
func quantile(values []float64, q float64) float64 {
	const enough = 20_000
	step := 1 + len(values)/enough
	sorted := make([]float64, 0, len(values)/step+1)
	for i := 0; i < len(values); i += step {
		if !math.IsNaN(values[i]) {
			sorted = append(sorted, values[i])
		}
	}
	if len(sorted) == 0 {
		return math.NaN()
	}
	slices.Sort(sorted)
	at := q * float64(len(sorted)-1)
	low := int(at)
	high := min(low+1, len(sorted)-1)
	return sorted[low] + (at-float64(low))*(sorted[high]-sorted[low])
}

func mean(values []float64) float64 {
	sum := 0.0
	for _, v := range values {
		sum += v
	}
	return sum / float64(len(values))
}
