package command

import (
	"context"
	"errors"
	"fmt"
	"io"
	"strings"

	"hotroom/advisor"
	"hotroom/knowledge/document"
)

// The exit codes.
const (
	exitAnswered = 0 // whatever the verdict
	exitFailed   = 1 // could not answer
	exitUsage    = 2 // wrong usage, or a value that no knowledge could make right
	exitMistakes = 3 // check found mistakes
	exitVerdict  = 4 // the verdict met --fail-on
)

// usage is a command that is typed wrongly.
type usage struct{ what string }

func (u *usage) Error() string { return u.what }

// broken is a knowledge or a rule file with mistakes.
type broken struct{ problems document.Problems }

func (b *broken) Error() string { return b.problems.Error() }

// silent ends with a code after everything has been said.
type silent struct{ code int }

func (s *silent) Error() string { return fmt.Sprintf("exit code %d", s.code) }

// code gives the exit code for what a verb returned.
func code(err error) int {
	if err == nil {
		return exitAnswered
	}
	if s, ok := errors.AsType[*silent](err); ok {
		return s.code
	}
	if _, ok := errors.AsType[*usage](err); ok {
		return exitUsage
	}
	if r, ok := errors.AsType[*advisor.Refusal](err); ok && r.Kind == advisor.BadValue {
		return exitUsage
	}
	return exitFailed
}

// Report tells the person what a verb returned, unless it has been said, and
// gives the exit code.
func (s *Session) Report(err error) int {
	s.say(err)
	return code(err)
}

func (s *Session) say(err error) {
	if _, ok := errors.AsType[*silent](err); ok || err == nil {
		return
	}
	if b, ok := errors.AsType[*broken](err); ok {
		st := s.style(s.ErrTerminal, s.Plain)
		_, _ = io.WriteString(s.Err, st.problems(b.problems)) // nowhere left to report to
		return
	}
	name := "hotroom: "
	if s.Talking {
		name = "" // at the prompt it is clear who says it
	}
	if errors.Is(err, context.Canceled) {
		s.Say("%sinterrupted", name)
		return
	}
	s.Say("%s%v%s", name, err, candidates(err))
}

// candidates lists what may have been meant, where the message does not.
func candidates(err error) string {
	refusal, ok := errors.AsType[*advisor.Refusal](err)
	if !ok || len(refusal.Candidates) == 0 || strings.Contains(refusal.Error(), refusal.Candidates[0]) {
		return ""
	}
	return ": " + strings.Join(refusal.Candidates, ", ")
}
