package rules

import (
	"fmt"
	"slices"

	"hotroom/rules/expression"
)

// ranks orders the verdicts, worst first.
var ranks = [...]string{No, Unknown, WithCare, Yes}

func rank(id string) int { return slices.Index(ranks[:], id) }

// decide picks a verdict, none better than best, and writes it.
func (b *Book) decide(j *Judgement, e *expression.Evaluator, best int) {
	b.speak(j, e, b.choose(j, e, best))
}

// choose picks the first verdict that holds, but none better than best.
//
// A verdict that cannot be judged, because a fact is unknown or because it
// breaks, is passed over. Had the fact been known it might have been the
// answer, so a later verdict that is better than one passed over becomes
// unknown. A passed-over yes therefore still lets a with-care stand.
func (b *Book) choose(j *Judgement, e *expression.Evaluator, best int) *verdict {
	chosen, passed := b.first(j, e)
	allowed := rank(chosen.id)
	if allowed > passed {
		allowed = rank(Unknown)
	}
	allowed = min(allowed, best)
	if allowed != rank(chosen.id) {
		chosen = b.wording(allowed, e)
	}
	return chosen
}

// first gives the first verdict that holds and the rank of the worst one
// passed over.
func (b *Book) first(j *Judgement, e *expression.Evaluator) (v *verdict, passed int) {
	passed = rank(Yes)
	for i := range b.verdicts {
		v = &b.verdicts[i]
		if unknown := v.unknown(e); unknown != nil {
			j.Unjudged = append(j.Unjudged, Unjudged{v.name(), unknown})
			passed = min(passed, rank(v.id))
			continue
		}
		holds, err := v.holds(e)
		if err != nil {
			j.Faults = append(j.Faults, Fault{v.name(), v.at, fmt.Sprintf("when: %v", err)})
			passed = min(passed, rank(v.id), rank(Unknown))
			continue
		}
		if holds {
			break
		}
	}
	return v, passed
}

func (v *verdict) name() string { return "verdict " + v.id }

func (v *verdict) unknown(e *expression.Evaluator) []string {
	if v.when == nil {
		return nil
	}
	return e.Unknown(v.when)
}

func (v *verdict) holds(e *expression.Evaluator) (bool, error) {
	if v.when == nil {
		return true, nil
	}
	return e.YesNo(v.when)
}

// wording finds what to say for a verdict that was not the first to hold: of
// those with its id the first that holds, else the last, else a sentence of our
// own where the catalogue has none.
func (b *Book) wording(at int, e *expression.Evaluator) *verdict {
	var last *verdict
	for i := range b.verdicts {
		v := &b.verdicts[i]
		if v.id != ranks[at] {
			continue
		}
		last = v
		if v.unknown(e) == nil {
			if holds, err := v.holds(e); holds && err == nil {
				return v
			}
		}
	}
	if last == nil {
		return ownWords(ranks[at])
	}
	return last
}

// ownWords gives a verdict that the catalogue has no words for.
func ownWords(id string) *verdict {
	words := map[string]string{
		No:       "No: a rule forbids it; the findings say which.",
		Unknown:  "Unknown: too little is known to answer; the cautions say what is missing.",
		WithCare: "With care: something that speaks against it could not be judged; the cautions say what.",
	}
	return &verdict{id: id, say: say{pieces: template{{plain: words[id]}}}}
}

// speak writes the verdict. One whose own text breaks is unknown at best.
func (b *Book) speak(j *Judgement, e *expression.Evaluator, v *verdict) {
	text, err := v.say.fill(e)
	if err != nil {
		j.Faults = append(j.Faults, Fault{v.name(), v.at, fmt.Sprintf("say: %v", err)})
		if rank(v.id) > rank(Unknown) {
			v = b.wording(rank(Unknown), e)
			text, _ = v.say.fill(e)
		}
	}
	j.Verdict, j.Say = v.id, text
}
