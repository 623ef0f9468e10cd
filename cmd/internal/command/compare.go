package command

import (
	"context"

	"github.com/spf13/pflag"

	"hotroom/advisor"
	"hotroom/advisor/comparison"
	"hotroom/advisor/sentence"
)

func compare() Verb {
	return Verb{
		Name:    "compare",
		Args:    "BOARD BOARD [BOARD ...]",
		Takes:   takesBoards,
		Summary: "two to six boards side by side",
		Help: "Answers one question for two to six boards and sets them side by side: what they " +
			"are built from and what they would do under the same conditions. Says of every two " +
			"whether their measured runs are alike enough to be compared directly, and carries " +
			"the difference in temperature from the first board to the parts that make it. With " +
			"--fail-on it exits with 4 when none of the boards is better than that verdict.",
		Example: `  hotroom compare slate basalt --chip v10 --room 32
  hotroom compare "Gorsebank Gneiss" quarry kiln --chip v10 --room hot --setup open`,
		Bind: bindCompare,
	}
}

func bindCompare(flags *pflag.FlagSet) Run {
	var said sentence.Spoken
	bindQuestion(flags, &said, "board")
	return func(ctx context.Context, s *Session, args []string) error {
		return s.compare(ctx, said, args)
	}
}

func (s *Session) compare(ctx context.Context, said sentence.Spoken, typed []string) error {
	snapshot, question, err := s.asked(said, "")
	if err != nil {
		return err
	}
	boards, err := s.boards(typed, question.Chip)
	if err != nil {
		return err
	}
	c, err := comparison.Compare(ctx, snapshot, question, boards)
	if err != nil {
		return err
	}
	question.Board = ""
	s.about(sentence.Asked{Question: question, Kind: sentence.Compare, Boards: boards}, boards[0])
	if err := s.show(c, func(st style) string { return st.comparison(snapshot.Base(), c) }); err != nil {
		return err
	}
	return s.failUnless(len(c.Rows), func(i int) string { return c.Rows[i].Advice.Verdict })
}

// boards finds the boards that are named, of those that take the chip.
func (s *Session) boards(typed []string, chip string) ([]string, error) {
	_, names, err := s.Snapshot()
	if err != nil {
		return nil, err
	}
	var ids, taken []string
	for _, name := range typed {
		read := names.Resolve(sentence.Spoken{Board: name}, advisor.Question{Chip: chip})
		if read.Ask != nil {
			return nil, read.Ask
		}
		if read.Question.Board != "" {
			ids = append(ids, read.Question.Board)
		}
		taken = append(taken, read.Taken...)
	}
	s.tell(taken, nil, nil)
	return ids, nil
}
