package prompt

import (
	"fmt"
	"io"
	"strings"
)

// pager shows a long text a screen at a time.
type pager struct {
	out    io.Writer
	height func() int           // rows of the terminal; 0 or less: unknown
	key    func() (rune, error) // waits for one key
}

// rest is the rows that a screen keeps for the question and for what was above.
const rest = 2

// show writes a text. Longer than a screen, it stops after each until a key is
// pressed: q leaves the rest out, Enter shows one more line.
func (p *pager) show(text string) error {
	lines := strings.SplitAfter(text, "\n")
	if last := len(lines) - 1; lines[last] == "" {
		lines = lines[:last]
	}
	screen := p.height() - rest
	if screen < 1 || len(lines) <= p.height()-1 {
		return p.write(text)
	}
	for step := screen; len(lines) > 0; {
		n := min(step, len(lines))
		if err := p.write(strings.Join(lines[:n], "")); err != nil {
			return err
		}
		if lines = lines[n:]; len(lines) == 0 {
			return nil
		}
		more, err := p.ask(len(lines))
		if err != nil || more == 0 {
			return err
		}
		if step = screen; more == 1 {
			step = 1
		}
	}
	return nil
}

// ask waits for a key and gives how much more to show: nothing, one line, or a
// screen (2).
func (p *pager) ask(left int) (int, error) {
	question := fmt.Sprintf("-- %d more lines: any key, q ends --", left)
	if err := p.write(question); err != nil {
		return 0, err
	}
	key, err := p.key()
	if wiping := p.write("\r" + strings.Repeat(" ", len(question)) + "\r"); err == nil {
		err = wiping
	}
	switch key {
	case 'q', 'Q', ctrlC, ctrlD, escape:
		return 0, err
	case '\r', '\n', 'j':
		return 1, err
	}
	return 2, err
}

// Keys as a raw terminal sends them (ECMA-48).
const (
	ctrlC  = 3
	ctrlD  = 4
	escape = 27
)

func (p *pager) write(text string) error {
	_, err := io.WriteString(p.out, text)
	return err
}
