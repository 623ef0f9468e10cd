package command

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"github.com/spf13/pflag"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
	"hotroom/knowledge/document"
)

func replyTo() Verb {
	return Verb{
		Name:    "reply",
		Args:    "FILE",
		Summary: "a file of viewers' questions in, a file of answers out",
		Help: "Answers every question of a file: one a line, or a CSV with the columns id, who and " +
			"text (a file that ends in .csv); - reads from the standard input. The answers are " +
			"Markdown for a post, JSON lines or CSV, each short enough for a comment. A question " +
			"that cannot be answered stops none of the others: those are collected at the end, " +
			"with what is missing. Every question stands alone. With --fail-on it exits with 4 " +
			"when one of the verdicts is that verdict or worse.",
		Example: `  printf 'slate with a v10 at 30 C?\nquarry or anvil for the v10?\n' | hotroom reply -
  printf 'id,who,text\n1,Ann,how hot does a fen get with a q16?\n' | hotroom reply - --format csv`,
		Bind: bindReply,
	}
}

func bindReply(flags *pflag.FlagSet) Run {
	out := flags.String("out", "", "write the answers to `FILE`")
	format := flags.String("format", "", "`FORMAT` of the answers: markdown, jsonl or csv (default: by the ending of --out, else markdown)")
	return func(ctx context.Context, s *Session, args []string) error {
		return s.reply(ctx, args, *out, *format)
	}
}

func (s *Session) reply(ctx context.Context, args []string, out, format string) error {
	if len(args) != 1 {
		return &usage{"reply takes one file of questions: `hotroom reply questions.txt`, or - for the standard input"}
	}
	write, err := s.replyFormat(out, format)
	if err != nil {
		return err
	}
	text, err := s.readQuestions(ctx, args[0])
	if err != nil {
		return err
	}
	snapshot, names, err := s.Snapshot()
	if err != nil {
		return err
	}
	r := replier{snapshot: snapshot, names: names, progress: s.progress()}
	answers, err := r.all(ctx, inquiries(text, isCSV(args[0], text)))
	if err != nil {
		return err
	}
	if err := s.writeReplies(out, func(w io.Writer) error { return write(w, answers) }); err != nil {
		return err
	}
	if n := unanswered(answers); n > 0 {
		s.Say("%d of %s could not be answered: they stand at the end, with what is missing", n, count(len(answers), "question"))
	}
	return s.failIfAny(answers)
}

// mostQuestionBytes is the largest file of questions that is read: more is no
// file of questions, and would fill the memory.
const mostQuestionBytes = 64 << 20

func (s *Session) readQuestions(ctx context.Context, file string) (string, error) {
	from := s.In
	if file != "-" {
		f, err := os.Open(file)
		if err != nil {
			return "", fmt.Errorf("the questions in %q cannot be read: %w: give a file with one question a line", file, document.Reason(err))
		}
		defer func() { _ = f.Close() }() // it was only read
		from = breakable{ctx, f}
	}
	data, err := io.ReadAll(io.LimitReader(from, mostQuestionBytes+1))
	if err != nil {
		return "", fmt.Errorf("the questions in %q cannot be read: %w", file, document.Reason(err))
	}
	if len(data) > mostQuestionBytes {
		return "", fmt.Errorf("the questions in %q are more than 64 MiB: split the file", file)
	}
	return strings.TrimPrefix(string(data), "\ufeff"), nil
}

// replyFormat chooses how the answers are written.
func (s *Session) replyFormat(out, format string) (func(io.Writer, []reply) error, error) {
	if format == "" {
		format = map[string]string{".csv": "csv", ".jsonl": "jsonl", ".ndjson": "jsonl"}[strings.ToLower(filepath.Ext(out))]
	}
	if format == "" && s.JSON {
		format = "jsonl"
	}
	switch format {
	case "", "markdown", "md":
		return repliesInMarkdown, nil
	case "jsonl":
		return repliesInJSON, nil
	case "csv":
		return repliesInCSV, nil
	}
	return nil, &usage{fmt.Sprintf("--format %q is not known: give markdown, jsonl or csv", format)}
}

func (s *Session) writeReplies(file string, write func(io.Writer) error) error {
	if file == "" {
		var b strings.Builder
		if err := write(&b); err != nil {
			return err
		}
		return s.Print(b.String())
	}
	if err := writeWhole(file, write); err != nil {
		return unplaced("the answers", "--out", file, err)
	}
	s.Say("wrote the answers to %s", file)
	return nil
}

func unanswered(answers []reply) int {
	n := 0
	for i := range answers {
		if !answers[i].Answered {
			n++
		}
	}
	return n
}

// failIfAny meets --fail-on where one of the verdicts does.
func (s *Session) failIfAny(answers []reply) error {
	if slices.ContainsFunc(answers, func(r reply) bool { return r.Verdict != nil && s.failed(*r.Verdict) }) {
		return &silent{exitVerdict}
	}
	return nil
}

// replier answers many questions on one snapshot.
type replier struct {
	snapshot *advisor.Snapshot
	names    *sentence.Names
	progress func(done, of int)
}

// all answers every question, on every processor: those that were answered
// first, both parts in the order of the file. Only the context's error ends it.
func (r *replier) all(ctx context.Context, questions []inquiry) ([]reply, error) {
	answers := make([]reply, len(questions))
	var next, done atomic.Int64
	var workers sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(questions) && ctx.Err() == nil; i = int(next.Add(1)) - 1 {
				answers[i] = r.one(ctx, questions[i])
				r.progress(int(done.Add(1)), len(questions))
			}
		})
	}
	workers.Wait()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	slices.SortStableFunc(answers, func(a, b reply) int { return order(a) - order(b) })
	return answers, nil
}

func order(r reply) int {
	if r.Answered {
		return 0
	}
	return 1
}

// missing says why a question was not answered, and the choices there are.
func (r *reply) missing(err error) {
	r.Missing = safe(err.Error() + candidates(err))
	if refusal, ok := errors.AsType[*advisor.Refusal](err); ok {
		r.Choices = safely(refusal.Candidates)
	}
}
