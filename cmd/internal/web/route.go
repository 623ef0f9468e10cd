package web

import (
	"context"
	"fmt"
	"net/http"
	"net/url"
	"reflect"
	"strconv"
	"time"

	"github.com/labstack/echo/v4"

	"hotroom/knowledge/nearest"
)

// route is one thing that can be asked for. The table of routes feeds the
// framework, the description of the service and the metrics.
type route struct {
	method  string
	path    string // with :name for what varies
	name    string // its operation in the description
	summary string
	params  []param
	takes   reflect.Type // what a body holds; nil: no body
	asks    reflect.Type // what its question is made of; nil: none
	gives   reflect.Type // what the answer holds; nil: text
	media   string       // of the answer
	kind    []string     // media, as a field
	policy  []string     // what the answer may load
	index   int          // in the table
	life    []string     // Cache-Control
	brief   bool         // its work does not look at the time: no clock runs beside it
	// now, where it is set, answers about this process and moment: such an
	// answer is never kept, and asking is never limited.
	now func(*visit) (status int, value any)
	// created, where it is set, gives the path of what the answer says was made:
	// such a route takes nothing without the token.
	created func(made any) string

	// read understands a request. It gives what the answer depends on beside
	// the state, which is all that its ETag is made of, and the work to do.
	read func(*call) (question any, work work, err error)
}

// work makes the value of an answer.
type work func(context.Context) (any, error)

// call is a request as handlers see it.
type call struct {
	*state
	id    string // what stands for :id in the path
	query string
	body  func() ([]byte, error)
}

// rendered is the value of an answer that writes itself in the media type of
// its route; every other value is written as JSON.
type rendered interface {
	render() ([]byte, error)
}

// text is an answer that is ready.
type text []byte

func (t text) render() ([]byte, error) { return t, nil }

const jsonType = "application/json"

// get makes a route whose question Q is read from the query.
func get[Q, A any](path, name, summary string, params []param, read func(*asked) Q, answer func(context.Context, *state, Q) (A, error)) *route {
	return &route{
		method: http.MethodGet, path: path, name: name, summary: summary, params: params,
		asks: reflect.TypeFor[Q](), gives: reflect.TypeFor[A](), media: jsonType,
		read: func(c *call) (any, work, error) {
			a, err := c.asked(params)
			if err != nil {
				return nil, nil, err
			}
			question := read(a)
			return question, func(ctx context.Context) (any, error) { return answer(ctx, c.state, question) }, a.err
		},
	}
}

// brief says of a route that it does not look at the time while it works.
func brief(rt *route) *route {
	rt.brief = true
	return rt
}

// post makes a route whose question Q is read from a JSON body of the form of
// B.
func post[B, Q, A any](path, name, summary string, read func(*state, []byte) (Q, error), answer func(context.Context, *state, Q) (A, error)) *route {
	return &route{
		method: http.MethodPost, path: path, name: name, summary: summary,
		takes: reflect.TypeFor[B](), gives: reflect.TypeFor[A](), media: jsonType,
		read: func(c *call) (any, work, error) {
			if _, err := c.asked(nil); err != nil {
				return nil, nil, err
			}
			body, err := c.body()
			if err != nil {
				return nil, nil, err
			}
			question, err := read(c.state, body)
			return nil, func(ctx context.Context) (any, error) { return answer(ctx, c.state, question) }, err
		},
	}
}

// live makes a route about this process and moment. Its answer is described by
// the form of A, or is text.
func live[A any](path, name, summary, media string, now func(*visit) (int, any)) *route {
	return &route{
		method: http.MethodGet, path: path, name: name, summary: summary, media: media, gives: reflect.TypeFor[A](), now: now,
		read: func(c *call) (any, work, error) {
			_, err := c.asked(nil)
			return nil, nil, err
		},
	}
}

// The longest that one answer may take whose work looks at the time.
const mostWork = 10 * time.Second

