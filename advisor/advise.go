package advisor

import (
	"context"

	"hotroom/advisor/ageing"
	"hotroom/advisor/limit"
	"hotroom/rules"
)

// Advise answers a question from a snapshot: question → facts → rules →
// advice, and what would turn the answer into a yes. The error is a *Refusal
// where the question cannot be answered as asked, or the context's error.
func Advise(ctx context.Context, s *Snapshot, q Question) (Advice, error) {
	if err := ctx.Err(); err != nil {
		return Advice{}, err
	}
	a, advice, err := s.brief(q)
	if err != nil {
		return Advice{}, err
	}
	advice.Changes = s.changes(a, advice.Verdict)
	return advice, nil
}

// AdviseBriefly answers like Advise, but looks for no changes: for rankings,
// sweeps and other long rows of questions.
func AdviseBriefly(ctx context.Context, s *Snapshot, q Question) (Advice, error) {
	if err := ctx.Err(); err != nil {
		return Advice{}, err
	}
	_, advice, err := s.brief(q)
	return advice, err
}

// Weigh answers like AdviseBriefly, and leaves the words out that stand beside
// the findings: cautions, defaults and estimates. For rankings, which show none
// of them.
func Weigh(ctx context.Context, s *Snapshot, q Question) (Advice, error) {
	if err := ctx.Err(); err != nil {
		return Advice{}, err
	}
	a, judged, err := s.judged(q)
	if err != nil {
		return Advice{}, err
	}
	return s.figures(a, judged), nil
}

// brief answers a question without looking for changes.
func (s *Snapshot) brief(q Question) (*answer, Advice, error) {
	a, judged, err := s.judged(q)
	if err != nil {
		return nil, Advice{}, err
	}
	return a, s.advice(a, judged), nil
}

// judged works a question out and has the rules judge it.
func (s *Snapshot) judged(q Question) (*answer, rules.Judgement, error) {
	sc, err := s.resolve(q)
	if err != nil {
		return nil, rules.Judgement{}, err
	}
	a := work(sc)
	return a, s.book.Judge(a.gather()), nil
}

// advice puts the answer together for whoever reads it.
func (s *Snapshot) advice(a *answer, judged rules.Judgement) Advice {
	advice := s.figures(a, judged)
	advice.Cautions, advice.Defaults, advice.Estimated = a.cautions(judged), a.defaults(), a.estimated()
	return advice
}

// figures puts the verdict, the numbers and the findings together.
func (s *Snapshot) figures(a *answer, judged rules.Judgement) Advice {
	f := new(numbers)
	ruling, limits := a.rule(judged), a.limits(f)
	return Advice{
		Question: a.question, Verdict: ruling.verdict, Headline: ruling.headline, Score: rounded(judged.Score),
		Evidence: a.record.word, Runs: a.record.ids(),
		HotSpot: HotSpot{
			ExpectedC: f.value(a.ifSettled(a.state.HotC)), LowC: f.value(a.ifSettled(a.lowC())), HighC: f.value(a.ifSettled(a.highC())),
			UncertaintyC: f.value(a.ifSettled(a.uncertaintyK)), UnthrottledC: f.value(a.unthrottledC()),
		},
		Limit: limits[0], Limits: limits,
		Margin: Margin{
			ExpectedC: f.value(a.ifSettled(a.limitC - a.hot())), KeptC: f.value(a.ifSettled(a.kept())), ExceedProbability: f.value(a.exceeds()),
		},
		Ceiling: Ceiling{RoomC: f.value(a.roomCeilingC), PackageW: f.value(a.powerCeilingW), PackageAtLeast: a.powerAtLeast},
		Clock: Clock{
			SustainedGHz: rounded(a.demand.GHz), TargetGHz: rounded(a.targetGHz), LimitedBy: a.limitedBy, LossPercent: rounded(a.lossPercent()),
		},
		Power: Power{
			PackageW: rounded(a.demand.PackageW), CoreA: rounded(a.demand.CoreA), Volts: rounded(a.demand.Volts),
			RegulatorLossW: f.value(a.ifSettled(a.state.LossW)), RegulatorEfficiency: f.value(a.efficiency()),
		},
		Air: Air{
			LocalC: f.value(a.ifSettled(a.state.LocalC)), CaseRiseC: f.value(a.ifSettled(a.state.CaseRiseK)), AirspeedMS: rounded(a.airspeed()),
		},
		Time:      Time{To95PercentMin: f.value(a.minutesTo95), ToLimitMin: f.value(a.minutesToLimit)},
		Capacitor: a.capacitorAdvice(f), EvidenceDetail: a.record.detail(f),
		Changes: []Change{}, Findings: ruling.findings, Cautions: []string{}, Defaults: []string{}, Estimated: []string{},
		Versions: Versions{Knowledge: s.base.Hash, Rules: s.book.Hash(), Program: s.program},
	}
}

// limits lists the limits, lowest first. What a maker states is passed on
// as it is; only the stage's limit, which is worked out, is rounded.
func (a *answer) limits(f *numbers) []Limit {
	all := a.parts.limits.All(a.stageW)
	limits := make([]Limit, len(all))
	for i := range all {
		l := &all[i]
		limits[i] = Limit{ValueC: number(l.ValueC), StatedBy: l.StatedBy, Kind: l.Kind, Source: l.Source}
		if l.Kind == limit.Stage {
			limits[i].ValueC = f.value(l.ValueC)
		}
	}
	return limits
}

func (a *answer) capacitorAdvice(f *numbers) Capacitor {
	c := a.parts.board.Capacitor
	if c == nil {
		return Capacitor{}
	}
	return Capacitor{
		Kind: word(c.Kind), TemperatureC: f.value(a.capacitorC),
		LifeH: f.value(a.capacitorLifeH), LifeYears: f.value(ageing.Years(a.capacitorLifeH)),
	}
}

// ids lists the runs that bear on the answer: those of its board.
func (r *record) ids() []string {
	ids := make([]string, len(r.runs))
	for i, run := range r.runs {
		ids[i] = run.ID
	}
	return ids
}

func (r *record) detail(f *numbers) EvidenceDetail {
	d := EvidenceDetail{
		PackageGapPercent: f.value(r.packageGap), RoomGapC: f.value(r.roomGapK), UncertaintyRemovedPercent: f.value(r.removedPercent),
	}
	if r.nearest != nil {
		d.NearestRun = word(r.nearest.ID)
	}
	return d
}
