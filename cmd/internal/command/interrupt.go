package command

import (
	"context"
	"io"
)

// listen gives the context of what takes its time, which ends when the process
// is told to end; so do reads of the input then.
func (s *Session) listen(ctx context.Context) (heard context.Context, stop func()) {
	heard, forget := s.interruptible(ctx)
	before := s.In
	if !s.InTerminal {
		s.In = breakable{heard, before}
	}
	return heard, func() { s.In = before; forget() }
}

// breakable ends a read when its context does. A pipe that nothing comes
// out of would otherwise keep the program from noticing that it shall stop.
type breakable struct {
	ctx  context.Context
	from io.Reader
}

type arrival struct {
	bytes []byte
	err   error
}

// Read leaves a read that was given up to itself: what it gets is lost.
func (r breakable) Read(into []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	arrived := make(chan arrival, 1)
	go func() {
		bytes := make([]byte, len(into))
		n, err := r.from.Read(bytes)
		arrived <- arrival{bytes[:n], err}
	}()
	select {
	case a := <-arrived:
		return copy(into, a.bytes), a.err
	case <-r.ctx.Done():
		return 0, r.ctx.Err()
	}
}
