package rules

import (
	"testing"

	"hotroom/knowledge/ratio"
	"hotroom/rules/facts"

	"github.com/expr-lang/expr"
	"github.com/expr-lang/expr/vm"
	"pgregory.net/rapid"
)

// weights has one for each default rule.
type weights [47]weight

// byHand is the default rules as a programmer would write them in Go: what
// judging by a catalogue is measured against. It gives each rule's weight in
// the order of the file.
func byHand(f *facts.Facts, w *weights) {
	*w = weights{}
	byHandLimits(f, w)
	byHandMeasured(f, w)
	byHandParts(f, w)
}

func unknown(x float64) bool { return x != x }

func clamp(x, lo, hi float64) float64 { return max(lo, min(hi, x)) }

// gives fires a rule with points.
func gives(points float64) weight { return weight{fired, points} }

// asks weighs a rule with constant points.
func asks(needs, holds bool, points float64) weight {
	switch {
	case needs:
		return weight{state: unknownWhen}
	case holds:
		return gives(points)
	}
	return weight{}
}

func byHandLimits(f *facts.Facts, w *weights) {
	kept := f.Margin.KeptC
	w[0] = asks(false, !f.HotSpot.Settles, 0)
	w[1] = asks(false, f.HotSpot.FirstPoint, 0)
	w[2] = asks(unknown(f.Chip.RatedPowerW), f.Chip.RatedPowerW > f.Board.ChipPowerW, 0)
	if kept >= 0 && kept < 10 {
		w[3] = gives(-clamp(10-kept, 1, 10))
	}
	w[4] = asks(false, kept < 0, -15)
	if p := f.Margin.ExceedProbability; p > 0.1 {
		w[5] = gives(-clamp(40*p, 4, 20))
	}
	if kept >= 10 {
		w[6] = gives(clamp(kept/2, 5, 10))
	}
	w[7] = asks(false, f.HotSpot.ExpectedC <= 85, 3)
	if f.Clock.LimitedBy == "temperature" {
		w[8] = gives(-clamp(5+2*f.Clock.LossPercent, 5, 30))
		if unknown(f.Clock.LossPercent) {
			w[8] = weight{state: unknownPoints}
		}
	}
	loss := f.Clock.CapLossPercent
	switch {
	case unknown(loss):
		w[9], w[10] = weight{state: unknownWhen}, weight{state: unknownWhen}
	case loss > 3 && f.Clock.LimitedBy == "power":
		w[9] = gives(-clamp(loss/2, 1, 10))
	case loss > 3 && f.Clock.LimitedBy == "current":
		w[10] = gives(-clamp(loss/2, 1, 10))
	}
	w[11] = asks(false, f.Asked.Tuned, -3)
	w[12] = asks(false, f.Value.PricePerGHz > 15, 0)
	byHandStated(f, w)
}

func byHandStated(f *facts.Facts, w *weights) {
	watts, amps := f.Power.PackageW, f.Power.CoreA
	w[13] = asks(false, !f.HotSpot.ThrottleKnown, 0)
	w[14] = asks(false, f.HotSpot.ThrottleKnown && f.Limit.Kind != "board", 0)
	w[15] = asks(unknown(watts), watts > f.Board.ChipPowerW, -15)
	w[16] = asks(unknown(watts), watts > f.Board.LimitPowerW, -5)
	w[17] = asks(unknown(amps), amps > f.Board.LimitCurrentA, -5)
	above := watts > f.Board.LimitPowerW || amps > f.Board.LimitCurrentA
	w[18] = asks(unknown(watts) || unknown(amps), above && !f.Board.Tunable && (f.Asked.Setup == "open" || f.Asked.Setup == "custom"), -10)
	w[19] = asks(unknown(amps) || unknown(f.Chip.CurrentMaxA), amps > f.Chip.CurrentMaxA, -15)
	w[20] = asks(false, f.Asked.Setup == "open", 0)
	w[21] = asks(unknown(f.Chip.RatedPowerW), f.Board.LimitPowerW < f.Chip.RatedPowerW, 0)
}

