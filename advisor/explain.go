package advisor

import (
	"context"

	"hotroom/rules"
	"hotroom/rules/facts"
)

// Explanation is an answer with everything that led to it: every fact that the
// rules saw, and every rule, fired or not.
type Explanation struct {
	Advice Advice
	Facts  facts.Facts
	Rules  []rules.Explained // in the order of the book
}

// Explain answers a question like AdviseBriefly and keeps what led to it. The
// error is a *Refusal where the question cannot be answered as asked, or the
// context's error.
func Explain(ctx context.Context, s *Snapshot, q Question) (Explanation, error) {
	if err := ctx.Err(); err != nil {
		return Explanation{}, err
	}
	a, advice, err := s.brief(q)
	if err != nil {
		return Explanation{}, err
	}
	known := a.gather()
	return Explanation{Advice: advice, Facts: known, Rules: s.book.Explain(known)}, nil
}
