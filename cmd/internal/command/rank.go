package command

import (
	"context"
	"strings"

	"github.com/spf13/pflag"

	"hotroom/advisor/ranking"
	"hotroom/advisor/sentence"
)

func rank() Verb {
	return Verb{
		Name:    "rank",
		Args:    "[SENTENCE]",
		Takes:   takesSentence,
		Summary: "every board that takes a chip, best first",
		Help: "Answers one question for every board with the chip's socket and puts them in " +
			"order: by verdict, score, kept margin and price. Boards that cannot be told apart " +
			"share a place (\"2=\"). Marks what the cheapest adequate board is, and which dearer " +
			"boards a cheaper one beats in every respect. With --fail-on it exits with 4 when no " +
			"board that is shown is better than that verdict.",
		Example: `  hotroom rank --chip v10 --room hot
  hotroom rank "which board for the V10 in a 33 °C room?" --budget 160
  hotroom rank --chip q12 --room 28 --enclosure quiet-tower --only yes,with-care --top 3`,
		Bind: bindRank,
	}
}

func bindRank(flags *pflag.FlagSet) Run {
	var said sentence.Spoken
	var options ranking.Options
	bindQuestion(flags, &said, "board")
	budget := flags.Float64("budget", 0, "show no board above this `PRICE`")
	flags.IntVar(&options.Top, "top", 0, "show the best `N` only")
	flags.StringSliceVar(&options.Only, "only", nil, "show these `VERDICTS` only: yes,with-care,unknown,no")
	return func(ctx context.Context, s *Session, args []string) error {
		if flags.Changed("budget") {
			options.Budget = budget
		}
		return s.rank(ctx, said, strings.Join(args, " "), options)
	}
}

func (s *Session) rank(ctx context.Context, said sentence.Spoken, text string, options ranking.Options) error {
	known := s.Known.Board
	snapshot, asked, err := s.hear(said, text)
	if err != nil {
		return err
	}
	question := asked.Question
	if options.Budget == nil {
		options.Budget = asked.Budget
	}
	if question.Board != "" && question.Board != known {
		s.Say("every board that takes the chip is ranked, not the %s alone", question.Board)
	}
	everyBoard := question
	everyBoard.Board = ""
	r, err := ranking.Rank(ctx, snapshot, everyBoard, options)
	if err != nil {
		return err
	}
	s.about(sentence.Asked{Question: everyBoard, Kind: sentence.Which, Budget: options.Budget}, firstRanked(r))
	if err := s.show(r, func(st style) string { return st.ranking(snapshot.Base(), r) }); err != nil {
		return err
	}
	return s.failUnless(len(r.Rows), func(i int) string { return r.Rows[i].Verdict })
}

// firstRanked gives the best board of a ranking, or "".
func firstRanked(r ranking.Ranking) string {
	if len(r.Rows) == 0 {
		return ""
	}
	return r.Rows[0].Board
}

// show prints a result as JSON or for people, as the flags ask.
func (s *Session) show(result any, forPeople func(style) string) error {
	if !s.JSON {
		return s.Print(forPeople(s.style(s.OutTerminal, s.Plain)))
	}
	text, err := inJSON(result)
	if err != nil {
		return err
	}
	return s.Print(text)
}

// failUnless meets --fail-on unless one of several verdicts is better than it
// says.
func (s *Session) failUnless(rows int, verdict func(int) string) error {
	if s.FailOn == "" {
		return nil
	}
	for i := range rows {
		if !s.failed(verdict(i)) {
			return nil
		}
	}
	return &silent{exitVerdict}
}
