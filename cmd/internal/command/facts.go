package command

import (
	"context"
	"fmt"
	"strings"

	"github.com/spf13/pflag"

	vocabulary "hotroom/rules/facts"
)

func facts() Verb {
	return Verb{
		Name:    "facts",
		Brief:   true,
		Args:    "[WORD]",
		Summary: "list what rules can talk about",
		Help: "Lists every fact that a rule may use: its name, type, unit and meaning. " +
			"With a word, only the facts with that word in their name.",
		Example: "  hotroom facts\n  hotroom facts margin",
		Bind: func(*pflag.FlagSet) Run {
			return func(_ context.Context, s *Session, args []string) error { return s.printFacts(args) }
		},
	}
}

// factRow is a fact as --json gives it.
type factRow struct {
	Name    string `json:"name"`
	Type    string `json:"type"`
	Unit    string `json:"unit"`
	Meaning string `json:"meaning"`
}

func (s *Session) printFacts(words []string) error {
	if len(words) > 1 {
		return &usage{"facts takes one word at most: `hotroom facts margin`"}
	}
	word := strings.Join(words, "")
	rows := []factRow{}
	for _, f := range vocabulary.List() {
		if strings.Contains(f.Name, word) {
			rows = append(rows, factRow{f.Name, string(f.Type), f.Unit, f.Meaning})
		}
	}
	if len(rows) == 0 {
		return fmt.Errorf("no fact has %q in its name: `hotroom facts` lists them all", word)
	}
	if s.JSON {
		text, err := inJSON(rows)
		if err != nil {
			return err
		}
		return s.Print(text)
	}
	return s.Print(s.style(s.OutTerminal, s.Plain).facts(rows))
}
