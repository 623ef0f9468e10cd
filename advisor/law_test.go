package advisor_test

import (
	"math"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor"
	"hotroom/advisor/chip"
	"hotroom/knowledge"
	"hotroom/rules"
)

// world is one random board with one random chip in one random place.
type world struct {
	chip      knowledge.Chip
	board     knowledge.Board
	stage     knowledge.Stage
	enclosure knowledge.Enclosure
	cooler    knowledge.Cooler
	load      knowledge.Load
	question  advisor.Question
}

func number(v float64) *float64 { return &v }

// maybe draws a number, or nothing.
func maybe(t *rapid.T, low, high float64, label string) *float64 {
	if !rapid.Bool().Draw(t, "has "+label) {
		return nil
	}
	return number(rapid.Float64Range(low, high).Draw(t, label))
}

func drawWorld() *rapid.Generator[world] {
	return rapid.Custom(func(t *rapid.T) world {
		w := world{chip: drawChip(t), stage: drawStage(t), board: drawBoard(t)}
		w.enclosure = knowledge.Enclosure{
			ID: "e", Name: "case", FlowM3H: maybe(t, 15, 150, "flow"),
			AirspeedMS: rapid.Float64Range(0, 1.5).Draw(t, "airspeed"), OtherW: rapid.Float64Range(0, 40).Draw(t, "other"),
		}
		w.cooler = knowledge.Cooler{
			ID: "k", Name: "cooler", HeatIntoCaseShare: rapid.Float64Range(0, 1).Draw(t, "share"),
			AirspeedMS: rapid.Float64Range(0, 2).Draw(t, "cooler air"),
		}
		w.load = knowledge.Load{ID: "l", Name: "load", Activity: rapid.Float64Range(0.3, 1.1).Draw(t, "activity")}
		first, last := w.chip.Points[0].GHz, w.chip.Points[len(w.chip.Points)-1].GHz
		w.question = advisor.Question{
			Board: "b", Chip: "c", RoomC: number(rapid.Float64Range(-15, 45).Draw(t, "room")),
			AltitudeM: number(rapid.Float64Range(0, 2500).Draw(t, "altitude")), GHz: number(rapid.Float64Range(first, last).Draw(t, "ghz")),
			GraphicsW: number(rapid.Float64Range(0, 300).Draw(t, "graphics")),
			Setup:     rapid.SampledFrom([]string{advisor.SetupRated, advisor.SetupShipped, advisor.SetupOpen}).Draw(t, "setup"),
		}
		return w
	})
}

// drawChip draws points whose power grows as clock times volts squared, as
// dynamic power does, on a voltage that is a parabola of the clock. The current
// then rises between the points too, which points alone do not ensure.
func drawChip(t *rapid.T) knowledge.Chip {
	k := knowledge.Chip{
		ID: "c", Name: "chip", Socket: "s", Cores: 8, CoreShare: 0.92, Tunable: true,
		RatedPowerW: rapid.Float64Range(50, 250).Draw(t, "rated"), CurrentMaxA: rapid.Float64Range(60, 350).Draw(t, "current"),
	}
	full := rapid.Float64Range(60, 320).Draw(t, "full power")
	k.IdleW = 0.08 * full
	k.AllCoreGHz = 4
	for _, ghz := range []float64{3, 3.5, 4, 4.5} {
		volts := 0.6 + 0.03*ghz*ghz
		k.Points = append(k.Points, knowledge.Point{GHz: ghz, Volts: volts, Watts: k.IdleW + 0.92*full*ghz*volts*volts/(4.5*1.2075*1.2075)})
	}
	return k
}

func drawStage(t *rapid.T) knowledge.Stage {
	s := knowledge.Stage{
		ID: "st", Name: "stage", Kind: knowledge.StageDiscrete, TempMaxC: 150, RdsPerK: 0.005, JunctionKPerW: 4, DeratingC: 25, SwitchingShare: 0.5,
		HighCount: rapid.IntRange(1, 2).Draw(t, "high"), LowCount: rapid.IntRange(1, 3).Draw(t, "low"),
		HighMOhm: rapid.Float64Range(2, 9).Draw(t, "high mΩ"), LowMOhm: rapid.Float64Range(0.8, 5).Draw(t, "low mΩ"),
		RiseNS: 10, FallNS: 12, HighGateNC: 12, LowGateNC: 25, DriveV: 8, DeadNS: 22, DiodeV: 0.8, HighOutNC: 12, LowOutNC: 24, RecoveryNC: 30,
	}
	if rapid.Bool().Draw(t, "integrated") {
		s.Kind, s.VinV, s.VoutV, s.KHz, s.TempC = knowledge.StageIntegrated, 12, 1.1, 500, 25
		scale := rapid.Float64Range(0.6, 2).Draw(t, "scale")
		for _, amps := range []float64{5, 15, 30, 50} {
			s.Losses = append(s.Losses, knowledge.StageLoss{Amps: amps, Watts: scale * (0.5 + 0.04*amps + 0.0018*amps*amps)})
		}
	}
	return s
}

