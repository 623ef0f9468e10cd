// Package command is the one table of verbs, for the command line and for the
// prompt: what each is called, takes, says in its help, and does. The output
// files alone turn results into text for people.
package command

import (
	"context"
	"slices"

	"github.com/spf13/pflag"
)

// Verb is one thing that the program does.
type Verb struct {
	Name    string
	Args    string // what follows the flags: "[SENTENCE]"
	Takes   string // what those words name, for completion: takesSentence, takesBoards or ""
	Summary string // one line
	Help    string // a few sentences
	Example string // commands that work when pasted
	Brief   bool   // it answers at once and changes nothing
	// Bind declares the verb's flags and returns what runs with their values.
	Bind func(flags *pflag.FlagSet) Run
}

// What the words after a verb may be.
const (
	takesSentence = "sentence" // names of any kind
	takesBoards   = "boards"   // names of boards
)

// TakesSentence reports whether a sentence may follow the verb.
func (v Verb) TakesSentence() bool { return v.Takes == takesSentence }

// TakesBoards reports whether names of boards follow the verb.
func (v Verb) TakesBoards() bool { return v.Takes == takesBoards }

// Run does a verb's work with the arguments left after the flags.
type Run func(ctx context.Context, s *Session, args []string) error

// Verbs is the table, in the order of the help.
func Verbs() []Verb {
	return []Verb{ask(), rank(), compare(), sweepOver(), roundOf(), backtest(), replyTo(), reduce(), recordRun(), serve(), publishGuide(), facts(), check()}
}

// Find gives the verb of a name.
func Find(name string) (Verb, bool) {
	verbs := Verbs()
	i := slices.IndexFunc(verbs, func(v Verb) bool { return v.Name == name })
	if i < 0 {
		return Verb{}, false
	}
	return verbs[i], true
}

// names marks a flag whose values are names out of the knowledge, so that
// line and prompt complete them: board, chip, enclosure, cooler, load, room,
// setup, over or format.
const names = "hotroom_names"

// FlagNames gives the kind of name that a verb's flag takes, or "".
func (v Verb) FlagNames(flag string) string {
	flags := pflag.NewFlagSet(v.Name, pflag.ContinueOnError)
	v.Bind(flags)
	if f := flags.Lookup(flag); f != nil {
		return kindOf(f)
	}
	return ""
}

// kindOf gives the kind of name that a flag takes, or "".
func kindOf(f *pflag.Flag) string {
	if kinds := f.Annotations[names]; len(kinds) > 0 {
		return kinds[0]
	}
	return ""
}

// Flags lists a verb's own flags.
func (v Verb) Flags() []string {
	flags := pflag.NewFlagSet(v.Name, pflag.ContinueOnError)
	v.Bind(flags)
	var list []string
	flags.VisitAll(func(f *pflag.Flag) { list = append(list, f.Name) })
	return list
}
