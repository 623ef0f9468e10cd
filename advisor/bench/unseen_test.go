package bench_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"hotroom/advisor/bench"
)

// Logs that nobody has looked at: boards, loads, rooms, loggers and defects
// drawn at random. What is said must be right: a settled value within 0.8 °C of
// the truth, a time constant within 10 %, throttling where there was any and
// nowhere else. What is refused must be short: no record of three slowest time
// constants may be.
func TestUnseenLogs(t *testing.T) {
	seeds := uint64(80)
	if testing.Short() {
		seeds = 20
	}
	valued, refused, throttled := 0, 0, 0
	for seed := range seeds {
		s, w := unseen(seed)
		r := reduce(t, s.text(w), bench.Options{IdleW: &s.idleW, BurstS: &s.burstS})
		q, said := r.Quality, strings.Join(r.Quality.Reasons, "; ")
		if q.Throttled != nil && *q.Throttled != s.reallyThrottles() {
			t.Errorf("seed %d: throttled %v, which is not so: %+v: %s", seed, *q.Throttled, s, said)
			continue
		}
		switch {
		case q.Throttled != nil && *q.Throttled:
			throttled++
		case q.SettleC == nil:
			refused++
			if s.loadS > 3*math.Max(s.tauS, s.slowS) {
				t.Errorf("seed %d: refused: %+v: %s", seed, s, said)
			}
		default:
			valued++
			settles(t, r, s)
			if t.Failed() {
				t.Fatalf("seed %d: %+v: %s", seed, s, said)
			}
		}
	}
	t.Logf("%d valued, %d refused, %d throttled", valued, refused, throttled)
	if seeds > 50 && (valued < 30 || refused < 5 || throttled < 10) {
		t.Error("the draws are lopsided")
	}
}

// unseen draws a board and its logger.
func unseen(seed uint64) (synthetic, writing) {
	r := rand.New(rand.NewPCG(seed, 2025))
	between := func(low, high float64) float64 { return low + (high-low)*r.Float64() }
	chance := func(of int) bool { return r.IntN(of) == 0 }
	s := synthetic{
		seed: seed, everyS: []float64{1, 1, 2, 5}[r.IntN(4)], idleS: []float64{0, 60, 300}[r.IntN(3)], coolS: []float64{0, 60, 900}[r.IntN(3)],
		loadS: math.Exp(between(math.Log(600), math.Log(6000))), roomC: between(12, 34), riseK: between(15, 85),
		tauS: math.Exp(between(math.Log(50), math.Log(900))), idleW: between(6, 30), loadW: between(70, 250),
		noiseK: between(0.02, 0.4), noisePercent: between(0.2, 2), steps: true,
	}
	if chance(4) {
		s.slowK, s.slowS = s.riseK*between(0.2, 0.8), s.tauS*between(4, 8)
	}
	if chance(2) {
		s.driftK = between(-4, 4)
	}
	if chance(4) {
		s.swingK = between(0.1, 1)
	}
	if chance(2) {
		s.spikes, s.open, s.drops = r.IntN(20), r.IntN(20), r.IntN(20)
	}
	throttles := chance(3)
	if throttles {
		s.throttlePercent = between(5, 40)
		s.throttleK = (s.riseK + s.slowK) * between(math.Max(0.6, 1.03*(1-s.throttlePercent/100)), 0.985)
		s.latch = chance(3)
	} else if chance(3) {
		s.burstW, s.burstS = s.loadW*between(1.15, 1.8), between(20, 100)
	}
	return s, writing{noPower: !throttles && s.burstS == 0 && chance(5)}
}

func (s *synthetic) reallyThrottles() bool {
	for _, p := range s.samples() {
		if p.t > s.idleS && p.t < s.idleS+s.loadS && p.ghz < 4.15 {
			return true
		}
	}
	return false
}
