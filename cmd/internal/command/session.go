package command

import (
	"fmt"
	"io"

	"github.com/spf13/pflag"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
	"hotroom/knowledge"
	"hotroom/knowledge/document"
)

// Session is what verbs share: streams, common flags, the loaded snapshot and,
// at the prompt, the question so far. It serves one reader.
type Session struct {
	Streams
	Options
	// Known is the question so far; the prompt keeps it from line to line.
	Known advisor.Question
	// Talking says that lines build on each other, as at the prompt.
	Talking bool
	// Strict ends piped lines at the first that fails.
	Strict bool
	// Pager shows a long result a screen at a time; nil where there is none.
	Pager func(text string) error

	told       sentence.Asked    // the kind of the last question, its boards and budget
	answered   *advisor.Question // of the last answer
	loaded     *loaded
	helpFailed error // what went wrong in cobra's help, which cannot return it
}

// Options are the flags that every verb takes.
type Options struct {
	Knowledge string // folder; empty for the embedded demo
	Rules     string // file; empty for the folder's own or the embedded default
	JSON      bool
	Plain     bool
	FailOn    string // verdict; empty for never
}

func (o *Options) bind(flags *pflag.FlagSet) {
	flags.StringVar(&o.Knowledge, "knowledge", o.Knowledge, "`DIR` with the knowledge files (default: the embedded demo)")
	flags.StringVar(&o.Rules, "rules", o.Rules, "rule `FILE` (default: rules.toml in the knowledge, else the embedded rules)")
	flags.BoolVar(&o.JSON, "json", o.JSON, "answer in JSON")
	flags.BoolVar(&o.Plain, "plain", o.Plain, "answer in sentences, without layout or colour")
	flags.StringVar(&o.FailOn, "fail-on", o.FailOn, "exit with 4 when the `VERDICT` is this or worse: with-care, unknown or no")
}

// loaded is a snapshot with where it came from.
type loaded struct {
	source   advisor.Source
	snapshot *advisor.Snapshot
	names    *sentence.Names
}

// NewSession starts a session without flags.
func NewSession(streams Streams) *Session { return &Session{Streams: streams} }

// Snapshot loads knowledge and rules when they are first needed, and again
// when other ones are asked for. The mistakes of broken ones are the error.
func (s *Session) Snapshot() (*advisor.Snapshot, *sentence.Names, error) {
	source := s.source()
	if s.loaded != nil && s.loaded.source == source {
		return s.loaded.snapshot, s.loaded.names, nil
	}
	var known *sentence.Names
	snapshot, problems, err := open(source, func(b *knowledge.Base) { known = sentence.NewNames(b) })
	if problems.Fatal() {
		return nil, nil, &broken{problems}
	}
	if err != nil {
		return nil, nil, err
	}
	s.loaded = &loaded{source, snapshot, known}
	return snapshot, known, nil
}

// open reads knowledge and rules; it fails where they cannot be read at all.
func open(source advisor.Source, beside ...func(*knowledge.Base)) (*advisor.Snapshot, document.Problems, error) {
	return advisor.Open(source, Version(), beside...)
}

func (s *Session) source() advisor.Source {
	return advisor.Source{Folder: s.Knowledge, RulesFile: s.Rules}
}

// Say writes a message for the person, not part of any result.
func (s *Session) Say(format string, args ...any) {
	st := s.style(s.ErrTerminal, s.Plain)
	_, _ = io.WriteString(s.Err, st.paragraph(safe(fmt.Sprintf(format, args...)), 2)) // nowhere left to report to
}

// Print writes a result.
func (s *Session) Print(text string) error {
	if s.Pager != nil && !s.Plain && !s.JSON {
		return s.Pager(text)
	}
	if _, err := io.WriteString(s.Out, text); err != nil {
		return unwritten(err)
	}
	return nil
}

// unwritten says that a result did not get out.
func unwritten(err error) error {
	return fmt.Errorf("the answer cannot be written (%w): make room where it goes, or send it elsewhere", err)
}
