package command

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"hotroom/advisor"
	"hotroom/advisor/round"
	"hotroom/advisor/sentence"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge"
)

func roundOf() Verb {
	return Verb{
		Name:    "round",
		Summary: "a round of testing as a reviewer's table and chart",
		Help: "Lays out the measured runs with a chip, the coolest first. Marks every run that is " +
			"not like for like with the round's reference, and says why; crashed and unsettled " +
			"runs stay in. Nothing is estimated here.",
		Example: `  hotroom round --chip v10 --setup shipped
  hotroom round --chip q12 --from 2025-03-01 --to 2025-03-31 --format markdown
  hotroom round --chip v10 --setup open --chart round.png`,
		Bind: bindRound,
	}
}

// The formats of a round.
const (
	asText     = "text"
	asMarkdown = "markdown"
	asCSV      = "csv"
)

func bindRound(flags *pflag.FlagSet) Run {
	var said sentence.Spoken
	var which round.Which
	var format string
	bindQuestion(flags, &said, "board", "room", "enclosure", "cooler", "load", "power", "current", "ghz", "graphics", "altitude")
	flags.StringVar(&which.From, "from", "", "first `DATE`, as 2025-02-03")
	flags.StringVar(&which.To, "to", "", "last `DATE`")
	flags.StringVar(&format, "format", asText, "table as `text`, markdown or csv")
	completes(flags, "format", "format")
	file := bindChart(flags)
	return func(_ context.Context, s *Session, args []string) error {
		if len(args) > 0 {
			return &usage{fmt.Sprintf("round takes flags only, not %q: `hotroom round --chip v10`", strings.Join(args, " "))}
		}
		if err := checkRound(which, format, *file); err != nil {
			return err
		}
		return s.round(said, which, format, *file)
	}
}

func checkRound(which round.Which, format, file string) error {
	if !slices.Contains([]string{asText, asMarkdown, asCSV}, format) {
		return &usage{fmt.Sprintf("there is no format %q: give text, markdown or csv", format)}
	}
	for _, d := range []struct{ flag, date string }{{"from", which.From}, {"to", which.To}} {
		if _, err := time.Parse(time.DateOnly, d.date); d.date != "" && err != nil {
			return &usage{fmt.Sprintf("--%s %q is no date: write it as 2025-02-03", d.flag, d.date)}
		}
	}
	if which.From != "" && which.To != "" && which.From > which.To {
		return &usage{fmt.Sprintf("--from %s is after --to %s: give the earlier date first", which.From, which.To)}
	}
	return checkChart(file)
}

func (s *Session) round(said sentence.Spoken, which round.Which, format, file string) error {
	snapshot, names, err := s.Snapshot()
	if err != nil {
		return err
	}
	read := names.Resolve(said, advisor.Question{})
	if read.Ask != nil {
		return read.Ask
	}
	s.tell(read.Taken, nil, nil)
	which.Chip, which.Setup = read.Question.Chip, read.Question.Setup
	if which.Chip == "" {
		which.Chip = s.Known.Chip
	}
	if which.Chip == "" {
		return &advisor.Refusal{Kind: advisor.Missing, Field: "chip", What: "the round names no chip", Mend: "name one with --chip", Candidates: tested(snapshot.Base())}
	}
	r, err := round.Of(snapshot.Base(), which)
	if err != nil {
		return err
	}
	if err := s.writeChart(file, picture.Round(snapshot.Base(), r)); err != nil {
		return err
	}
	return s.showRound(snapshot.Base(), r, format)
}

func (s *Session) showRound(base *knowledge.Base, r round.Round, format string) error {
	switch {
	case s.JSON || format == asText:
		return s.show(r, func(st style) string { return st.round(base, r) })
	case format == asCSV:
		text, err := roundCSV(r)
		if err != nil {
			return err
		}
		return s.Print(text)
	}
	return s.Print(roundMarkdown(base, r))
}

// tested lists the chips of which there are runs.
func tested(base *knowledge.Base) []string {
	var list []string
	for i := range base.Chips {
		if slices.ContainsFunc(base.Runs, func(r knowledge.Run) bool { return r.Chip == base.Chips[i].ID }) {
			list = append(list, base.Chips[i].ID)
		}
	}
	return list
}
