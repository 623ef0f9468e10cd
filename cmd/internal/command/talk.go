package command

import (
	"strings"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
)

// Memory is what a conversation remembers.
type Memory struct {
	Known advisor.Question
	told  sentence.Asked // the boards, the kind of answer and the budget; its question is not used
}

// Memory gives what is remembered, to be restored later.
func (s *Session) Memory() Memory { return Memory{s.Known, s.told} }

// Restore puts back what was remembered.
func (s *Session) Restore(m Memory) { s.Known, s.told = m.Known, m.told }

// Remembered lists what is remembered, in words.
func (s *Session) Remembered() []sentence.Setting {
	var list []sentence.Setting
	if len(s.told.Boards) > 1 && s.Known.Board == "" {
		list = append(list, sentence.Setting{Name: "boards", Value: strings.Join(s.told.Boards, ", ")})
	}
	list = append(list, sentence.Describe(s.Known)...)
	if s.told.Budget != nil && s.told.Kind == sentence.Which {
		list = append(list, sentence.Setting{Name: "budget", Value: plainNumber(*s.told.Budget)})
	}
	return list
}

// context is the conversation so far.
func (s *Session) context() sentence.Asked {
	asked := s.told
	asked.Question = s.Known
	return asked
}

// remember keeps what was asked for the sentences that follow. Why an answer
// came out so is asked about the answer, and is no kind to go on with.
func (s *Session) remember(asked sentence.Asked) {
	if asked.Kind == sentence.Why || asked.Kind == sentence.Changes {
		asked.Kind, asked.Over = s.told.Kind, s.told.Over
	}
	s.Known, s.told = asked.Question, asked
}

// about keeps what a verb was asked, and that its answer was about a board: for
// "and at 35?" and for why.
func (s *Session) about(asked sentence.Asked, board string) {
	s.remember(asked)
	s.answered = nil
	if board != "" {
		of := asked.Question
		of.Board = board
		s.answered = &of
	}
}

// understand puts flags, sentence and what is known together, and tells the
// person what was made of them.
func (s *Session) understand(names *sentence.Names, said sentence.Spoken, text string) (sentence.Asked, error) {
	flags := names.Resolve(said, s.Known)
	if flags.Ask != nil {
		return sentence.Asked{}, flags.Ask
	}
	before := s.context()
	before.Question, _ = sentence.Over(flags.Question, s.Known)
	read := names.Follow(text, before)
	now := read.Asked
	var against []string
	now.Question, against = sentence.Over(flags.Question, read.Question)
	if flags.Question.Board != "" {
		now.Boards = nil
	}
	if read.Ask != nil && !sentence.Has(flags.Question, read.Ask.Field) {
		return sentence.Asked{}, s.askBack(names, read, now)
	}
	if text != "" && len(read.Taken) == 0 && read.Ask == nil && now.Kind == "" {
		return sentence.Asked{}, nothingRead(read)
	}
	s.tell(append(flags.Taken, read.Taken...), against, read.Unplaced)
	asked, notes := names.Carry(s.context(), now)
	s.sayAll(notes)
	s.tellKept(now, asked)
	return asked, nil
}

// askBack returns the question that stands open. In a conversation the rest of
// the sentence is kept, so that one word answers it; what the open question is
// about is forgotten, so that nothing old takes its place.
func (s *Session) askBack(names *sentence.Names, read sentence.Reading, now sentence.Asked) error {
	s.tell(read.Taken, nil, read.Unplaced)
	if !s.Talking {
		return read.Ask
	}
	asked, notes := names.Carry(s.context(), now)
	asked.Question = sentence.Without(asked.Question, read.Ask.Field)
	if read.Ask.Field == "board" {
		asked.Boards = nil
	}
	s.remember(asked)
	s.sayAll(notes)
	return read.Ask
}

// Add lays a new question over what is remembered.
func (s *Session) Add(names *sentence.Names, question advisor.Question) {
	asked, notes := names.Carry(s.context(), sentence.Asked{Question: question})
	s.sayAll(notes)
	s.remember(asked)
}

func (s *Session) sayAll(notes []string) {
	for _, note := range notes {
		s.Say("%s", note)
	}
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

// tellKept says what still holds from the lines before.
func (s *Session) tellKept(now, asked sentence.Asked) {
	if now.Kind == sentence.Why || now.Kind == sentence.Changes {
		return
	}
	var kept []string
	if len(asked.Boards) > 1 && len(now.Boards) == 0 {
		kept = append(kept, "boards "+strings.Join(asked.Boards, ", "))
	}
	for _, setting := range sentence.Describe(asked.Question) {
		if !sentence.Has(now.Question, setting.Name) {
			kept = append(kept, setting.Name+" "+setting.Value)
		}
	}
	if asked.Budget != nil && now.Budget == nil {
		kept = append(kept, "the budget")
	}
	if len(kept) > 0 {
		s.Say("kept from before: %s", strings.Join(kept, "; "))
	}
}
