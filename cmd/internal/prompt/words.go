package prompt

import (
	"context"
	"slices"
	"strings"

	"hotroom/advisor/sentence"
	"hotroom/cmd/internal/command"
)

// word is something that only the prompt understands.
type word struct {
	name, args, summary string
	// example is a line that works when it is typed after an answer.
	example string
	// own reports whether the words after it are meant for it; otherwise the
	// line is a sentence that begins with the same word. nil: always.
	own func(l *loop, args []string) bool
	run func(l *loop, ctx context.Context, args []string) int
}

// words is the table of the prompt's own words, in the order of the help.
func words() []word {
	return []word{
		{"why", "", "every rule and every fact behind the last answer", "why", noArgs, (*loop).why},
		{"try", "EXPRESSION", "work out a rule expression on the last answer's facts", "try margin.kept_c < 10", isExpression, (*loop).try},
		{"set", "NAME VALUE", "remember a value for what follows", "set room 35", isSetting, (*loop).set},
		{"show", "", "what is remembered", "show", noArgs, (*loop).show},
		{"forget", "[NAME]", "forget one value, or all", "forget room", areSettings, (*loop).forget},
		{"undo", "", "take back the last change to what is remembered", "undo", noArgs, (*loop).undo},
		{"help", "[VERB]", "this, or how a verb is used", "help try", oneArg, (*loop).help},
		{"quit", "", "leave (Ctrl-D does too)", "quit", noArgs, (*loop).quit},
	}
}

// find gives the word of the prompt that a line begins with, where the rest of
// the line is meant for it.
func (l *loop) find(words []string) (word, bool) {
	w, ok := named(words[0])
	if !ok || w.own != nil && !w.own(l, words[1:]) {
		return word{}, false
	}
	return w, true
}

func named(name string) (word, bool) {
	all := words()
	i := slices.IndexFunc(all, func(w word) bool { return w.name == name })
	if i < 0 {
		return word{}, false
	}
	return all[i], true
}

func noArgs(_ *loop, args []string) bool { return len(args) == 0 }

func oneArg(_ *loop, args []string) bool { return len(args) <= 1 }

// isSetting: "set room 35" and its mistakes, but not a sentence about a set.
func isSetting(l *loop, args []string) bool {
	return len(args) < 3 || new(sentence.Spoken).Field(args[0]) != nil || !l.saysSomething("set", args)
}

func areSettings(l *loop, args []string) bool {
	return len(args) < 2 || slices.Contains(sentence.Settings(), args[0]) || !l.saysSomething("forget", args)
}

// isExpression: what compiles, and what is no sentence: "try the kiln" is one.
func isExpression(l *loop, args []string) bool {
	return l.s.IsExpression(strings.Join(args, " ")) || !l.saysSomething("try", args)
}

// saysSomething reports whether a line reads as a sentence about a board, a
// chip or a room.
func (l *loop) saysSomething(first string, args []string) bool {
	_, names, err := l.s.Snapshot()
	if err != nil {
		return false
	}
	read := names.Read(first+" "+strings.Join(args, " "), l.s.Known)
	return len(read.Taken) > 0
}

func (l *loop) why(ctx context.Context, _ []string) int { return l.s.Report(l.s.Why(ctx)) }

func (l *loop) try(ctx context.Context, args []string) int {
	if len(args) == 0 {
		l.s.Say("try takes a rule expression: try margin.kept_c < 10; `facts` lists the names")
		return 2
	}
	return l.s.Report(l.s.Try(ctx, strings.Join(args, " ")))
}

// set remembers a value for the questions that follow.
func (l *loop) set(ctx context.Context, args []string) int {
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
	return l.show(ctx, nil)
}

// show lists what is remembered.
func (l *loop) show(context.Context, []string) int {
	settings := l.s.Remembered()
	if len(settings) == 0 {
		l.s.Say("nothing is remembered")
	}
	return l.s.Report(l.s.PrintSettings(settings))
}

// forget takes one value, or all, out of what is remembered.
func (l *loop) forget(ctx context.Context, args []string) int {
	if len(args) == 0 {
		l.s.Restore(command.Memory{})
		return l.show(ctx, nil)
	}
	for _, name := range args {
		if !slices.Contains(sentence.Settings(), name) {
			l.s.Say("nothing is called %q: forget takes %s", name, strings.Join(sentence.Settings(), ", "))
			return 2
		}
		l.s.Known = sentence.Without(l.s.Known, name)
	}
	return l.show(ctx, nil)
}

// undo goes back to what was remembered before the last change.
func (l *loop) undo(ctx context.Context, _ []string) int {
	last := len(l.undone) - 1
	if last < 0 {
		l.s.Say("there is nothing to take back")
		return 0
	}
	l.s.Restore(l.undone[last])
	l.undone = l.undone[:last]
	return l.show(ctx, nil)
}

// help lists what can be typed, or explains one verb.
func (l *loop) help(_ context.Context, args []string) int {
	if len(args) == 0 {
		return l.s.Report(l.s.PrintHelp(l.rows()))
	}
	if w, ok := named(args[0]); ok {
		return l.s.Report(l.s.PrintHelp([][2]string{{strings.TrimSpace(w.name + " " + w.args), w.summary}, {"to try", w.example}}))
	}
	if v, ok := command.Find(args[0]); ok {
		return l.s.Report(l.s.PrintVerb(v, ""))
	}
	l.s.Say("there is no verb %q: `help` lists them", args[0])
	return 2
}

func (l *loop) rows() [][2]string {
	rows := [][2]string{
		{"any sentence", "answer it: will the slate carry a v10 in a hot room?"},
		{"a choice", "which board for a q12 under 200 euro? … quarry or anvil for the v10?"},
		{"a figure", "how hot does the fen get with a q16? … how far can I push the power?"},
		{"a follow-up", "and at 35? … what about the kiln? … why? … what would change that?"},
	}
	for _, v := range command.Verbs() {
		rows = append(rows, [2]string{strings.TrimSpace(v.Name + " " + v.Args), v.Summary})
	}
	for _, w := range words() {
		rows = append(rows, [2]string{strings.TrimSpace(w.name + " " + w.args), w.summary})
	}
	return rows
}

func (l *loop) quit(context.Context, []string) int {
	l.left = true
	return 0
}
