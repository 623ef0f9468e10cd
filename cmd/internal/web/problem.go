package web

import (
	"context"
	"errors"
	"math"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"

	"hotroom/advisor"
)

// Problem is a problem document (RFC 9457). Its type is about:blank, so the
// title is that of the status; kind tells apart what one status stands for.
type Problem struct {
	Type       string      `json:"type"`
	Title      string      `json:"title"`
	Status     int         `json:"status"`
	Detail     string      `json:"detail"` // what is wrong and how to mend it
	Kind       string      `json:"kind"`
	Field      *string     `json:"field"`              // the parameter or key that it is about
	Candidates []string    `json:"candidates"`         // what may have been meant, best first
	Problems   []string    `json:"problems,omitempty"` // all the mistakes of a run
	RequestID  string      `json:"request_id,omitempty"`
	Understood *Understood `json:"understood,omitempty"` // of a sentence
}

// problemType is the media type of a problem document.
const problemType = "application/problem+json"

// fault is a request that this door itself refuses.
type fault struct {
	status     int
	kind       string
	field      string
	what       string
	mend       string
	candidates []string
	problems   []string
	retry      time.Duration // when to try again; 0: no word on it
	because    error         // for the log alone
}

func (f *fault) Error() string {
	if f.mend == "" {
		return f.what
	}
	return f.what + ": " + f.mend
}

// errBroken is all that is said of a mistake in this program.
var errBroken = &fault{
	status: http.StatusInternalServerError, kind: "internal",
	what: "something broke while this was answered",
	mend: "try again, and report the request id if it stays so",
}

// statuses gives each kind of refusal its status (RFC 9110, 15.5). What cannot
// be read is a bad request (400, given where it is read); a question that reads
// well and cannot be answered as asked is unprocessable content (422); a name
// that nothing bears is not found (404).
func statuses(kind advisor.RefusalKind) int {
	switch kind {
	case advisor.NotFound:
		return http.StatusNotFound
	case advisor.BadValue, advisor.Ambiguous, advisor.Missing, advisor.Unfit, advisor.NotAllowed:
		return http.StatusUnprocessableEntity
	}
	return http.StatusInternalServerError
}

// faultOf turns whatever a handler returned into the answer to it.
func faultOf(err error) *fault {
	if f, ok := errors.AsType[*fault](err); ok {
		return f
	}
	if r, ok := errors.AsType[*advisor.Refusal](err); ok {
		return &fault{status: statuses(r.Kind), kind: string(r.Kind), field: r.Field, what: r.What, mend: r.Mend, candidates: r.Candidates}
	}
	if large, ok := errors.AsType[*http.MaxBytesError](err); ok {
		return tooLarge(large.Limit)
	}
	switch {
	case errors.Is(err, context.Canceled):
		return &fault{status: statusGone, kind: "gone", what: "the client went away before it was answered"}
	case errors.Is(err, context.DeadlineExceeded):
		return &fault{
			status: http.StatusServiceUnavailable, kind: "too-long", retry: time.Second,
			what: "the answer took too long", mend: "ask for less at once, or try again",
		}
	}
	return errBroken
}

// statusGone notes a client that closed the connection; nobody reads it
// (common practice, no source).
const statusGone = 499

// problem puts the document together.
func (f *fault) problem() Problem {
	p := Problem{
		Type: "about:blank", Title: http.StatusText(f.status), Status: f.status, Detail: f.Error(), Kind: f.kind,
		Candidates: append([]string{}, f.candidates...), Problems: f.problems,
	}
	if f.field != "" {
		p.Field = &f.field
	}
	if len(f.candidates) > 0 && !slices.ContainsFunc(f.candidates, func(c string) bool { return strings.Contains(p.Detail, c) }) {
		p.Detail += ": " + strings.Join(f.candidates, ", ")
	}
	return p
}

// fail answers with a problem document. It is never kept by anyone.
func (s *Server) fail(v *visit, err error) {
	if v.status != 0 {
		return
	}
	if p, ok := errors.AsType[*pageFault](err); ok {
		p.write(v)
		return
	}
	f := faultOf(err)
	if f == errBroken && err != error(errBroken) {
		s.journal.error("broken", "id", v.id(), "what", err.Error())
	}
	if f.because != nil {
		s.journal.error(f.what, "id", v.id(), "what", f.because.Error())
	}
	p := f.problem()
	p.RequestID = v.id()
	if u, ok := errors.AsType[*notUnderstood](err); ok {
		p.Understood = &u.understood
	}
	w, err := s.encoders.write(p)
	if err != nil {
		w.bytes = []byte("{}\n")
	}
	f.write(v, w.bytes)
	s.encoders.reuse(w)
}

// write sends the document.
func (f *fault) write(v *visit, document []byte) {
	h := v.Header()
	h.Set("X-Request-Id", v.id())
	h.Set("Content-Type", problemType)
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Length", strconv.Itoa(len(document)))
	if f.retry > 0 {
		h.Set("Retry-After", strconv.Itoa(wholeSeconds(f.retry)))
	}
	if f.status == http.StatusUnauthorized {
		h.Set("WWW-Authenticate", "Bearer")
	}
	if f.status == http.StatusRequestEntityTooLarge {
		h.Set("Connection", "close") // the rest of the body is not read
	}
	v.WriteHeader(f.status)
	_, _ = v.Write(document) // a client that is gone cannot be told
}

// wholeSeconds rounds up, and to one at least.
func wholeSeconds(d time.Duration) int { return max(1, int(math.Ceil(d.Seconds()))) }
