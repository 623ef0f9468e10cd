package advisor_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"hotroom/advisor"
	"hotroom/advisor/heat"
	"hotroom/knowledge"
)

// strange is a made-up world whose truth is not the model: heat leaves by a
// power law of the rise with a coefficient of each board's own, the regulator's
// loss is a bent share of the package power, and the socket's heat arrives in
// proportion to the square root of the power over the distance.
//
// How steeply the loss grows with power was chosen after a look: with exponents
// of 0.7, 0.85 (taken) and 1.0 the figures below hold; with 1.35, far steeper
// than the parts allow, the learned interval is 10.9 °C wide and not 8.
type strange struct {
	rng    *rand.Rand
	base   knowledge.Base
	truths map[string]truth
}

// truth is what a board of the strange world is really like.
type truth struct {
	offsetC  float64 // the probe's place
	lossBend float64 // share of the package power lost, at 150 W
	shed     float64 // W/K at a rise of 40 K, per board
	socket   float64 // K at 150 W
}

const (
	measuredBoards   = 18
	unmeasuredBoards = 6
)

func newStrange(seed uint64) *strange {
	w := &strange{rng: rand.New(rand.NewPCG(seed, 1)), truths: map[string]truth{}}
	w.base = knowledge.Base{
		Chips: []knowledge.Chip{{
			ID: "c", Name: "chip", Socket: "s", Cores: 8, CoreShare: 0.92, RatedPowerW: 150, CurrentMaxA: 250, AllCoreGHz: 4.2, IdleW: 15,
			Points: []knowledge.Point{{GHz: 3, Volts: 0.85, Watts: 70}, {GHz: 3.6, Volts: 0.96, Watts: 110}, {GHz: 4.2, Volts: 1.12, Watts: 175}, {GHz: 4.5, Volts: 1.22, Watts: 220}},
		}},
		Enclosures:   []knowledge.Enclosure{{ID: "bench", Name: "bench", AirspeedMS: 0.2}},
		Coolers:      []knowledge.Cooler{{ID: "k", Name: "cooler", HeatIntoCaseShare: 0.5, AirspeedMS: 0.4}},
		Loads:        []knowledge.Load{{ID: "render", Name: "render", Activity: 1}},
		Thermometers: []knowledge.Thermometer{{ID: "k1", ClassC: 1.5, ClassPercent: 0.4}},
		Stages: []knowledge.Stage{{
			ID: "st", Name: "stage", Kind: knowledge.StageDiscrete, TempMaxC: 150, RdsPerK: 0.005, JunctionKPerW: 4, DeratingC: 25,
			HighCount: 1, LowCount: 2, HighMOhm: 4.6, LowMOhm: 2.2, RiseNS: 10, FallNS: 13, HighGateNC: 14, LowGateNC: 27, DriveV: 8, DeadNS: 24,
			DiodeV: 0.8, HighOutNC: 15, LowOutNC: 27, RecoveryNC: 34,
		}},
	}
	for i := range measuredBoards + unmeasuredBoards {
		w.addBoard(fmt.Sprintf("b%d", i))
	}
	return w
}

func (w *strange) between(low, high float64) float64 { return low + (high-low)*w.rng.Float64() }

// addBoard makes a board whose parts say something of its truth, with scatter.
func (w *strange) addBoard(id string) {
	b := knowledge.Board{
		ID: id, Name: id, Socket: "s", AreaCM2: 100, LaminateC: 130, SocketKPerW: 0.08, Limit: knowledge.BoardLimit{HotSpotC: number(w.between(88, 110))},
		Regulator: knowledge.Regulator{
			Phases: 6 + w.rng.IntN(7), Stage: "st", SwitchingKHz: w.between(300, 450), InductorNH: 240, InductorMOhm: 0.5, CoreLossW: 0.25, PlaneMOhm: 0.07, InputV: 12,
		},
		Heatsink: knowledge.Heatsink{Shape: "finned", MassG: number(w.between(120, 320)), HeightMM: 30, PadKPerW: 0.25, Factor: 0.9},
	}
	w.base.Boards = append(w.base.Boards, b)
	area := heat.NewPath(&b).SinkAreaM2
	w.truths[id] = truth{
		offsetC:  w.rng.NormFloat64()*1.5 + 3,
		lossBend: (0.085 + 0.25/math.Pow(float64(b.Regulator.Phases), 1.2) + b.Regulator.SwitchingKHz/1e4) * math.Exp(w.rng.NormFloat64()*0.08),
		shed:     (0.12 + 8.5*area) * math.Exp(w.rng.NormFloat64()*0.10),
		socket:   10 * math.Exp(w.rng.NormFloat64()*0.2),
	}
}

// hot gives the true hot spot in °C at a package power in W and a room in °C.
func (w *strange) hot(id string, packageW, roomC float64) float64 {
	t := w.truths[id]
	lossW := t.lossBend * packageW * math.Pow(packageW/150, -0.15)
	rise := 40.0
	for range 60 { // a damped fixed point of rise = loss/(shed·(rise/40)^0.2)
		rise = (rise + lossW*(1+0.002*(rise-40))/(t.shed*math.Pow(rise/40, 0.2))) / 2
	}
	return roomC + t.offsetC + rise + t.socket*math.Sqrt(packageW/150)
}

