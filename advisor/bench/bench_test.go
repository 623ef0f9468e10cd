package bench_test

import (
	"context"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"hotroom/advisor/bench"
	"hotroom/advisor/bench/logfile"
	"hotroom/knowledge"
)

// reduce reads a log and works it up.
func reduce(t *testing.T, text string, o bench.Options) *bench.Reduction {
	t.Helper()
	l, err := logfile.Read(context.Background(), "log.csv", strings.NewReader(text), logfile.Options{})
	if err != nil {
		t.Fatal(err)
	}
	r, err := bench.Reduce(context.Background(), l, o)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// The promises for logs whose truth is known.
const (
	withinK     = 0.8
	withinShare = 0.10
)

func settles(t *testing.T, r *bench.Reduction, s synthetic) {
	t.Helper()
	q := r.Quality
	if q.SettleC == nil || r.Outcome != knowledge.Settled {
		t.Errorf("outcome %s, want settled at %.2f °C: %s", r.Outcome, s.finalC(), strings.Join(q.Reasons, "; "))
		return
	}
	if miss := *q.SettleC - s.finalC(); math.Abs(miss) > withinK {
		t.Errorf("settles at %.2f °C, the truth is %.2f", *q.SettleC, s.finalC())
	}
	if !(*q.SettleLowC < *q.SettleC && *q.SettleC < *q.SettleHighC) || *q.UncertaintyC <= 0 {
		t.Errorf("the interval %.2f to %.2f, u %.2f, does not hold %.2f", *q.SettleLowC, *q.SettleHighC, *q.UncertaintyC, *q.SettleC)
	}
	if q.TimeConstantMin == nil {
		return
	}
	if got := *q.TimeConstantMin * 60; s.onlyOne(r) && math.Abs(got/s.main()-1) > withinShare {
		t.Errorf("time constant %.0f s, the truth is %.0f", got, s.main())
	}
	if q.Throttled != nil && *q.Throttled {
		t.Errorf("throttling was found where there was none: %+v", q.ThrottleEvents)
	}
}

// main is the time constant of the larger part.
func (s *synthetic) main() float64 {
	if s.slowK > s.riseK {
		return s.slowS
	}
	return s.tauS
}

// onlyOne reports whether the time constants that were found can be compared
// with the truth: of two parts, both must have been told apart.
func (s *synthetic) onlyOne(r *bench.Reduction) bool {
	return s.slowK == 0 || len(r.Heating.Parts) == 2
}

func changed(change func(*synthetic)) synthetic {
	s := usual()
	change(&s)
	return s
}

func TestSettles(t *testing.T) {
	for name, s := range map[string]synthetic{
		"usual":           usual(),
		"two parts":       changed(func(s *synthetic) { s.riseK, s.tauS, s.slowK, s.slowS, s.loadS = 40, 150, 18, 1100, 7200 }),
		"slow main part":  changed(func(s *synthetic) { s.riseK, s.tauS, s.slowK, s.slowS, s.loadS = 12, 60, 45, 700, 5400 }),
		"room drifts":     changed(func(s *synthetic) { s.driftK = 4 }),
		"room swings":     changed(func(s *synthetic) { s.swingK = 0.8 }),
		"spikes and open": changed(func(s *synthetic) { s.spikes, s.open, s.drops = 40, 60, 30 }),
		"noisy":           changed(func(s *synthetic) { s.noiseK, s.noisePercent = 0.5, 2 }),
		"exact":           changed(func(s *synthetic) { s.noiseK, s.noisePercent, s.steps = 0, 0, false }),
		"not settled yet": changed(func(s *synthetic) { s.loadS, s.tauS = 2400, 700 }),
		"burst":           changed(func(s *synthetic) { s.burstW, s.burstS = 190, 56 }),
		"long burst hot":  changed(func(s *synthetic) { s.burstW, s.burstS, s.tauS = 230, 110, 90 }),
		"slow logger":     changed(func(s *synthetic) { s.everyS = 10 }),
		"slower logger":   changed(func(s *synthetic) { s.everyS = 30 }),
		"fast logger":     changed(func(s *synthetic) { s.everyS = 0.1; s.loadS = 2800 }),
		"no idle":         changed(func(s *synthetic) { s.idleS, s.coolS = 0, 0 }),
		"long cooling":    changed(func(s *synthetic) { s.coolS = 1800 }),
		"hours":           changed(func(s *synthetic) { s.loadS = 6 * 3600 }),
		"quick":           changed(func(s *synthetic) { s.tauS = 60 }),
	} {
		t.Run(name, func(t *testing.T) {
			r := reduce(t, s.text(writing{}), bench.Options{BurstS: &s.burstS})
			settles(t, r, s)
			t.Logf("%s %s", r.Quality.Grade, strings.Join(r.Quality.Reasons, "; "))
		})
	}
}

func TestWritings(t *testing.T) {
	for name, w := range map[string]writing{
		"semicolons":    {separator: ";"},
		"decimal comma": {separator: ";", comma: true},
		"tabs":          {separator: "\t", comma: true},
		"hh:mm:ss":      {clock: "hms"},
		"hh:mm:ss,s":    {separator: ";", comma: true, clock: "hms"},
		"RFC 3339":      {clock: "rfc3339"},
		"millivolts":    {millivolts: true},
		"BOM and CRLF":  {bom: true, crlf: true},
		"no power":      {noPower: true},
	} {
		t.Run(name, func(t *testing.T) {
			s := changed(func(s *synthetic) { s.spikes, s.open, s.drops, s.coolS = 5, 5, 5, 600 })
			settles(t, reduce(t, s.text(w), bench.Options{}), s)
		})
	}
}

func TestThrottling(t *testing.T) {
	for name, s := range map[string]synthetic{
		"sawtooth":       changed(func(s *synthetic) { s.throttleK, s.throttlePercent = 50, 25 }),
		"shallow teeth":  changed(func(s *synthetic) { s.throttleK, s.throttlePercent = 54, 5 }),
		"latched":        changed(func(s *synthetic) { s.throttleK, s.throttlePercent, s.latch = 50, 20, true }),
		"noisy sawtooth": changed(func(s *synthetic) { s.throttleK, s.throttlePercent, s.noisePercent = 50, 15, 2 }),
		"slow logger":    changed(func(s *synthetic) { s.throttleK, s.throttlePercent, s.everyS = 50, 25, 5 }),
		"after a burst":  changed(func(s *synthetic) { s.throttleK, s.throttlePercent, s.burstW, s.burstS = 50, 25, 180, 40 }),
		"fast logger":    changed(func(s *synthetic) { s.throttleK, s.throttlePercent, s.everyS, s.loadS = 50, 25, 0.2, 2000 }),
	} {
		t.Run(name, func(t *testing.T) {
			r := reduce(t, s.text(writing{}), bench.Options{})
			q := r.Quality
			if q.Throttled == nil || !*q.Throttled || r.Outcome != knowledge.Throttled || len(q.ThrottleEvents) == 0 {
				t.Fatalf("no throttling was found: %s; %s", r.Outcome, strings.Join(q.Reasons, "; "))
			}
			first := q.ThrottleEvents[0]
			if want := s.throttlePercent; math.Abs(first.DepthPercent-want) > 4 {
				t.Errorf("depth %.1f %%, want about %.0f", first.DepthPercent, want)
			}
			if r.HotC == nil || *r.HotC > *q.PeakC+0.5 {
				t.Errorf("the value %v is above the peak %v", r.HotC, *q.PeakC)
			}
			t.Logf("%d events, first %+v, hot %.1f, peak %.1f", len(q.ThrottleEvents), first, *r.HotC, *q.PeakC)
		})
	}
}

func TestRefused(t *testing.T) {
	for name, s := range map[string]synthetic{
		"shorter than its time constant": changed(func(s *synthetic) { s.tauS, s.loadS = 1500, 900 }),
		"no curvature":                   changed(func(s *synthetic) { s.tauS, s.loadS, s.noiseK = 7200, 900, 0.3 }),
		"slow part not seen":             changed(func(s *synthetic) { s.slowK, s.slowS, s.loadS = 25, 5000, 2400 }),
		"far from settled":               changed(func(s *synthetic) { s.tauS, s.loadS, s.noiseK, s.everyS = 1500, 1550, 1.5, 10 }),
		"load never on":                  changed(func(s *synthetic) { s.loadW = s.idleW; s.riseK = 6 }),
	} {
		t.Run(name, func(t *testing.T) {
			r := reduce(t, s.text(writing{}), bench.Options{})
			if r.Outcome != knowledge.Unsettled || r.Quality.SettleC != nil || r.HotC != nil || r.Quality.Grade != "D" {
				t.Errorf("%s, grade %s, settle %v (%.1f)", r.Outcome, r.Quality.Grade, r.Quality.SettleC, s.finalC())
			}
			t.Log(strings.Join(r.Quality.Reasons, "; "))
		})
	}
}

// What cannot be a hot spot over a room is refused with a sentence and its
// lines.
func TestNonsense(t *testing.T) {
	ordinary := usual()
	for name, tt := range map[string]struct {
		text string
		want string
	}{
		"swapped": {
			strings.Replace(ordinary.text(writing{}), "time_s,hot_c,room_c", "time_s,room_c,hot_c", 1),
			"the hot spot is colder than the room on",
		},
		"in °F": {
			changed(func(s *synthetic) { s.roomC = 22 }).inFahrenheit(),
			"line 2: the hot spot begins at",
		},
		"constant": {
			changed(func(s *synthetic) { s.riseK, s.noiseK = 0, 0 }).constant(),
			"lines 2–3781: the hot spot reads 45 °C throughout: a stuck sensor, or one that is not attached",
		},
	} {
		r := reduce(t, tt.text, bench.Options{})
		if r.Outcome != knowledge.Unsettled || r.Quality.SettleC != nil || r.Quality.Grade != "D" || !strings.Contains(strings.Join(r.Quality.Reasons, "; "), tt.want) {
			t.Errorf("%s: %s, %v", name, r.Outcome, r.Quality.Reasons)
		}
	}
}

// inFahrenheit writes the hot spot in °F and the room in °C.
func (s synthetic) inFahrenheit() string {
	var b strings.Builder
	b.WriteString("time_s,hot_c,room_c,package_w\n")
	for _, p := range s.samples() {
		fmt.Fprintf(&b, "%.0f,%.1f,%.1f,%.1f\n", p.t, p.hot*1.8+32, p.room, p.watts)
	}
	return b.String()
}

// constant writes a hot spot that never moves.
func (s synthetic) constant() string {
	var b strings.Builder
	b.WriteString("time_s,hot_c,room_c,package_w\n")
	for _, p := range s.samples() {
		fmt.Fprintf(&b, "%.0f,45,%.1f,%.1f\n", p.t, p.room, p.watts)
	}
	return b.String()
}

// A fall of the power while the board is still warming is another load, and no
// throttling; neither is the end of the load.
func TestOtherLoadIsNoThrottling(t *testing.T) {
	s := changed(func(s *synthetic) { s.burstW, s.burstS, s.tauS = 160, 300, 900 }) // nobody states how long the burst lasts
	r := reduce(t, s.text(writing{}), bench.Options{})
	if *r.Quality.Throttled {
		t.Errorf("found %+v", r.Quality.ThrottleEvents)
	}
}

// A room that was not logged is taken as typed, and costs the grade.
func TestTypedRoom(t *testing.T) {
	s := usual()
	room := s.roomC
	l, err := logfile.Read(context.Background(), "log.csv", strings.NewReader(s.text(writing{noRoom: true})), logfile.Options{RoomC: &room})
	if err != nil {
		t.Fatal(err)
	}
	r, err := bench.Reduce(context.Background(), l, bench.Options{})
	if err != nil {
		t.Fatal(err)
	}
	settles(t, r, s)
	if r.Quality.Grade != "C" {
		t.Errorf("grade %s", r.Quality.Grade)
	}
}

func TestDeterministic(t *testing.T) {
	s := changed(func(s *synthetic) { s.spikes, s.open = 10, 10 })
	first, second := reduce(t, s.text(writing{}), bench.Options{}), reduce(t, s.text(writing{}), bench.Options{})
	if !reflect.DeepEqual(first.Quality, second.Quality) {
		t.Errorf("%+v\n%+v", first.Quality, second.Quality)
	}
}