// answer answers one routed request.
func (s *Server) answer(v *visit, rt *route, c echo.Context) error {
	v.route = rt
	if rt.created != nil {
		if err := s.options.Token.admit(v.request); err != nil {
			return err
		}
	}
	id, err := url.PathUnescape(c.Param("id"))
	if err != nil {
		return s.unrouted(v, http.StatusNotFound)
	}
	question, do, err := rt.read(&call{
		state: v.state, id: id, query: v.request.URL.RawQuery,
		body: func() ([]byte, error) { return s.body(v) },
	})
	if err != nil {
		return err
	}
	switch {
	case rt.now != nil:
		return s.live(v, rt)
	case rt.method == http.MethodGet:
		return s.fresh(v, rt, question, do)
	}
	e, err := s.make(v, rt, "", do)
	if err != nil {
		return err
	}
	e.writeOnce(v)
	s.encoders.reuse(e.written)
	return nil
}

// fresh works out an answer that is not at hand. One that the client has
// already is not worked out, and one that several ask for at once is worked
// out once.
func (s *Server) fresh(v *visit, rt *route, question any, do work) error {
	understood, err := s.encoders.write(question)
	if err != nil {
		return err
	}
	tag := v.state.etag(rt, understood.bytes)
	s.encoders.reuse(understood)
	if known := held(v.request, tag); known != nil {
		notModified(v, known)
		return nil
	}
	made, err, shared := s.flight.Do(tag, func() (any, error) { return s.make(v, rt, tag, do) })
	if err != nil {
		return err
	}
	s.hand(v, made.(*entry), shared)
	return nil
}

// hand gives a new answer, and keeps it where it was asked for before. The space
// of one that nobody else has is for the next.
func (s *Server) hand(v *visit, e *entry, shared bool) {
	w, again := e.written, s.kept.again(v.state.tag, v.request.RequestURI)
	if again {
		e = e.own()
		s.kept.put(v.state.tag, v.request.RequestURI, e)
	}
	e.write(v, again)
	if !shared {
		s.encoders.reuse(w)
	}
}

// live answers about this process and moment.
func (s *Server) live(v *visit, rt *route) error {
	status, value := rt.now(v)
	w, err := s.encoders.write(value)
	if err != nil {
		return err
	}
	defer s.encoders.reuse(w)
	h := v.Header()
	h.Set("X-Request-Id", v.id())
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Type", rt.media)
	h.Set("Content-Length", strconv.Itoa(len(w.bytes)))
	v.WriteHeader(status)
	_, _ = v.Write(w.bytes) // a client that is gone cannot be told
	return nil
}

// make does the work, when there is room for it, and writes its value down.
func (s *Server) make(v *visit, rt *route, tag string, do work) (*entry, error) {
	// Others may wait for this answer: it does not end with its first asker.
	ctx := context.WithoutCancel(v.request.Context())
	if !rt.brief {
		var cancel context.CancelFunc
		ctx, cancel = context.WithTimeout(ctx, mostWork)
		defer cancel()
	}
	if err := s.work.enter(ctx); err != nil {
		return nil, err
	}
	defer s.work.leave()
	value, err := s.guarded(ctx, v, do)
	if err != nil {
		return nil, err
	}
	w, err := s.encoders.write(value)
	if err != nil {
		return nil, err
	}
	e := newEntry(rt, tag, w.bytes)
	e.written = w
	if rt.created != nil {
		e.made = rt.created(value)
	}
	return e, nil
}

// unrouted says that nothing answers at a path, or not to that method.
func (s *Server) unrouted(v *visit, status int) error {
	path := v.request.URL.Path
	if path == runsPath && v.request.Method == http.MethodPost {
		status = http.StatusNotFound // recording is not there at all without a token
		v.Header().Del("Allow")
	}
	f := &fault{status: status, mend: "/openapi.json lists the paths and what they take"}
	if status != http.StatusNotFound {
		f.kind, f.what = "no-such-method", fmt.Sprintf("%s does not take the method %s", quoted(path), quoted(v.request.Method))
		if allowed := v.Header().Get("Allow"); allowed != "" {
			f.mend = "use " + allowed
		}
		return f
	}
	f.kind, f.what = "no-such-path", fmt.Sprintf("there is nothing at %s", quoted(path))
	var paths []string
	for _, rt := range s.routes {
		paths = append(paths, rt.path)
	}
	if meant, ok := nearest.Word(cut(path), paths); ok && meant != path {
		f.mend, f.candidates = fmt.Sprintf("did you mean %s?", meant), []string{meant}
	}
	return f
}