func byHandMeasured(f *facts.Facts, w *weights) {
	e := &f.Evidence
	w[22] = asks(false, e.Word == "measured", 5)
	w[23] = asks(false, e.Word == "estimated", 0)
	w[24] = asks(false, e.PackageGapPercent > 25 || e.RoomGapC > 10, 0)
	if near := e.CrashedNear; near > 0 {
		w[25] = gives(-clamp(20+5*near, 25, 40))
	} else if unknown(near) {
		w[25] = weight{state: unknownWhen}
	}
	w[26] = asks(unknown(e.Crashed) || unknown(e.CrashedNear), e.Crashed > 0 && e.CrashedNear == 0, -5)
	w[27] = asks(unknown(e.ThrottledNear), e.ThrottledNear > 0, -8)
	w[28] = asks(unknown(e.Unsettled), e.Unsettled > 0, 0)
	w[29] = asks(unknown(e.Firmwares), e.FirmwareDiffers || e.Firmwares > 1, 0)
	w[30] = asks(unknown(f.Board.EstimatedInputs), f.Board.EstimatedInputs > 0, 0)
	w[31] = asks(false, f.HotSpot.UncertaintyC > 8, 0)
}

func byHandParts(f *facts.Facts, w *weights) {
	if density := f.Power.LossDensity; density > 5 {
		w[32] = gives(-clamp(density-3, 2, 8))
	}
	w[33] = asks(false, f.Board.HeatsinkShape == "none", -10)
	if loss := f.Power.LossPerPhaseW; loss > 3 {
		w[34] = gives(-clamp(loss, 3, 8))
	} else if loss < 1.5 {
		w[35] = gives(3)
	}
	if amps := f.Board.PhaseA; amps > 35 {
		w[36] = gives(-clamp((amps-35)/2, 2, 8))
	} else if unknown(amps) {
		w[36] = weight{state: unknownWhen}
	}
	w[37] = asks(false, f.Power.TableExceeded, -8)
	w[38] = asks(false, f.HotSpot.LoopGain > 0.3, 0)
	w[39] = asks(unknown(f.Power.PackageW), f.Ceiling.PackageSpareW > f.Power.PackageW/3, 4)
	if years := f.Capacitor.LifeYears; years < 2 {
		w[40] = gives(-clamp(6-2*years, 2, 6))
	}
	w[41] = asks(false, f.Time.To95PercentMin > 30, 0)
	w[42] = asks(false, f.Ceiling.RoomHeadroomC < 5, 0)
	w[43] = asks(false, f.Air.CaseRiseC > 15, -3)
	w[44] = asks(false, f.Asked.OpenBench, 0)
	w[45] = asks(unknown(f.Asked.AltitudeM), f.Asked.AltitudeM >= 1500, 0)
	w[46] = asks(unknown(f.Asked.Activity), f.Asked.Activity < 0.9, 0)
}

// The rules written by hand do what the catalogue does: on the facts of every
// example, which make each rule fire and be silent, and on any others.
func TestByHandIsTheDefault(t *testing.T) {
	b := defaultBook(t)
	if len(b.rules) != len(weights{}) {
		t.Fatalf("%d rules", len(b.rules))
	}
	file, src := Default()
	for _, r := range records(t, file, src) {
		sameWeights(t, b, exampleFacts(t, r.Example.Fires))
		sameWeights(t, b, exampleFacts(t, r.Example.Silent))
	}
	rapid.Check(t, func(t *rapid.T) { sameWeights(t, b, scattered(t)) })
}

func sameWeights(t interface{ Errorf(string, ...any) }, b *Book, f facts.Facts) {
	var e bench
	e.See(&f)
	var got, want weights
	for _, w := range b.weighAll(&e) {
		got[w.rule] = w.weight
	}
	byHand(&f, &want)
	for i := range got {
		if got[i] != want[i] {
			t.Errorf("%s weighs %v, by hand %v", b.rules[i].Name, got[i], want[i])
		}
	}
}

// troubled are facts on which about half of the rules fire.
func troubled() *facts.Facts {
	f := facts.Calm()
	f.Margin.KeptC, f.Margin.ExceedProbability, f.HotSpot.ExpectedC, f.HotSpot.UncertaintyC = 2, 0.2, 95, 9
	f.Clock.LimitedBy, f.Clock.CapLossPercent, f.Asked.Tuned, f.Asked.Setup = "power", 8, true, "open"
	f.Board.Tunable, f.Board.PhaseA, f.Power.PackageW, f.Power.CoreA = false, 45, 240, 230
	f.Power.LossPerPhaseW, f.Power.LossDensity, f.Evidence.Word, f.Evidence.Crashed = 4, 7, "projected", 1
	f.Capacitor.LifeYears, f.Air.CaseRiseC, f.Asked.Activity, f.Ceiling.RoomHeadroomC = 1, 20, 0.5, 3
	return &f
}

