package prompt

import (
	"context"
	"errors"
	"io"
	"os"
	"strings"

	"github.com/chzyer/readline"
	"golang.org/x/term"
)

// terminal reads lines with editing, history and completion. Line and Close
// are called from one goroutine, because readline's Close hangs while another
// one reads.
type terminal struct {
	line    *readline.Instance
	input   *keyboard
	history *history
	stop    func() bool
}

// newTerminal takes over the terminal. When ctx ends, a waiting Line ends with
// io.EOF.
func newTerminal(ctx context.Context, historyFile string, complete func(line string) []string) (*terminal, error) {
	input := &keyboard{ReadCloser: readline.NewCancelableStdin(os.Stdin)}
	line, err := readline.NewEx(&readline.Config{
		Stdin:                  input,
		AutoComplete:           completer(complete),
		HistoryLimit:           mostHistory,
		DisableAutoSaveHistory: true,
		HistorySearchFold:      true,
		InterruptPrompt:        "\n",
		EOFPrompt:              "\n",
	})
	if err != nil {
		return nil, err
	}
	t := &terminal{line: line, input: input, history: openHistory(historyFile)}
	for _, old := range t.history.lines {
		_ = line.SaveHistory(old) // only a history file, which readline has none of, can fail
	}
	t.stop = context.AfterFunc(ctx, func() { _ = input.Close() }) // its Close always succeeds
	return t, nil
}

func (t *terminal) Line(prompt string) (string, error) {
	t.line.SetPrompt(prompt)
	text, err := t.line.Readline()
	if errors.Is(err, readline.ErrInterrupt) {
		return "", errCleared
	}
	if err != nil {
		return "", io.EOF
	}
	if t.history.add(text) {
		_ = t.line.SaveHistory(strings.TrimSpace(text)) // as above
	}
	return text, nil
}

// key waits for one key, between lines.
func (t *terminal) key() (rune, error) {
	in := int(os.Stdin.Fd())
	before, err := term.MakeRaw(in)
	if err != nil {
		return 0, err
	}
	defer func() { _ = term.Restore(in, before) }() // the terminal is as it was, or gone
	var typed [64]byte
	n, err := t.input.Read(typed[:])
	if n == 0 {
		return ctrlD, err
	}
	if typed[0] != escape { // an arrow key sends several bytes
		t.input.kept = append(t.input.kept, typed[1:n]...)
	}
	return rune(typed[0]), err
}

// keyboard is the input, with what was read ahead of the line that it is for.
// It is read by one at a time: readline waits while the program acts.
type keyboard struct {
	io.ReadCloser
	kept []byte
}

func (k *keyboard) Read(into []byte) (int, error) {
	if len(k.kept) == 0 {
		return k.ReadCloser.Read(into)
	}
	n := copy(into, k.kept)
	k.kept = k.kept[n:]
	return n, nil
}

func (t *terminal) Close() error {
	t.stop()
	_ = t.input.Close() // its Close always succeeds
	return t.line.Close()
}

// completer turns whole-word candidates into what readline wants: the part
// still missing, and how much of it is typed.
type completer func(line string) []string

func (c completer) Do(line []rune, pos int) ([][]rune, int) {
	before := string(line[:pos])
	typed := []rune(before[strings.LastIndexAny(before, " \t")+1:])
	var rest [][]rune
	for _, word := range c(before) {
		if r := []rune(word); len(r) >= len(typed) {
			rest = append(rest, append(r[len(typed):], ' '))
		}
	}
	return rest, len(typed)
}
