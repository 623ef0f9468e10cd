package web

import (
	"context"
	"fmt"
	"net/http"
	"runtime/debug"
)

// Bounds on a request's head. The listener itself refuses more than
// mostHeadBytes with a plain text, before there is a request to answer; the
// smaller bounds are refused with a problem document.
const (
	mostHeadBytes   = 64 << 10
	mostHeaderBytes = 16 << 10
	mostHeaders     = 64
	mostTargetBytes = 8 << 10
)

// ServeHTTP is what every request goes through. An answer that is at hand for
// the very same target is given before the target is even parsed.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	v := &visit{ResponseWriter: w, request: r, state: s.store.current.Load(), ids: s.ids, began: s.options.Now()}
	defer s.end(v)
	s.header.dress(v)
	switch {
	case s.clients != nil && !s.probes[r.URL.Path] && !s.admit(v):
	case s.header.preflight(v):
	case s.atHand(v):
	default:
		s.route(v)
	}
}

// atHand writes the answer that is kept for the same target and state.
func (s *Server) atHand(v *visit) bool {
	r := v.request
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		return false
	}
	e, ok := s.kept.get(v.state.tag, r.RequestURI)
	if !ok {
		return false
	}
	v.route = e.route
	e.write(v, true)
	return true
}

// route hands the request to the framework, when its head is in bounds.
func (s *Server) route(v *visit) {
	if err := headInBounds(v.request); err != nil {
		s.fail(v, err)
		return
	}
	s.echo.ServeHTTP(v, v.request)
}

func headInBounds(r *http.Request) error {
	if len(r.RequestURI) > mostTargetBytes {
		return &fault{
			status: http.StatusRequestURITooLong, kind: "target-too-long",
			what: fmt.Sprintf("the path and query are %d bytes long", len(r.RequestURI)),
			mend: fmt.Sprintf("send at most %d, or ask with POST /v1/advice", mostTargetBytes),
		}
	}
	bytes, count := 0, 0
	for name, values := range r.Header {
		for _, value := range values {
			count++
			bytes += len(name) + len(value) + len(": \r\n")
		}
	}
	if count <= mostHeaders && bytes <= mostHeaderBytes {
		return nil
	}
	return &fault{
		status: http.StatusRequestHeaderFieldsTooLarge, kind: "headers-too-large",
		what: fmt.Sprintf("the request has %d header fields in %d bytes", count, bytes),
		mend: fmt.Sprintf("send at most %d fields in %d bytes", mostHeaders, mostHeaderBytes),
	}
}

// admit holds a client to its rate.
func (s *Server) admit(v *visit) bool {
	wait := s.clients.take(v.request.RemoteAddr, v.began)
	if wait == 0 {
		return true
	}
	s.fail(v, &fault{
		status: http.StatusTooManyRequests, kind: "too-many-requests", retry: wait,
		what: "this client asks more often than is allowed",
		mend: fmt.Sprintf("wait %d s; up to %d questions go into one POST /v1/advice", wholeSeconds(wait), mostBatch),
	})
	return false
}

// end closes a visit: whatever broke becomes a plain answer, and the visit is
// counted and noted.
func (s *Server) end(v *visit) {
	if broken := recover(); broken != nil {
		if broken == http.ErrAbortHandler {
			panic(broken)
		}
		s.journal.error("panic", "id", v.id(), "what", fmt.Sprint(broken), "stack", string(debug.Stack()))
		if v.status == 0 {
			s.fail(v, errBroken)
		}
	}
	took := max(0, s.options.Now().Sub(v.began))
	s.meter.note(v, took)
	s.journal.visit(v, took)
}

// guarded runs work so that a panic in it becomes an error, also where other
// requests wait for the same work.
func (s *Server) guarded(ctx context.Context, v *visit, work func(context.Context) (any, error)) (value any, err error) {
	defer func() {
		if broken := recover(); broken != nil {
			s.journal.error("panic", "id", v.id(), "what", fmt.Sprint(broken), "stack", string(debug.Stack()))
			value, err = nil, errBroken
		}
	}()
	return work(ctx)
}