func drawBoard(t *rapid.T) knowledge.Board {
	return knowledge.Board{
		ID: "b", Name: "board", Socket: "s", Tunable: true, AreaCM2: 100, LaminateC: 130, SocketKPerW: 0.08, Price: maybe(t, 50, 400, "price"),
		Limit: knowledge.BoardLimit{
			PowerW: maybe(t, 50, 300, "limit W"), CurrentA: maybe(t, 60, 350, "limit A"), HotSpotC: maybe(t, 85, 125, "hot spot"),
			ChipPowerW: maybe(t, 60, 300, "chip W"),
		},
		Regulator: knowledge.Regulator{
			Phases: rapid.IntRange(3, 16).Draw(t, "phases"), Stage: "st", SwitchingKHz: rapid.Float64Range(250, 700).Draw(t, "kHz"),
			InductorNH: 220, InductorMOhm: rapid.Float64Range(0.2, 1).Draw(t, "winding"), CoreLossW: 0.3, PlaneMOhm: 0.07, InputV: 12,
		},
		Heatsink:  drawHeatsink(t),
		Capacitor: &knowledge.Capacitor{Kind: "polymer", RatedC: 105, RatedH: 5000, LocalShare: 0.5},
	}
}

func drawHeatsink(t *rapid.T) knowledge.Heatsink {
	s := knowledge.Heatsink{
		Shape: rapid.SampledFrom([]string{"none", "block", "finned", "fin-stack"}).Draw(t, "shape"), HeightMM: 30, PadKPerW: 0.25, Factor: 0.9,
	}
	if s.Shape == "none" {
		return s
	}
	s.MassG = number(rapid.Float64Range(30, 400).Draw(t, "mass"))
	if rapid.Bool().Draw(t, "area known") {
		s.AreaCM2 = number(rapid.Float64Range(60, 1500).Draw(t, "area"))
	}
	return s
}

