package command

import (
	"context"
	"io"
	"os"

	"golang.org/x/term"
)

// Streams are where a session reads and writes, and what it may assume about
// them.
type Streams struct {
	In  io.Reader
	Out io.Writer // results
	Err io.Writer // messages

	InTerminal  bool
	OutTerminal bool
	ErrTerminal bool
	// Width gives the columns of the output terminal, or 0 when it is none.
	Width func() int
	// Height gives the rows of the output terminal; nil or 0 when it is none.
	Height func() int
	Getenv func(name string) string
	// Interruptible gives a context that ends when the process is told to; nil
	// where nobody can tell it. A verb that is brief does without: to end it in
	// the middle loses nothing, and to listen costs as much as the answer.
	Interruptible func(context.Context) (context.Context, context.CancelFunc)
}

// interruptible gives the context of what takes its time.
func (s Streams) interruptible(ctx context.Context) (context.Context, context.CancelFunc) {
	if s.Interruptible == nil {
		return context.WithCancel(ctx)
	}
	return s.Interruptible(ctx)
}

// System gives the process's own streams.
func System() Streams {
	out := int(os.Stdout.Fd())
	return Streams{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr,
		InTerminal:  term.IsTerminal(int(os.Stdin.Fd())),
		OutTerminal: term.IsTerminal(out),
		ErrTerminal: term.IsTerminal(int(os.Stderr.Fd())),
		Width: func() int {
			width, _, err := term.GetSize(out)
			if err != nil {
				return 0
			}
			return width
		},
		Height: func() int {
			_, height, err := term.GetSize(out)
			if err != nil {
				return 0
			}
			return height
		},
		Getenv: os.Getenv,
	}
}

// Text columns: lines are easiest to read at 80, and the layout needs 40.
const (
	widest    = 80
	narrowest = 40
)

// Rows gives the rows of the output terminal, or 0 when it is none.
func (s Streams) Rows() int {
	if s.Height == nil {
		return 0
	}
	return s.Height()
}

func (s Streams) columns() int {
	width := s.Width()
	if width <= 0 {
		return widest
	}
	return max(narrowest, min(width, widest))
}

// style decides the look of what goes to the output, or to the messages.
func (s Streams) style(terminal, plain bool) style {
	colour := terminal && !plain && s.Getenv("NO_COLOR") == "" && s.Getenv("TERM") != "dumb"
	return style{width: s.columns(), colour: colour, plain: plain}
}
