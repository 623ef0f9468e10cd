// Package logfile reads what a data logger wrote: a table with a header, one
// sample a row. Every defect is counted and reported with its line; nothing is
// guessed over.
package logfile

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"time"
)

// Log is the good samples of a file, in the order of their times, one slice a
// column. A column that was not logged is nil; a value missing in it is NaN.
type Log struct {
	Name  string
	Start time.Time // of the first sample; zero where the file tells no date

	TimeS    []float64 // s after the first sample, strictly rising
	HotC     []float64 // hot spot, °C
	RoomC    []float64 // room, °C
	GHz      []float64 // clock
	Volts    []float64
	PackageW []float64 // package power, W
	BoardC   []float64 // the board's own sensor, °C
	Line     []int32   // in the file

	Rows      int // below the header, without empty ones
	Gaps      int // holes in the time stamps
	RoomTyped bool
	Defects   []Defect
}

// Options say how to read a log.
type Options struct {
	// RoomC is the room in °C for a log without a column for it.
	RoomC *float64
	// Size is the file's size in bytes where it is known, so that memory is
	// taken once.
	Size int64
	// Progress is told the bytes read so far, now and then; nil for nobody.
	Progress func(read int64)
}

// The most that is read, far beyond a day's log at ten samples a second, and
// the least that says anything.
const (
	mostSamples   = 8_000_000
	fewestSamples = 20
	leastSeconds  = 5 * 60.0
	progressEvery = 16384 // rows
)

// Read reads a log. It fails where the table cannot be made out at all, or
// where fewer than 20 good samples or less than 5 minutes of them are left; the
// log is then given nevertheless, with its defects, if there was a table.
func Read(ctx context.Context, name string, r io.Reader, o Options) (*Log, error) {
	counted := &counter{Reader: r}
	rows, err := open(counted, o.Size)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	t := &table{log: &Log{Name: name}, options: o, rows: rows}
	if err := t.findHeader(); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	t.reserve()
	if err := t.readRows(ctx, counted); err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	if err := t.finish(); err != nil {
		return t.log, fmt.Errorf("%s: %w", name, err)
	}
	return t.log, nil
}

// source gives a table's rows as text; io.EOF ends it. The fields hold until
// the next call.
type source interface {
	next() (fields [][]byte, line int, err error)
}

// open finds out what kind of file it is by its first bytes.
func open(r io.Reader, size int64) (source, error) {
	b := bufio.NewReaderSize(r, 1<<16)
	head, _ := b.Peek(4)
	switch {
	case bytes.HasPrefix(head, []byte("PK\x03\x04")):
		return openWorkbook(b)
	case bytes.HasPrefix(head, []byte{0xff, 0xfe}), bytes.HasPrefix(head, []byte{0xfe, 0xff}):
		b = bufio.NewReaderSize(fromUTF16(b), 1<<16)
	}
	return newText(b)
}

// counter counts the bytes read.
type counter struct {
	io.Reader
	read int64
}

func (c *counter) Read(p []byte) (int, error) {
	n, err := c.Reader.Read(p)
	c.read += int64(n)
	return n, err
}

// readRows takes every row below the header.
func (t *table) readRows(ctx context.Context, c *counter) error {
	for n := 0; ; n++ {
		if n%progressEvery == 0 {
			if err := ctx.Err(); err != nil {
				return err
			}
			if t.options.Progress != nil {
				t.options.Progress(c.read)
			}
		}
		fields, line, err := t.rows.next()
		switch {
		case errors.Is(err, io.EOF):
			return nil
		case errors.Is(err, errTooLong):
			t.defect(tooLong, line, nil)
			continue
		case err != nil:
			return fmt.Errorf("line %d: it cannot be read further: %w", line, err)
		}
		if len(t.log.TimeS) >= mostSamples {
			return fmt.Errorf("line %d: there are more than %d samples: thin the log out, or cut it to the one load", line, mostSamples)
		}
		t.row(fields, line)
	}
}

// finish chooses the stretch to use and checks that enough is left.
func (t *table) finish() error {
	t.clock.finish(t)
	l := t.log
	l.Defects = t.defects.list()
	l.Gaps = t.defects.count(hole)
	if len(l.TimeS) < fewestSamples {
		return fmt.Errorf("%s: too few to judge a run by: at least %d are needed%s", plural(len(l.TimeS), "good sample"), fewestSamples, t.mostly())
	}
	if last := l.TimeS[len(l.TimeS)-1]; last < leastSeconds {
		return fmt.Errorf("the good samples cover %.0f s: at least %.0f s are needed, with the load on for longer than the board takes to warm%s", last, leastSeconds, t.mostly())
	}
	return nil
}

// mostly names the commonest defect, as the likely cause of too little left.
func (t *table) mostly() string {
	if len(t.log.Defects) == 0 {
		return ""
	}
	most := t.log.Defects[0]
	for _, d := range t.log.Defects {
		if d.Count > most.Count {
			most = d
		}
	}
	return "; " + most.String()
}

func plural(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// missing is a value that a row does not have.
func missing() float64 { return math.NaN() }

// Keep drops the samples that a judge does not want, in place.
func (l *Log) Keep(wanted func(i int) bool) {
	n := 0
	for i := range l.TimeS {
		if !wanted(i) {
			continue
		}
		for _, column := range l.columns() {
			if *column != nil {
				(*column)[n] = (*column)[i]
			}
		}
		l.Line[n] = l.Line[i]
		n++
	}
	l.cut(0, n)
}
