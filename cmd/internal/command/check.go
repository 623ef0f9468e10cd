package command

import (
	"context"

	"github.com/spf13/pflag"

	"hotroom/advisor"
	"hotroom/knowledge/document"
)

func check() Verb {
	return Verb{
		Name:    "check",
		Brief:   true,
		Summary: "list every mistake in knowledge and rules",
		Help: "Reads the knowledge and the rules and lists every mistake and every warning, " +
			"each with its place and how to mend it; a run that no other run explains is a " +
			"warning. Exits with 3 when there is a mistake; " +
			"warnings alone exit with 0.",
		Example: "  hotroom check\n  hotroom check --json",
		Bind: func(*pflag.FlagSet) Run {
			return func(_ context.Context, s *Session, args []string) error { return s.check(args) }
		},
	}
}

// problemRow is a mistake as --json gives it.
type problemRow struct {
	File    string `json:"file"`
	Line    int    `json:"line"`
	Column  int    `json:"column"`
	What    string `json:"what"`
	Mend    string `json:"mend"`
	Warning bool   `json:"warning"`
}

func (s *Session) check(args []string) error {
	if len(args) > 0 {
		return &usage{"check takes no arguments: name the folder with --knowledge and the rules with --rules"}
	}
	snapshot, problems, err := open(s.source())
	if err != nil && !problems.Fatal() {
		return err
	}
	if snapshot != nil {
		problems = append(problems, unexplainedRuns(snapshot)...)
		problems.Sort()
	}
	if err := s.printProblems(snapshot, problems); err != nil {
		return err
	}
	if problems.Fatal() {
		return &silent{exitMistakes}
	}
	return nil
}

// unexplainedRuns warns of the runs that no other run explains.
func unexplainedRuns(snapshot *advisor.Snapshot) document.Problems {
	var list document.Problems
	for _, o := range snapshot.Outliers() {
		list = append(list, document.Problem{
			At: o.Run.At, Warning: true,
			What: "the run " + o.Run.ID + " is " + deviation(o.Residual) + " than the board's other runs and all other boards say",
			Mend: "check its room, probe, firmware and power; it still counts until it is corrected or removed",
		})
	}
	return list
}

func (s *Session) printProblems(snapshot *advisor.Snapshot, problems document.Problems) error {
	if !s.JSON {
		st := s.style(s.OutTerminal, s.Plain)
		text := st.problems(problems)
		if !problems.Fatal() {
			text += st.sound(snapshot)
		}
		return s.Print(text)
	}
	rows := make([]problemRow, 0, len(problems))
	for _, p := range problems {
		rows = append(rows, problemRow{p.At.Filename, p.At.Line, p.At.Column, p.What, p.Mend, p.Warning})
	}
	text, err := inJSON(rows)
	if err != nil {
		return err
	}
	return s.Print(text)
}
