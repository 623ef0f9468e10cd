package bench_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"time"

	"hotroom/advisor/thermocouple"
)

// synthetic makes the log of a board whose truth is known: every part of the
// rise follows the package power with its own time constant.
type synthetic struct {
	seed                 uint64
	everyS               float64
	idleS, loadS, coolS  float64
	roomC                float64
	driftK               float64 // of the room over the whole log, a straight line
	swingK               float64 // of the room, up and down every 20 minutes
	riseK, tauS          float64
	slowK, slowS         float64 // second part
	idleW, loadW         float64
	burstW, burstS       float64
	noiseK, noisePercent float64
	spikes, open, drops  int
	// throttle lowers the power by throttlePercent for a while whenever the rise
	// passes throttleK; latch keeps it low for good.
	throttleK, throttlePercent float64
	latch                      bool
	steps                      bool // temperatures to a tenth, as loggers have them
}

// usual is an unremarkable run.
func usual() synthetic {
	return synthetic{
		seed: 1, everyS: 1, idleS: 120, loadS: 3600, coolS: 60, roomC: 22, riseK: 58, tauS: 420, idleW: 14, loadW: 142,
		noiseK: 0.12, noisePercent: 0.6, steps: true,
	}
}

// sample is one row before it is written.
type sample struct {
	t, hot, room, watts, ghz, volts float64
	open                            bool
}

// finalC is the temperature that the run settles at: room mean under load and
// whole rise.
func (s *synthetic) finalC() float64 {
	from, to := s.idleS, s.idleS+s.loadS
	sum, n := 0.0, 0
	for t := from; t < to; t += s.everyS {
		sum += s.room(t)
		n++
	}
	return sum/float64(n) + s.riseK + s.slowK
}

func (s *synthetic) room(t float64) float64 {
	return s.roomC + s.driftK*t/(s.idleS+s.loadS+s.coolS) + s.swingK*math.Sin(2*math.Pi*t/1200)
}

// samples runs the board.
func (s *synthetic) samples() []sample {
	r := rand.New(rand.NewPCG(s.seed, 7))
	fast, slow := s.riseK*s.idleW/s.loadW, s.slowK*s.idleW/s.loadW
	low, lowUntil := false, 0.0
	var list []sample
	for t := 0.0; t < s.idleS+s.loadS+s.coolS; t += s.everyS {
		watts := s.idleW
		if loaded := t - s.idleS; loaded >= 0 && loaded < s.loadS {
			watts = s.loadW
			if loaded < s.burstS {
				watts = s.burstW
			}
			if s.throttleK > 0 && fast+slow > s.throttleK && !low {
				low, lowUntil = true, t+40
			}
			if low && !s.latch && t > lowUntil {
				low = false
			}
			if low {
				watts *= 1 - s.throttlePercent/100
			}
		}
		room := s.room(t)
		list = append(list, sample{
			t: t, hot: room + fast + slow + s.noiseK*r.NormFloat64(), room: room + 0.03*r.NormFloat64(),
			watts: watts * (1 + s.noisePercent/100*r.NormFloat64()), ghz: 2 + 2.2*watts/s.loadW, volts: 1.1 + 0.004*r.NormFloat64(),
		})
		fast = toward(fast, s.riseK*watts/s.loadW, s.everyS, s.tauS)
		slow = toward(slow, s.slowK*watts/s.loadW, s.everyS, s.slowS)
	}
	for range s.spikes {
		list[r.IntN(len(list))].hot += []float64{35, -28, 60, -20}[r.IntN(4)]
	}
	for range s.open {
		list[r.IntN(len(list))].open = true
	}
	for range s.drops {
		i := 1 + r.IntN(len(list)-2)
		list = append(list[:i], list[i+1:]...)
	}
	return list
}

func toward(from, to, seconds, tau float64) float64 {
	if tau == 0 {
		return 0
	}
	return to + (from-to)*math.Exp(-seconds/tau)
}

// writing is how a logger writes its table.
type writing struct {
	separator  string
	comma      bool   // decimal comma
	clock      string // "", "hms" or "rfc3339"
	millivolts bool
	noPower    bool
	noRoom     bool
	bom, crlf  bool
}

// text writes the log.
func (s *synthetic) text(w writing) string {
	var b strings.Builder
	if w.separator == "" {
		w.separator = ","
	}
	if w.bom {
		b.WriteString("\ufeff")
	}
	end := "\n"
	if w.crlf {
		end = "\r\n"
	}
	b.WriteString(strings.Join(w.header(), w.separator) + end)
	for _, p := range s.samples() {
		fields := w.fields(p, s.steps)
		if w.comma {
			for i := range fields {
				if w.clock != "rfc3339" || i > 0 {
					fields[i] = strings.Replace(fields[i], ".", ",", 1)
				}
			}
		}
		b.WriteString(strings.Join(fields, w.separator) + end)
	}
	return b.String()
}

func (w writing) header() []string {
	h := []string{"time_s"}
	if w.clock != "" {
		h[0] = "time"
	}
	if w.millivolts {
		h = append(h, "hot_mv", "junction_c")
	} else {
		h = append(h, "hot_c")
	}
	if !w.noRoom {
		h = append(h, "room_c")
	}
	if !w.noPower {
		h = append(h, "package_w", "ghz", "volts")
	}
	return h
}

func (w writing) fields(p sample, steps bool) []string {
	decimals := 3
	if steps {
		decimals = 1
	}
	hot := fmt.Sprintf("%.*f", decimals, p.hot)
	f := []string{w.time(p.t)}
	if w.millivolts {
		total, _ := thermocouple.Millivolts(p.hot)
		junction, _ := thermocouple.Millivolts(p.room)
		hot = fmt.Sprintf("%.4f", total-junction)
	}
	if p.open {
		hot = "OL"
	}
	f = append(f, hot)
	if w.millivolts {
		f = append(f, fmt.Sprintf("%.2f", p.room))
	}
	if !w.noRoom {
		f = append(f, fmt.Sprintf("%.*f", decimals, p.room))
	}
	if !w.noPower {
		f = append(f, fmt.Sprintf("%.1f", p.watts), fmt.Sprintf("%.2f", p.ghz), fmt.Sprintf("%.3f", p.volts))
	}
	return f
}

func (w writing) time(t float64) string {
	switch w.clock {
	case "hms":
		whole := int(t)
		return fmt.Sprintf("%02d:%02d:%06.3f", (whole/3600+23)%24, whole/60%60, math.Mod(t, 60))
	case "rfc3339":
		return time.Date(2025, 3, 4, 9, 0, 0, 0, time.UTC).Add(time.Duration(t * float64(time.Second))).Format(time.RFC3339Nano)
	}
	return fmt.Sprintf("%.2f", t)
}
