package advisor

import (
	"fmt"
	"slices"

	"hotroom/advisor/chip"
	"hotroom/rules"
)

// ruling is the verdict with its reasons.
type ruling struct {
	verdict  string
	headline string
	findings []Finding
}

// rule takes the verdict of the rules, whoever wrote them, and holds it to what
// no rule may overturn: a board that cannot settle, or whose chip must run
// below its table, is a no; a clock lowered for heat is never a yes.
func (a *answer) rule(judged rules.Judgement) ruling {
	r := ruling{verdict: judged.Verdict, headline: judged.Say, findings: make([]Finding, 0, len(judged.Fired)+1)}
	for _, f := range judged.Fired {
		r.findings = append(r.findings, Finding{Rule: f.Rule, Kind: f.Kind, Points: rounded(f.Points), Text: f.Text, Source: f.Source})
	}
	switch {
	case !a.settles:
		r.forbid("cannot-settle", a.cannotSettle())
	case a.firstPoint:
		r.forbid("first-point", a.firstPointTooMuch())
	case a.limitedBy == chip.ByTemperature && r.verdict == Yes:
		r.verdict = WithCare
		r.headline = fmt.Sprintf("With care: the %s holds the %s only by lowering its clock for heat.", a.parts.board.Name, a.chip.Name)
	}
	return r
}

// forbid makes the verdict a no, and gives the reason unless a rule has said it
// already.
func (r *ruling) forbid(name, reason string) {
	if r.verdict != No {
		r.verdict, r.headline = No, "No: "+reason+"."
	}
	said := slices.ContainsFunc(r.findings, func(f Finding) bool { return f.Kind == rules.Veto })
	if !said {
		r.findings = append(r.findings, Finding{Rule: "model:" + name, Kind: rules.Veto, Text: reason, Source: "the heat balance of the model"})
	}
}

func (a *answer) cannotSettle() string {
	return fmt.Sprintf("the %s cannot settle below 250 °C with the %s at %.2f GHz: its heat grows faster than it can shed it",
		a.parts.board.Name, a.chip.Name, a.demand.GHz)
}

func (a *answer) firstPointTooMuch() string {
	what := map[string]string{chip.ByPower: "power cap", chip.ByCurrent: "current cap", chip.ByTemperature: "throttle temperature"}[a.limitedBy]
	return fmt.Sprintf("even at %.2f GHz, the first operating point known of the %s, the %s of the %s is exceeded, so the chip must run lower than its table goes",
		a.demand.GHz, a.chip.Name, what, a.parts.board.Name)
}