// run measures a board at a clock: a thermometer within its class, a probe
// that sits a little off, a room that is a little other than noted.
func (w *strange) run(id string, n int, ghz float64) knowledge.Run {
	d := demandAt(&w.base.Chips[0], ghz)
	room := w.between(19, 27)
	hot := w.hot(id, d.watts, room) + w.between(-1, 1)*0.9 + w.rng.NormFloat64()*0.6
	return knowledge.Run{
		ID: fmt.Sprintf("%s-%d", id, n), Board: id, Chip: "c", Enclosure: "bench", Cooler: "k", Thermometer: "k1", Load: "render", Setup: "open",
		RoomC: room, GHz: number(ghz), Volts: number(d.volts), PackageW: number(d.watts), HotC: number(hot), Outcome: knowledge.Settled,
	}
}

// tally adds up how predictions fare.
type tally struct {
	n, miss, within, below, width float64
	yes, wrong                    int
}

func (c *tally) add(a advisor.Advice, hotC float64) {
	c.n++
	c.miss += math.Abs(*a.HotSpot.ExpectedC - hotC)
	c.width += *a.HotSpot.HighC - *a.HotSpot.LowC
	if hotC >= *a.HotSpot.LowC && hotC <= *a.HotSpot.HighC {
		c.within++
	}
	if hotC <= *a.HotSpot.HighC {
		c.below++
	}
}

// judged adds a verdict that the truth, at the clock asked about, may belie.
func (c *tally) judged(a advisor.Advice, trueC float64) {
	if a.Verdict != advisor.Yes {
		return
	}
	c.yes++
	if trueC > *a.Limit.ValueC {
		c.wrong++
	}
}

// In a world whose truth is not the model, averaged over eight seeds: boards
// with two settled runs are predicted to 1.5 °C with an interval that holds 85
// to 99 % of held-out runs and is no wider than 8 °C; unmeasured boards beside
// 18 measured ones to 9.5 °C with at least 90 % below the 95 % bound; and a yes
// is over the true limit in at most one of fifty.
func TestStrangeWorld(t *testing.T) {
	var known, unknown tally
	for seed := range uint64(8) {
		playStrange(t, newStrange(seed), &known, &unknown)
	}
	t.Logf("two runs: off by %.2f °C, %.1f %% within an interval of %.2f °C", known.miss/known.n, 100*known.within/known.n, known.width/known.n)
	t.Logf("unmeasured: off by %.2f °C, %.1f %% below the 95 %% bound", unknown.miss/unknown.n, 100*unknown.below/unknown.n)
	yes, wrong := known.yes+unknown.yes, known.wrong+unknown.wrong
	t.Logf("%d of %d yeses are over the true limit", wrong, yes)
	if known.miss/known.n > 1.5 || known.width/known.n > 8 || known.within/known.n < 0.85 || known.within/known.n > 0.99 {
		t.Error("boards with two runs are not predicted well enough")
	}
	if unknown.miss/unknown.n > 9.5 || unknown.below/unknown.n < 0.9 {
		t.Error("unmeasured boards are not predicted well enough")
	}
	if yes < 50 || wrong*50 > yes {
		t.Error("a yes is not to be trusted")
	}
}

func playStrange(t *testing.T, w *strange, known, unknown *tally) {
	for i := range measuredBoards {
		id := fmt.Sprintf("b%d", i)
		w.base.Runs = append(w.base.Runs, w.run(id, 1, 3.6), w.run(id, 2, 4.2))
	}
	s, err := advisor.NewSnapshot(knowledge.New(w.base), defaultBook(), "test")
	if err != nil {
		t.Fatal(err)
	}
	for i := range measuredBoards + unmeasuredBoards {
		id := fmt.Sprintf("b%d", i)
		count := known
		if i >= measuredBoards {
			count = unknown
		}
		for n, ghz := range []float64{3.4, 3.9, 4.2} {
			run := w.run(id, 10+n, ghz)
			q := advisor.Question{Board: id, Chip: "c", RoomC: number(run.RoomC), Setup: advisor.SetupOpen, GHz: number(ghz)}
			a, err := advisor.AdviseBriefly(t.Context(), s, q)
			if err != nil {
				t.Fatal(err)
			}
			if a.Clock.LimitedBy == "chip" && a.HotSpot.ExpectedC != nil {
				count.add(a, *run.HotC)
				count.judged(a, w.hot(id, *run.PackageW, run.RoomC))
			}
		}
	}
}

// demand is what the strange world's chip draws.
type demand struct{ watts, volts float64 }

// demandAt interpolates the chip's points in straight lines, as the bench of
// the strange world does.
func demandAt(k *knowledge.Chip, ghz float64) demand {
	for i := 1; i < len(k.Points); i++ {
		a, b := k.Points[i-1], k.Points[i]
		if ghz <= b.GHz {
			at := (ghz - a.GHz) / (b.GHz - a.GHz)
			return demand{a.Watts + at*(b.Watts-a.Watts), a.Volts + at*(b.Volts-a.Volts)}
		}
	}
	return demand{}
}
