package rules

import "hotroom/rules/expression"

// verdicts compiles the verdicts and checks that they always end in one.
func (l *loader) verdicts(records []verdictRecord) []verdict {
	compiled := make([]verdict, len(records))
	for i := range records {
		r := &records[i]
		last := i == len(records)-1
		if last && given(r.When) {
			l.report(r.When.Problem(0, "the last verdict has a when, so there may be no answer at all", "remove it, or add a verdict without when"))
		} else if !last && !given(r.When) {
			l.report(l.table.Problem(r.At, "this verdict has no when, so those after it are never reached", "add a when, or move it to the end"))
		}
		v := &compiled[i]
		v.id, v.at = r.ID.String(), r.At
		v.when = l.expression(r.When, expression.YesNo, expression.ForVerdict)
		v.say.pieces = l.template(r.Say, expression.ForVerdict)
	}
	return compiled
}
