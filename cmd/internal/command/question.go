package command

import (
	"slices"

	"github.com/spf13/pflag"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
)

// bindQuestion declares the flags of a question, without some of them.
func bindQuestion(flags *pflag.FlagSet, said *sentence.Spoken, without ...string) {
	for _, f := range []struct{ name, names, help string }{
		{"board", "board", "`NAME` of the board"},
		{"chip", "chip", "`NAME` of the chip"},
		{"room", "room", "`TEMPERATURE` of the room: 32, 32C, 90F, or a word such as hot"},
		{"enclosure", "enclosure", "`NAME` of what the board stands in"},
		{"cooler", "cooler", "`NAME` of the chip's cooler"},
		{"load", "load", "`NAME` of the load"},
		{"setup", "setup", "power `SETUP`: rated, shipped, open or custom"},
		{"power", "", "power cap of your own, `W`"},
		{"current", "", "current cap of your own, `A`"},
		{"ghz", "", "all-core clock that is wanted, `GHz`"},
		{"graphics", "", "heat of the graphics card, `W`"},
		{"altitude", "", "`HEIGHT` above the sea: 1600, 1600m, 5200ft"},
	} {
		if !slices.Contains(without, f.name) {
			flags.StringVar(said.Field(f.name), f.name, "", f.help)
			completes(flags, f.name, f.names)
		}
	}
}

// completes says which names complete a flag.
func completes(flags *pflag.FlagSet, flag, kind string) {
	if kind != "" {
		_ = flags.SetAnnotation(flag, names, []string{kind}) // fails only for a flag that is not there
	}
}

// hear puts a question together out of flags, a sentence and what is known.
func (s *Session) hear(said sentence.Spoken, text string) (*advisor.Snapshot, sentence.Asked, error) {
	snapshot, names, err := s.Snapshot()
	if err != nil {
		return nil, sentence.Asked{}, err
	}
	asked, err := s.understand(names, said, text)
	return snapshot, asked, err
}

// asked is hear for verbs that say themselves which kind of answer they give.
func (s *Session) asked(said sentence.Spoken, text string) (*advisor.Snapshot, advisor.Question, error) {
	snapshot, asked, err := s.hear(said, text)
	return snapshot, asked.Question, err
}
