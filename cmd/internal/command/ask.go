package command

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
)

const askExample = `  hotroom ask --board slate --chip v10 --room 32
  hotroom ask "Will the Slate carry a V10 in a hot room?"
  hotroom ask "the 10-core on a Slate at 35 °C" --setup shipped --json`

func ask() Verb {
	return Verb{
		Name:    "ask",
		Args:    "[SENTENCE]",
		Takes:   takesSentence,
		Summary: "answer one question",
		Help: "Answers one question, given by flags, by a sentence, or by both; flags win over " +
			"the sentence. Names may be ids, names or parts of names. What is not said takes " +
			"the knowledge's defaults, which the answer states.",
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
	snapshot, question, err := s.asked(said, text)
	if err != nil {
		return err
	}
	advice, err := advisor.Advise(ctx, snapshot, question)
	if refusal, ok := errors.AsType[*advisor.Refusal](err); err == nil || ok && refusal.Kind == advisor.Missing {
		s.Known = question
	}
	if err != nil {
		return err
	}
	if err := s.printAdvice(advice); err != nil {
		return err
	}
	if s.failed(advice.Verdict) {
		return &silent{exitVerdict}
	}
	return nil
}

// understand puts flags, sentence and what is known together, and tells the
// person what was made of them.
func (s *Session) understand(names *sentence.Names, said sentence.Spoken, text string) (advisor.Question, error) {
	flags := names.Resolve(said, s.Known)
	if flags.Ask != nil {
		return advisor.Question{}, flags.Ask
	}
	known, _ := sentence.Over(flags.Question, s.Known)
	read := names.Read(text, known)
	if read.Ask != nil && !sentence.Has(flags.Question, read.Ask.Field) {
		return advisor.Question{}, read.Ask
	}
	if text != "" && len(read.Taken) == 0 && read.Ask == nil {
		return advisor.Question{}, nothingRead(read)
	}
	question, against := sentence.Over(flags.Question, read.Question)
	s.tell(append(flags.Taken, read.Taken...), against, read.Unplaced)
	return s.Add(names, question), nil
}

// Add lays a new question over what is known.
func (s *Session) Add(names *sentence.Names, question advisor.Question) advisor.Question {
	question, _ = sentence.Over(question, s.fitting(names, question))
	return question
}

// fitting gives what is known, without the board or chip that the other half
// of a new question leaves no place for, and without another chip's clock.
func (s *Session) fitting(names *sentence.Names, question advisor.Question) advisor.Question {
	known := s.Known
	switch {
	case question.Board != "" && question.Chip == "" && known.Chip != "" && !names.Fit(question.Board, known.Chip):
		s.Say("the %s does not fit the %s and was forgotten", known.Chip, question.Board)
		known.Chip = ""
	case question.Chip != "" && question.Board == "" && known.Board != "" && !names.Fit(known.Board, question.Chip):
		s.Say("the %s does not take the %s and was forgotten", known.Board, question.Chip)
		known.Board = ""
	}
	if question.Chip != "" && question.Chip != s.Known.Chip && known.GHz != nil && question.GHz == nil {
		s.Say("the target of %s was the %s's and was forgotten", sentence.Value("ghz", *known.GHz), s.Known.Chip)
		known.GHz = nil
	}
	return known
}

func nothingRead(read sentence.Reading) error {
	if len(read.Unplaced) == 0 {
		return &advisor.Refusal{Kind: advisor.Missing, What: "the sentence names nothing to go by", Mend: askHint}
	}
	return &advisor.Refusal{
		Kind: advisor.Missing,
		What: "nothing could be made of " + strings.Join(read.Unplaced, ", "),
		Mend: askHint,
	}
}

const askHint = "name a board and a chip, and say how warm the room is"

// tell says what was understood, overruled and not placed.
func (s *Session) tell(taken, against, unplaced []string) {
	if len(taken) > 0 {
		s.Say("understood: %s", strings.Join(taken, "; "))
	}
	if len(against) > 0 {
		s.Say("flags win over the sentence: %s", strings.Join(against, "; "))
	}
	if len(unplaced) > 0 {
		s.Say("not placed, and not counted: %s", strings.Join(unplaced, ", "))
	}
}

// printAdvice prints an answer in the form that the flags ask for.
func (s *Session) printAdvice(advice advisor.Advice) error {
	if !s.JSON {
		return s.Print(s.style(s.OutTerminal, s.Plain).advice(advice))
	}
	text, err := inJSON(advice)
	if err != nil {
		return fmt.Errorf("the answer cannot be written as JSON: %w", err)
	}
	return s.Print(text)
}
