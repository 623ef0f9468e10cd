package prompt

import (
	"slices"
	"strings"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
	"hotroom/cmd/internal/command"
)

// word is something that only the prompt understands.
type word struct {
	name, args, summary string
	run                 func(l *loop, args []string) int
}

// words is the table of the prompt's own words, in the order of the help.
func words() []word {
	return []word{
		{"set", "NAME VALUE", "remember a value: set room 35", (*loop).set},
		{"show", "", "what is remembered", (*loop).show},
		{"forget", "[NAME]", "forget one value, or all", (*loop).forget},
		{"help", "[VERB]", "this, or how a verb is used", (*loop).help},
		{"quit", "", "leave (Ctrl-D does too)", (*loop).quit},
	}
}

func find(name string) (word, bool) {
	all := words()
	i := slices.IndexFunc(all, func(w word) bool { return w.name == name })
	if i < 0 {
		return word{}, false
	}
	return all[i], true
}

// set remembers a value for the questions that follow.
func (l *loop) set(args []string) int {
	var said sentence.Spoken
	if len(args) < 2 || said.Field(args[0]) == nil {
		l.s.Say("set takes a name and a value: %s", strings.Join(sentence.Settings(), ", "))
		return 2
	}
	*said.Field(args[0]) = strings.Join(args[1:], " ")
	_, names, err := l.s.Snapshot()
	if err != nil {
		return l.s.Report(err)
	}
	read := names.Resolve(said, l.s.Known)
	if read.Ask != nil {
		return l.s.Report(read.Ask)
	}
	l.s.Add(names, read.Question)
	return l.show(nil)
}

// show lists what is remembered.
func (l *loop) show([]string) int {
	settings := sentence.Describe(l.s.Known)
	if len(settings) == 0 {
		l.s.Say("nothing is remembered")
	}
	return l.s.Report(l.s.PrintSettings(settings))
}

// forget takes one value, or all, out of what is remembered.
func (l *loop) forget(args []string) int {
	if len(args) == 0 {
		l.s.Known = advisor.Question{}
		return l.show(nil)
	}
	for _, name := range args {
		if !slices.Contains(sentence.Settings(), name) {
			l.s.Say("nothing is called %q: forget takes %s", name, strings.Join(sentence.Settings(), ", "))
			return 2
		}
		l.s.Known = sentence.Without(l.s.Known, name)
	}
	return l.show(nil)
}

// help lists what can be typed, or explains one verb.
func (l *loop) help(args []string) int {
	if len(args) == 0 {
		return l.s.Report(l.s.PrintHelp(l.rows()))
	}
	if w, ok := find(args[0]); ok {
		return l.s.Report(l.s.PrintHelp([][2]string{{strings.TrimSpace(w.name + " " + w.args), w.summary}}))
	}
	if v, ok := command.Find(args[0]); ok {
		return l.s.Report(l.s.PrintVerb(v, ""))
	}
	l.s.Say("there is no verb %q: `help` lists them", args[0])
	return 2
}

func (l *loop) rows() [][2]string {
	rows := [][2]string{{"any sentence", "answer it: will the slate carry a v10 in a hot room? … and at 35?"}}
	for _, v := range command.Verbs() {
		rows = append(rows, [2]string{strings.TrimSpace(v.Name + " " + v.Args), v.Summary})
	}
	for _, w := range words() {
		rows = append(rows, [2]string{strings.TrimSpace(w.name + " " + w.args), w.summary})
	}
	return rows
}

func (l *loop) quit([]string) int {
	l.left = true
	return 0
}
