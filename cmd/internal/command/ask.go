package command

import (
	"context"
	"errors"
	"strings"

	"github.com/spf13/pflag"

	"hotroom/advisor"
	"hotroom/advisor/comparison"
	"hotroom/advisor/ranking"
	"hotroom/advisor/sentence"
)

const askExample = `  hotroom ask --board slate --chip v10 --room 32
  hotroom ask "Will the Slate carry a V10 in a hot room?"
  hotroom ask "Quarry or Anvil for the ten core?"
  hotroom ask "cheapest board for a Q12 under 200 euro at 30 °C"
  hotroom ask "the 10-core on a Slate at 35 °C" --setup shipped --json`

func ask() Verb {
	return Verb{
		Name:    "ask",
		Brief:   true,
		Args:    "[SENTENCE]",
		Takes:   takesSentence,
		Summary: "answer one question",
		Help: "Answers one question, given by flags, by a sentence, or by both; flags win over " +
			"the sentence. Names may be ids, names or parts of names. A sentence may also ask " +
			"which board, compare boards, how hot it gets, or how far the room or the power can " +
			"go. What is not said takes the knowledge's defaults, which the answer states.",
		Example: askExample,
		Bind:    bindAsk,
	}
}

func bindAsk(flags *pflag.FlagSet) Run {
	var said sentence.Spoken
	bindQuestion(flags, &said)
	return func(ctx context.Context, s *Session, args []string) error {
		return s.Ask(ctx, said, strings.Join(args, " "))
	}
}

// Ask answers one question: what the flags say, over what the sentence says,
// over what is known. The question becomes what is known, also when something
// is still missing from it.
func (s *Session) Ask(ctx context.Context, said sentence.Spoken, text string) error {
	snapshot, asked, err := s.hear(said, text)
	if err != nil {
		return err
	}
	err = s.answer(ctx, snapshot, asked)
	if refusal, ok := errors.AsType[*advisor.Refusal](err); ok && refusal.Kind == advisor.Missing {
		s.remember(asked)
	}
	return err
}

// answer gives the kind of answer that is wanted.
func (s *Session) answer(ctx context.Context, snapshot *advisor.Snapshot, asked sentence.Asked) error {
	switch asked.Kind {
	case sentence.Which:
		return s.answerWhich(ctx, snapshot, asked)
	case sentence.Compare:
		return s.answerCompare(ctx, snapshot, asked)
	case sentence.Why:
		return s.Why(ctx)
	case sentence.Changes:
		return s.answerChanges(ctx)
	}
	advice, err := advisor.Advise(ctx, snapshot, asked.Question)
	if err != nil {
		return err
	}
	s.about(asked, asked.Question.Board)
	if err := s.show(advice, func(st style) string { return st.lead(asked, advice) + st.advice(advice) }); err != nil {
		return err
	}
	return s.failUnless(1, func(int) string { return advice.Verdict })
}

func (s *Session) answerWhich(ctx context.Context, snapshot *advisor.Snapshot, asked sentence.Asked) error {
	if asked.Question.Chip == "" {
		return advisor.NoChip(snapshot.Base())
	}
	question := asked.Question
	question.Board = ""
	r, err := ranking.Rank(ctx, snapshot, question, ranking.Options{Budget: asked.Budget})
	if err != nil {
		return err
	}
	asked.Question = question
	s.about(asked, firstRanked(r))
	if err := s.show(r, func(st style) string { return st.ranking(snapshot.Base(), r) }); err != nil {
		return err
	}
	return s.failUnless(len(r.Rows), func(i int) string { return r.Rows[i].Verdict })
}

func (s *Session) answerCompare(ctx context.Context, snapshot *advisor.Snapshot, asked sentence.Asked) error {
	question := asked.Question
	question.Board = ""
	if question.Chip == "" {
		return advisor.NoChip(snapshot.Base())
	}
	c, err := comparison.Compare(ctx, snapshot, question, asked.Boards)
	if err != nil {
		return err
	}
	asked.Question = question
	s.about(asked, asked.Boards[0])
	if err := s.show(c, func(st style) string { return st.comparison(snapshot.Base(), c) }); err != nil {
		return err
	}
	return s.failUnless(len(c.Rows), func(i int) string { return c.Rows[i].Advice.Verdict })
}

// answerChanges says what would change the last answer.
func (s *Session) answerChanges(ctx context.Context) error {
	snapshot, question, err := s.lastAnswer()
	if err != nil {
		return err
	}
	advice, err := advisor.Advise(ctx, snapshot, question)
	if err != nil {
		return err
	}
	s.sayWhose(question.Board)
	return s.show(advice.Changes, func(st style) string { return st.whatWouldChange(advice) })
}

// lastAnswer gives the question of the last answer.
func (s *Session) lastAnswer() (*advisor.Snapshot, advisor.Question, error) {
	snapshot, _, err := s.Snapshot()
	if err != nil {
		return nil, advisor.Question{}, err
	}
	if s.answered == nil {
		return nil, advisor.Question{}, &advisor.Refusal{
			Kind: advisor.Missing, What: "nothing was answered yet", Mend: "ask about a board and a chip first: slate with a v10 at 30 °C",
		}
	}
	return snapshot, *s.answered, nil
}
