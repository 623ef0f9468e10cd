package prompt

import (
	"context"
	"errors"
	"io"
	"reflect"
	"slices"
	"strings"

	"hotroom/advisor/sentence"
	"hotroom/cmd/internal/command"
)

// mark is what stands before the cursor.
const mark = "ask> "

// mostUndone is how many changes can be taken back (our own choice).
const mostUndone = 100

// loop reads lines and acts on them.
type loop struct {
	s      *command.Session
	reader LineReader
	undone []command.Memory // what was remembered before each change
	left   bool             // the person wants to leave
}

func newLoop(s *command.Session, reader LineReader) *loop {
	s.Talking = true
	return &loop{s: s, reader: reader}
}

// run acts on every line until the input ends, and returns the exit code of
// the first line that failed; with Strict it ends there.
func (l *loop) run(ctx context.Context) int {
	exit := 0
	for !l.left && ctx.Err() == nil {
		line, err := l.reader.Line(mark)
		if errors.Is(err, errCleared) {
			continue
		}
		if errors.Is(err, io.EOF) || errors.Is(err, context.Canceled) {
			break
		}
		code := 1
		switch {
		case errors.Is(err, errTooLong):
			l.s.Say("%v", err)
		case err != nil:
			l.s.Say("the next line cannot be read: %v", err)
			return 1
		default:
			code = l.line(ctx, line)
		}
		if exit == 0 {
			exit = code
		}
		if exit != 0 && l.s.Strict {
			break
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
	before := l.s.Memory()
	own, ok := l.find(words)
	if ok {
		code := own.run(l, ctx, words[1:])
		if own.name != "undo" {
			l.note(before)
		}
		return code
	}
	defer l.note(before)
	if v, ok := command.Find(words[0]); ok && !l.isSentence(v, line, words[1:]) {
		return l.s.RunLine(ctx, words)
	}
	return l.s.Report(l.s.Ask(ctx, sentence.Spoken{}, line))
}

// note keeps what was remembered before a line that changed it.
func (l *loop) note(before command.Memory) {
	if reflect.DeepEqual(before, l.s.Memory()) {
		return
	}
	l.undone = append(l.undone, before)
	if over := len(l.undone) - mostUndone; over > 0 {
		l.undone = slices.Delete(l.undone, 0, over)
	}
}

// isSentence reports whether a line that begins with a verb's name is a plain
// sentence all the same: "compare chalk and fen with a q12", "check the slate
// with a v10".
func (l *loop) isSentence(v command.Verb, line string, args []string) bool {
	if v.TakesSentence() || len(args) < 2 || slices.ContainsFunc(args, func(a string) bool { return strings.HasPrefix(a, "-") }) {
		return false
	}
	_, names, err := l.s.Snapshot()
	if err != nil {
		return false
	}
	read := names.Read(line, l.s.Known)
	if v.TakesBoards() {
		return len(read.Boards) > 1
	}
	return read.Question.Board != "" || read.Question.Chip != "" || len(read.Boards) > 0
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
