package prompt

import (
	"context"
	"errors"
	"io"
	"strings"

	"hotroom/advisor/sentence"
	"hotroom/cmd/internal/command"
)

// mark is what stands before the cursor.
const mark = "ask> "

// loop reads lines and acts on them.
type loop struct {
	s      *command.Session
	reader LineReader
	left   bool // the person wants to leave
}

func newLoop(s *command.Session, reader LineReader) *loop { return &loop{s: s, reader: reader} }

// run acts on every line until the input ends, and returns the exit code of
// the first line that failed.
func (l *loop) run(ctx context.Context) int {
	exit := 0
	for !l.left && ctx.Err() == nil {
		line, err := l.reader.Line(mark)
		if errors.Is(err, errCleared) {
			continue
		}
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			l.s.Say("hotroom: the next line cannot be read: %v", err)
			return 1
		}
		if code := l.line(ctx, line); exit == 0 {
			exit = code
		}
	}
	return exit
}

// line acts on one line: a word of the prompt's own, a verb, or a sentence.
func (l *loop) line(ctx context.Context, line string) int {
	line = strings.TrimSpace(line)
	words := split(line)
	if len(words) == 0 || strings.HasPrefix(line, "#") {
		return 0
	}
	if own, ok := find(words[0]); ok {
		return own.run(l, words[1:])
	}
	if _, ok := command.Find(words[0]); ok {
		return l.s.RunLine(ctx, words)
	}
	return l.s.Report(l.s.Ask(ctx, sentence.Spoken{}, line))
}

// split cuts a line into words; quotes around a word keep its spaces. A quote
// inside a word, or one that is never closed, is a letter like any other.
func split(line string) []string {
	var words []string
	for rest := strings.TrimSpace(line); rest != ""; rest = strings.TrimSpace(rest) {
		var word string
		word, rest = next(rest)
		words = append(words, word)
	}
	return words
}

func next(text string) (word, rest string) {
	if quote := text[0]; quote == '"' || quote == '\'' {
		if inner, after, ok := strings.Cut(text[1:], string(quote)); ok && (after == "" || after[0] == ' ') {
			return inner, after
		}
	}
	word, rest, _ = strings.Cut(text, " ")
	return word, rest
}