// ask answers the world's question by the default rules.
func (w world) ask(t *rapid.T) advisor.Advice {
	a, err := advisor.Advise(t.Context(), w.snapshot(t), w.question)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func (w world) snapshot(t *rapid.T) *advisor.Snapshot {
	base := knowledge.New(knowledge.Base{
		Chips: []knowledge.Chip{w.chip}, Boards: []knowledge.Board{w.board}, Stages: []knowledge.Stage{w.stage},
		Enclosures: []knowledge.Enclosure{w.enclosure}, Coolers: []knowledge.Cooler{w.cooler}, Loads: []knowledge.Load{w.load},
	})
	s, err := advisor.NewSnapshot(base, defaultBook(), "test")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// defaultBook loads the default rules once for all worlds.
var defaultBook = sync.OnceValue(func() *rules.Book {
	book, problems := rules.Load(rules.Default())
	if book == nil {
		panic(problems)
	}
	return book
})

// orInfinite reads a number that is missing where the board cannot settle.
func orInfinite(v *float64, infinite float64) float64 {
	if v == nil {
		return infinite
	}
	return *v
}

// rank puts the verdicts in order, the best highest.
func rank(verdict string) int {
	return map[string]int{advisor.Yes: 3, advisor.WithCare: 2, advisor.Unknown: 1, advisor.No: 0}[verdict]
}

// worsen changes one thing for the worse and names it.
func (w world) worsen(t *rapid.T) (world, string) {
	by := rapid.Float64Range(0, 1).Draw(t, "by")
	q := &w.question
	switch what := rapid.SampledFrom([]string{"room", "altitude", "clock", "flow", "airspeed", "area", "mass", "no heatsink"}).Draw(t, "worse"); what {
	case "room":
		q.RoomC = number(*q.RoomC + 15*by)
		return w, "a hotter room"
	case "altitude":
		q.AltitudeM = number(*q.AltitudeM + 1500*by)
		return w, "a higher altitude"
	case "clock":
		q.GHz = number(*q.GHz + by*(4.5-*q.GHz))
		return w, "a higher clock"
	case "flow":
		if w.enclosure.FlowM3H != nil {
			w.enclosure.FlowM3H = number(*w.enclosure.FlowM3H * (1 - 0.9*by))
		}
		return w, "less flow"
	case "airspeed":
		w.enclosure.AirspeedMS *= 1 - by
		w.cooler.AirspeedMS *= 1 - by
		return w, "slower air"
	case "area":
		if w.board.Heatsink.AreaCM2 != nil {
			w.board.Heatsink.AreaCM2 = number(*w.board.Heatsink.AreaCM2 * (1 - 0.9*by))
		}
		return w, "less area"
	case "mass":
		if w.board.Heatsink.MassG != nil {
			w.board.Heatsink.MassG = number(*w.board.Heatsink.MassG * (1 - 0.9*by))
		}
		return w, "less mass"
	}
	w.board.Heatsink = knowledge.Heatsink{Shape: "none", HeightMM: 30, PadKPerW: 0.25, Factor: 0.9}
	return w, "no heatsink"
}

// A hotter room, a higher altitude or clock, less air or less sink: the hot spot
// never cools and the clock never rises; while nothing is lowered for heat, the
// margins never grow and the verdict of the default rules never improves.
func TestWorseIsNeverBetter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		before := drawWorld().Draw(t, "world")
		after, what := before.worsen(t)
		a, b := before.ask(t), after.ask(t)
		const slack = 2e-4 // twice the rounding of the answer's numbers
		if hot, hotter := orInfinite(a.HotSpot.ExpectedC, math.Inf(1)), orInfinite(b.HotSpot.ExpectedC, math.Inf(1)); hotter < hot-slack {
			t.Fatalf("%s cools from %g to %g °C", what, hot, hotter)
		}
		asksForMore := *after.question.GHz > *before.question.GHz
		if b.Clock.SustainedGHz > a.Clock.SustainedGHz+slack && !asksForMore {
			t.Fatalf("%s raises the clock from %g to %g GHz", what, a.Clock.SustainedGHz, b.Clock.SustainedGHz)
		}
		if a.Clock.LimitedBy == chip.ByTemperature || b.Clock.LimitedBy == chip.ByTemperature {
			return
		}
		if kept, less := orInfinite(a.Margin.KeptC, math.Inf(-1)), orInfinite(b.Margin.KeptC, math.Inf(-1)); less > kept+slack {
			t.Fatalf("%s makes the kept margin grow from %g to %g K", what, kept, less)
		}
		if rank(b.Verdict) > rank(a.Verdict) {
			t.Fatalf("%s turns %q (%g points) into %q (%g points)\n%+v\n%+v", what, a.Verdict, a.Score, b.Verdict, b.Score, a.Findings, b.Findings)
		}
	})
}

// What must hold in any single answer.
func TestEveryAnswer(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		w := drawWorld().Draw(t, "world")
		a := w.ask(t)
		if a.Clock.LimitedBy == chip.ByTemperature && a.Verdict == advisor.Yes {
			t.Fatal("a throttled answer is a yes")
		}
		if stated := w.board.Limit.HotSpotC; stated != nil && *a.Limit.ValueC > *stated {
			t.Fatalf("the limit %g °C is above the maker's %g °C", *a.Limit.ValueC, *stated)
		}
		if a.HotSpot.ExpectedC == nil && (a.Verdict != advisor.No || *a.Margin.ExceedProbability != 1 || a.Ceiling.PackageW != nil || a.Margin.KeptC != nil) {
			t.Fatalf("a board that cannot settle is answered with %+v", a)
		}
		if a.Margin.KeptC != nil && *a.Margin.KeptC < 0 && a.Verdict == advisor.Yes {
			t.Fatal("a yes without a kept margin")
		}
		if c := a.Ceiling.RoomC; c != nil && *c >= -20 && *c <= 60 {
			w.question.RoomC = c
			if back := w.ask(t); back.Margin.KeptC == nil || math.Abs(*back.Margin.KeptC) > 0.1 {
				t.Fatalf("at the ceiling of %g °C the kept margin is %v", *c, back.Margin.KeptC)
			}
		}
	})
}
