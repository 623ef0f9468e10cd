// Package prompt asks for one line after another and answers it: a sentence, a
// verb of the command line, or a setting to remember. Lines come from a
// terminal with completion and history, or from a pipe.
package prompt

import (
	"context"

	"hotroom/cmd/internal/command"
)

// Start runs the prompt on the session's streams until the input ends, and
// returns the exit code: that of the first line that failed when the lines are
// piped in, otherwise 0.
func Start(ctx context.Context, s *command.Session) int {
	if !s.InTerminal || !s.OutTerminal {
		exit := newLoop(s, newPipe(s.In)).run(ctx)
		if ctx.Err() != nil {
			s.Say("interrupted: the lines that follow were not read")
			exit = max(exit, 1)
		}
		return exit
	}
	l := newLoop(s, nil)
	reader, err := newTerminal(ctx, historyFile(s.Getenv), l.complete)
	if err != nil {
		s.Say("hotroom: the terminal cannot be used: %v", err)
		return 1
	}
	defer func() { _ = reader.Close() }() // the terminal is as it was, or gone
	l.reader = reader
	s.Strict = false // it is for scripts
	s.Pager = (&pager{out: s.Out, height: s.Rows, key: reader.key}).show
	l.welcome()
	l.run(ctx)
	return 0
}

// welcome says what can be typed.
func (l *loop) welcome() {
	from := "the embedded demo"
	if l.s.Knowledge != "" {
		from = l.s.Knowledge
	}
	l.s.Say("Ask in a sentence: a board, a chip, a room. Knowledge: %s.", from)
	l.s.Say("Then go on: and at 35? … why? … what would change that?")
	l.s.Say("`help` says what else can be typed, Tab completes names, Ctrl-D leaves.")
}
