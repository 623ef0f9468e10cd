package comparison_test

import (
	"math"
	"slices"
	"testing"

	"hotroom/advisor/comparison"
	"hotroom/knowledge"
)

// The quantiles of the standard normal distribution are from a table of its
// cumulative distribution (NIST/SEMATECH e-Handbook of Statistical Methods,
// 1.3.6.7.1; the values from memory).
func TestCooler(t *testing.T) {
	for _, tt := range []struct{ delta, a, b, want float64 }{
		{0, 2, 2, 0.5},
		{5, 3, 4, 0.8413},    // one standard deviation
		{-9.8, 3, 4, 0.0250}, // 1.96 of them
		{100, 1, 1, 1},
	} {
		if got := comparison.Cooler(tt.delta, tt.a, tt.b); math.Abs(got-tt.want) > 5e-5 {
			t.Errorf("%g K, %g and %g: %g, want %g", tt.delta, tt.a, tt.b, got, tt.want)
		}
	}
}

func run() knowledge.Run {
	return knowledge.Run{
		ID: "r1", Board: "b", Chip: "c", Enclosure: "bench", Cooler: "liquid", Thermometer: "k1", Load: "render", Setup: "shipped",
		RoomC: 22, GHz: number(4.4), Volts: number(1.1), PackageW: number(150), HotC: number(80), Outcome: knowledge.Settled,
	}
}

func TestUnlike(t *testing.T) {
	base := knowledge.New(knowledge.Base{Thermometers: []knowledge.Thermometer{{ID: "k1", ClassC: 1.5}, {ID: "k2", ClassC: 2.5}}})
	for _, tt := range []struct {
		name   string
		change func(*knowledge.Run)
		want   []string
	}{
		{"alike", func(*knowledge.Run) {}, nil},
		{"another temperature", func(r *knowledge.Run) { r.HotC = number(120) }, nil},
		{"a room 1 K warmer", func(r *knowledge.Run) { r.RoomC = 23 }, nil},
		{"a room 1.1 K warmer", func(r *knowledge.Run) { r.RoomC = 23.1 }, []string{"rooms of 22.0 and 23.1 °C"}},
		{"chip", func(r *knowledge.Run) { r.Chip = "d" }, []string{"chips c and d"}},
		{"thermometer", func(r *knowledge.Run) { r.Thermometer = "k2" }, []string{"thermometers of ±1.5 and ±2.5 °C"}},
		{"no thermometer is class 2", func(r *knowledge.Run) { r.Thermometer = "" }, []string{"thermometers of ±1.5 and ±2.5 °C"}},
		{"enclosure and cooler", func(r *knowledge.Run) { r.Enclosure, r.Cooler = "tower", "fan" }, []string{"enclosures bench and tower", "coolers liquid and fan"}},
		{"no load", func(r *knowledge.Run) { r.Load = "" }, []string{"loads render and unnamed"}},
		{"graphics", func(r *knowledge.Run) { r.GraphicsW = 60 }, []string{"graphics loads of 0 and 60 W"}},
		{"altitude", func(r *knowledge.Run) { r.AltitudeM = 900 }, []string{"altitudes of 0 and 900 m"}},
		{"setup at the same clock", func(r *knowledge.Run) { r.Setup = "open" }, nil},
		{"setup at another clock", func(r *knowledge.Run) { r.Setup, r.GHz = "open", number(4.6) }, []string{"power setups shipped and open at 4.40 GHz and 4.60 GHz"}},
		{"the same setup at another clock", func(r *knowledge.Run) { r.GHz = number(4.1) }, []string{"held clocks of 4.40 GHz and 4.10 GHz"}},
		{"throttled to another clock", func(r *knowledge.Run) { r.Outcome, r.GHz = knowledge.Throttled, number(3.5) }, []string{"held clocks of 4.40 GHz and 3.50 GHz"}},
		{"crashed", func(r *knowledge.Run) { r.Outcome, r.GHz, r.HotC = knowledge.Crashed, nil, nil }, []string{"the run r2 crashed"}},
		{"unsettled", func(r *knowledge.Run) { r.Outcome = knowledge.Unsettled }, []string{"the run r2 had not settled"}},
		{"no temperature", func(r *knowledge.Run) { r.HotC = nil }, []string{"the run r2 gives no temperature"}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			a, b := run(), run()
			b.ID = "r2"
			tt.change(&b)
			if got := comparison.Unlike(base, &a, &b); !slices.Equal(got, tt.want) {
				t.Errorf("got %q, want %q", got, tt.want)
			}
			if back := comparison.Unlike(base, &b, &a); len(back) != len(tt.want) {
				t.Errorf("the other way round: %q", back)
			}
		})
	}
}
