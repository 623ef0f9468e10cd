package web

import (
	"bytes"
	"cmp"
	"context"
	"net/http"
	"strconv"

	"hotroom/advisor"
	"hotroom/advisor/comparison"
	"hotroom/advisor/ranking"
	"hotroom/advisor/sentence"
	"hotroom/advisor/sweep"
	"hotroom/cmd/internal/page"
	"hotroom/knowledge"
)

func readQuestion(a *asked) advisor.Question { return a.question() }

func advise(ctx context.Context, s *state, q advisor.Question) (advisor.Advice, error) {
	return advisor.Advise(ctx, s.snapshot, q)
}

func rank(ctx context.Context, s *state, q rankingQuestion) (ranking.Ranking, error) {
	return ranking.Rank(ctx, s.snapshot, q.Question, q.Options)
}

func compare(ctx context.Context, s *state, q comparisonQuestion) (comparison.Comparison, error) {
	return comparison.Compare(ctx, s.snapshot, q.Question, q.Boards)
}

func sweepOver(ctx context.Context, s *state, q sweepQuestion) (sweep.Sweep, error) {
	return sweep.Over(ctx, s.snapshot, q.Question, q.Range)
}

// batch is the questions of one body; single says that it was no array.
type batch struct {
	asks   []asks
	single bool
}

// readBatch reads one question, or an array of them.
func readBatch(_ *state, body []byte) (batch, error) {
	o := newObjects(body, questionKeys())
	if trimmed := bytes.TrimLeft(body, " \t\r\n"); len(trimmed) == 0 || trimmed[0] != '[' {
		members, err := o.one()
		one := newAsks(members, err)
		return batch{[]asks{one}, true}, one.err
	}
	var b batch
	err := o.many(func(members []member, err error) { b.asks = append(b.asks, newAsks(members, err)) })
	return b, err
}

// answers are the answers to a body: one, or an array in the order of the
// questions, in which a problem stands in its question's place.
type answers struct {
	list   []any
	single bool
}

// adviseAll finds what names mean here too, since that takes its time.
func adviseAll(ctx context.Context, s *state, b batch) (answers, error) {
	out := answers{list: make([]any, 0, len(b.asks)), single: b.single}
	for _, one := range b.asks {
		advice, err := one.answer(ctx, s)
		switch {
		case err == nil:
			out.list = append(out.list, advice)
		case b.single:
			return out, err
		case ctx.Err() != nil:
			return out, ctx.Err()
		default:
			out.list = append(out.list, faultOf(err).problem())
		}
	}
	return out, nil
}

func (one asks) answer(ctx context.Context, s *state) (advisor.Advice, error) {
	if one.err != nil || ctx.Err() != nil {
		return advisor.Advice{}, cmp.Or(one.err, ctx.Err())
	}
	question, err := s.resolve(one.said)
	if err != nil {
		return advisor.Advice{}, err
	}
	return advisor.Advise(ctx, s.snapshot, question)
}

// Sentence is a question in plain words.
type Sentence struct {
	Text string `json:"text"`
}

// Understood says what was made of a sentence.
type Understood struct {
	Question advisor.Question `json:"question"` // what the sentence itself says
	Taken    []string         `json:"taken"`    // what each word was taken for
	Unplaced []string         `json:"unplaced"` // words that nothing could be made of
}

// Answered is the answer to a sentence.
type Answered struct {
	Understood Understood     `json:"understood"`
	Advice     advisor.Advice `json:"advice"`
}

// notUnderstood is a sentence that gives no question that can be answered.
type notUnderstood struct {
	fault      *fault
	understood Understood
}

func (n *notUnderstood) Error() string { return n.fault.Error() }
func (n *notUnderstood) Unwrap() error { return n.fault }

func readSentence(_ *state, body []byte) (string, error) {
	o := newObjects(body, []string{"text"})
	members, err := o.one()
	if err != nil || len(members) == 0 {
		return "", err
	}
	text := members[0] // the only key allowed
	if text.number {
		return "", &fault{status: http.StatusBadRequest, kind: wrongType, field: "text", what: "\"text\" holds a number (" + text.at + ")", mend: "give a text"}
	}
	return text.text, nil
}

// answerSentence reads a sentence and answers it. Whatever keeps it from being
// answered is the sentence's own fault: 422, with what was understood.
func answerSentence(ctx context.Context, s *state, text string) (Answered, error) {
	r := s.names.Read(text, advisor.Question{})
	u := Understood{Question: r.Question, Taken: append([]string{}, r.Taken...), Unplaced: append([]string{}, r.Unplaced...)}
	if r.Ask != nil {
		return Answered{}, refused(r.Ask, u)
	}
	if text == "" || len(r.Taken) == 0 {
		return Answered{}, refused(nothingRead(r), u)
	}
	if err := ofSeveral(s.snapshot.Base(), r); err != nil {
		return Answered{}, refused(err, u)
	}
	advice, err := advisor.Advise(ctx, s.snapshot, r.Question)
	if err != nil {
		return Answered{}, refused(err, u)
	}
	return Answered{u, advice}, nil
}

func refused(err error, u Understood) error {
	f := *faultOf(err)
	if f.status == http.StatusNotFound {
		f.status = http.StatusUnprocessableEntity
	}
	if f.status != http.StatusUnprocessableEntity {
		return err
	}
	return &notUnderstood{&f, u}
}

// ofSeveral refuses a sentence that asks for several boards at once, and says
// which path answers it; without a chip none does.
func ofSeveral(base *knowledge.Base, r sentence.Reading) error {
	if r.Question.Board != "" {
		return nil
	}
	what, path, parameters := "", "", page.Query(r.Question)
	switch r.Kind {
	case sentence.Which:
		what, path = "asks which board", "/v1/ranking"
		if r.Budget != nil {
			parameters.Set("budget", strconv.FormatFloat(*r.Budget, 'f', -1, 64))
		}
	case sentence.Compare:
		what, path = "compares boards", "/v1/comparison"
		for _, id := range r.Boards {
			parameters.Add("board", id)
		}
	default:
		return nil
	}
	if r.Question.Chip == "" {
		return advisor.NoChip(base)
	}
	return &fault{
		status: http.StatusUnprocessableEntity, kind: string(advisor.Missing), field: "board",
		what: "the sentence " + what + ", and here one is answered for", mend: "name one, or GET " + path + "?" + parameters.Encode(),
	}
}

func nothingRead(r sentence.Reading) error {
	return &advisor.Refusal{
		Kind: advisor.Missing, Field: "board", What: "the sentence names nothing that is known here",
		Mend: "name a board and a chip, and say how warm the room is", Candidates: nil,
	}
}
