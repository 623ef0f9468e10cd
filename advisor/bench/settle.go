package bench

import (
	"math"

	"hotroom/advisor/uncertainty"
	"hotroom/knowledge"
)

// When a run counts as settled, and how well an end must be known that it has
// not reached.
const (
	finalS      = 15 * 60.0
	shortLoadS  = 45 * 60.0 // below it the last third is taken
	settledK    = 1.0
	knownWithin = 1.5 // ± K with 95 %
)

// final is the last stretch under load.
type final struct {
	seconds float64
	driftK  float64 // over the stretch, by a straight line
	levelK  float64 // mean rise
	stdK    float64 // standard error of the mean
	freedom float64
	third   bool // the last third, because the load was short
}

// finalDrift looks at the last 15 minutes under load, or at the last third.
func finalDrift(points []Point, span float64) final {
	f := final{seconds: finalS}
	if span < shortLoadS {
		f.seconds, f.third = span/3, true
	}
	end := points[len(points)-1].TimeS
	from := len(points)
	for from > 0 && points[from-1].TimeS >= end-f.seconds {
		from--
	}
	last := points[from:]
	l := lineThrough(last)
	f.driftK, f.levelK = l.slope*f.seconds, l.level
	f.spread(last, l)
	return f
}

// spread works out the standard error of the level, with neighbours that are
// alike counted for less.
func (f *final) spread(points []Point, l line) {
	n := float64(len(points))
	if n < 3 {
		f.stdK, f.freedom = math.Abs(f.driftK), 1
		return
	}
	var squares, neighbours, before float64
	for i, p := range points {
		r := p.RiseK - l.at(p.TimeS)
		squares += r * r
		if i > 0 {
			neighbours += r * before
		}
		before = r
	}
	alike := 0.0
	if squares > 0 {
		alike = min(max(neighbours/squares, 0), 0.99)
	}
	f.freedom = max(1, (n-2)*(1-alike)/(1+alike))
	f.stdK = math.Sqrt(squares/(n-2)) / math.Sqrt(f.freedom+2)
}

func (f *final) settled() bool { return math.Abs(f.driftK) < settledK }

// words names the stretch.
func (f *final) words() string {
	if f.third {
		return "the last third of the load (" + seconds(f.seconds) + ")"
	}
	return "the last " + seconds(f.seconds)
}

// takeSettled decides what an unthrottled run settles at.
func (r *reducer) takeSettled(refusal string) {
	f, h := &r.final, r.out.Heating
	r.out.Quality.Settled = f.settled()
	if f.third {
		r.lose("B", "the load was on for %s, less than 45 minutes: settled is judged by its last third", seconds(r.span))
	}
	switch {
	case h == nil && f.settled() && math.Abs(lineThrough(r.out.Points).slope*r.span) < settledK && r.span >= finalS:
		r.takeLevel("the board was warm already: the mean of " + f.words() + " is the value")
		r.lose("B", "%s, and no time constant is known", refusal)
	case h == nil:
		r.refuse(refusal)
	case f.settled() && h.Within95() > knownWithin:
		r.takeLevel("the curve's end is known to ±" + kelvin(h.Within95()) + " only: the mean of " + f.words() + " is the value")
		r.lose("B", "the curve does not pin down where the warming ends")
	case f.settled():
		r.take(h.FinalK, h.source())
	case h.Within95() <= knownWithin && h.SlowK <= knownWithin:
		r.take(h.FinalK, h.source())
		r.lose("C", "not settled: %s still drift by %s; the value is where the curve ends, known to ±%s (95 %%)", f.words(), signedKelvin(f.driftK), kelvin(math.Max(h.Within95(), h.SlowK)))
	default:
		r.refuse("not settled: " + f.words() + " still drift by " + signedKelvin(f.driftK) + ", and the end of the curve is known to ±" + kelvin(math.Max(h.Within95(), h.SlowK)) + " only, a slower part that the record does not show included")
	}
	if h != nil {
		r.takeTimeConstant(h)
	}
}

// leastShown is the share of the whole rise that the fitted curve must cover
// before its time constant is called the board's: what a burst hid before may
// be the quicker, larger part.
const leastShown = 0.6

// takeTimeConstant takes the time constant of the curve, unless the curve
// begins late and covers too little of the rise.
func (r *reducer) takeTimeConstant(h *Heating) {
	shown := 0.0
	for _, p := range h.Parts {
		shown += p.AmplitudeK
	}
	if whole := h.FinalK - r.out.Points[0].RiseK; h.FromS > r.out.Points[0].TimeS && shown < leastShown*whole {
		r.note("the curve begins after %s and covers %s of a rise of %s: no time constant is named", seconds(h.FromS), kelvin(shown), kelvin(whole))
		return
	}
	r.out.Quality.TimeConstantMin = value(h.Main().TimeConstantS / 60)
}

// takeLevel takes the mean of the last stretch.
func (r *reducer) takeLevel(why string) {
	r.take(r.final.levelK, r.final.source())
	r.note("%s", why)
}

func (f *final) source() uncertainty.Source {
	return uncertainty.Source{Name: "fit", Value: f.stdK, Divisor: 1, Freedom: f.freedom}
}

// takeHeld takes a throttled run at the temperature that it was held at: its
// mean over the last 10 minutes, as its power is.
func (r *reducer) takeHeld() {
	q := &r.out.Quality
	q.Settled = r.final.settled()
	from := r.lastSeconds(sustainedSeconds)
	level := mean(r.rise[from-r.load.from:])
	source := r.final.source()
	r.take(level, source)
	r.out.Outcome = knowledge.Throttled
	if !q.Settled {
		r.lose("C", "throttled, and %s still drift by %s", r.final.words(), signedKelvin(r.final.driftK))
	}
	r.note("throttled: the value is the mean of the last 10 minutes, at the power that was held")
}

// refuse ends with an unsettled run.
func (r *reducer) refuse(why string) {
	r.out.Outcome = knowledge.Unsettled
	r.lose("D", "%s", why)
}

// take settles the value, its interval and its budget.
func (r *reducer) take(riseK float64, fit uncertainty.Source) {
	q := &r.out.Quality
	hot := *q.RoomMeanC + riseK
	b := r.budget(hot, fit)
	r.out.Budget, r.out.Outcome = b, knowledge.Settled
	half := b.Expanded(0.95)
	q.SettleC, q.SettleLowC, q.SettleHighC = value(hot), value(hot-half), value(hot+half)
	q.UncertaintyC = value(b.Standard())
	r.out.HotC = q.SettleC
	for _, s := range b {
		q.Budget = append(q.Budget, BudgetEntry{Source: s.Name, ValueC: rounded(s.Value), Divisor: rounded(s.Divisor), StandardC: rounded(s.Standard())})
	}
}