// scenes are what judging is measured on: the same facts over and over, which
// a processor learns by heart, and those of every example in turn.
func scenes(t testing.TB) map[string][]facts.Facts {
	file, src := Default()
	var examples []facts.Facts
	for _, r := range records(t, file, src) {
		examples = append(examples, exampleFacts(t, r.Example.Fires), exampleFacts(t, r.Example.Silent))
	}
	return map[string][]facts.Facts{"calm": {facts.Calm()}, "troubled": {*troubled()}, "examples": examples}
}

// measure runs one judgement after the other, going round the scenes.
func measure(b *testing.B, judge func(*facts.Facts)) {
	for name, all := range scenes(b) {
		b.Run(name, func(b *testing.B) {
			for i := range all {
				judge(&all[i])
			}
			b.ReportAllocs()
			next := 0
			for b.Loop() {
				judge(&all[next])
				if next++; next == len(all) {
					next = 0
				}
			}
		})
	}
}

func BenchmarkWeigh(b *testing.B) { measure(b, defaultBook(b).weigh) }

func BenchmarkByHand(b *testing.B) {
	var w weights
	measure(b, func(f *facts.Facts) { byHand(f, &w) })
}

// exprPrograms compiles one text of each rule with expr, nil where it has none.
func exprPrograms(b testing.TB, texts func(*Rule) string) []*vm.Program {
	var programs []*vm.Program
	for _, r := range defaultBook(b).Rules() {
		text := texts(&r)
		if text == "" {
			programs = append(programs, nil)
			continue
		}
		p, err := expr.Compile(text, expr.Env(&facts.Facts{}),
			expr.Function("known", func(x ...any) (any, error) { return x[0] == x[0], nil }, new(func(float64) bool)),
			expr.Function("clamp", func(x ...any) (any, error) {
				return clamp(asFloat(x[0]), asFloat(x[1]), asFloat(x[2])), nil
			}, new(func(float64, float64, float64) float64)))
		if err != nil {
			b.Fatal(err)
		}
		programs = append(programs, p)
	}
	return programs
}

func asFloat(x any) float64 {
	if n, ok := x.(int); ok {
		return float64(n)
	}
	return x.(float64)
}

// BenchmarkExprRun runs the same rules the way expr's manual starts with: a
// pointer environment and expr.Run.
func BenchmarkExprRun(b *testing.B) {
	when := exprPrograms(b, func(r *Rule) string { return r.When })
	points := exprPrograms(b, func(r *Rule) string { return r.Points })
	scene := &facts.Facts{}
	measure(b, func(f *facts.Facts) {
		*scene = *f
		runExpr(b, when, points, scene)
	})
}

// TestRatios holds judging by the catalogue against the same rules by hand, and
// against expr's own machine with the facts behind a pointer.
func TestRatios(t *testing.T) {
	ratio.Skip(t)
	book := defaultBook(t)
	when := exprPrograms(t, func(r *Rule) string { return r.When })
	points := exprPrograms(t, func(r *Rule) string { return r.Points })
	for _, of := range []struct {
		scenes string
		atMost float64
	}{{"calm", 7}, {"examples", 7}, {"troubled", 10}} {
		all := scenes(t)[of.scenes]
		each := func(judge func(*facts.Facts)) func() {
			next := 0
			return func() {
				judge(&all[next])
				next = (next + 1) % len(all)
			}
		}
		var w weights
		weigh := each(book.weigh)
		ratio.AtMost(t, of.scenes+": by the catalogue over by hand", ratio.Of(weigh, each(func(f *facts.Facts) { byHand(f, &w) })), of.atMost)
		scene := &facts.Facts{}
		ratio.AtLeast(t, of.scenes+": by expr.Run over by the catalogue", ratio.Of(each(func(f *facts.Facts) {
			*scene = *f
			runExpr(t, when, points, scene)
		}), weigh), 15)
		if n := testing.AllocsPerRun(100, weigh); n > 2 {
			t.Errorf("%s: %v allocations, and at most 2 are wanted", of.scenes, n)
		}
	}
}

// weigh is judging without the wording, the facts taken in included.
func (b *Book) weigh(f *facts.Facts) {
	e := b.bench(f)
	b.weighAll(e)
	b.clear(e)
}

func runExpr(t testing.TB, when, points []*vm.Program, scene *facts.Facts) {
	for i := range when {
		holds, err := expr.Run(when[i], scene)
		if err == nil && holds == true && points[i] != nil {
			_, err = expr.Run(points[i], scene)
		}
		if err != nil {
			t.Fatal(err)
		}
	}
}
