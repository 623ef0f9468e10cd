package web

import (
	"context"
	"errors"
	"fmt"
	"log"
	"net"
	"net/http"
	"sync"
	"time"
)

// Bounds on time and number. A proxy in front keeps connections for a minute as
// a rule, so ours are kept longer: the proxy closes first and loses no request.
const (
	headTime    = 5 * time.Second   // for a request's head
	readTime    = 20 * time.Second  // for a whole request
	writeTime   = 40 * time.Second  // for a whole answer, from the end of the head
	idleTime    = 120 * time.Second // between two requests of a connection
	stopTime    = 15 * time.Second  // for what is in flight when the server stops
	connections = 2000              // open at once; further ones wait
)

// Serve answers on a listener until the context ends. Then readiness turns red,
// the listener stays open for the drain, so that whoever sends requests here
// can notice, and what is in flight is finished.
func (s *Server) Serve(ctx context.Context, l net.Listener) error {
	h := &http.Server{
		Handler: s, ReadHeaderTimeout: headTime, ReadTimeout: readTime, WriteTimeout: writeTime, IdleTimeout: idleTime,
		MaxHeaderBytes: mostHeadBytes, ErrorLog: log.New(connectionLog{s.journal}, "", 0),
		ConnState: settleConn,
	}
	background, cancel := context.WithCancel(ctx)
	var tasks sync.WaitGroup
	defer func() { cancel(); tasks.Wait(); s.journal.flush() }()
	tasks.Go(func() { s.keepFlushing(background) })
	tasks.Go(func() {
		if err := s.watch(background); err != nil {
			s.journal.error("changes of files go unnoticed", "what", err.Error())
		}
	})
	s.journal.event("serving", "address", l.Addr().String(), "program", s.options.Program)
	ended := make(chan error, 1)
	go func() { ended <- h.Serve(newListener(l, connections)) }()
	select {
	case err := <-ended:
		return fmt.Errorf("serving ended: %w", err)
	case <-ctx.Done():
		return s.stop(context.WithoutCancel(ctx), h)
	}
}

// stop ends in order, and within its time.
func (s *Server) stop(ctx context.Context, h *http.Server) error {
	s.stopping.Store(true)
	s.journal.event("stopping", "drain_s", s.options.Drain.Seconds())
	h.SetKeepAlivesEnabled(false)
	time.Sleep(s.options.Drain)
	ctx, cancel := context.WithTimeout(ctx, stopTime)
	defer cancel()
	err := h.Shutdown(ctx)
	if errors.Is(err, context.DeadlineExceeded) {
		err = fmt.Errorf("some answers were not finished %s after the stop: they were cut off", stopTime)
		_ = h.Close() // the error says it already
	}
	s.journal.event("stopped")
	return err
}

// keepFlushing writes the gathered lines once a second.
func (s *Server) keepFlushing(ctx context.Context) {
	tick := time.NewTicker(time.Second)
	defer tick.Stop()
	for {
		select {
		case <-tick.C:
			s.journal.flush()
		case <-ctx.Done():
			return
		}
	}
}

// connectionLog takes what the HTTP library has to say of connections.
type connectionLog struct{ j *journal }

func (c connectionLog) Write(line []byte) (int, error) {
	c.j.error("connection", "what", string(line))
	return len(line), nil
}
