// Package web is the HTTP door: it turns requests into questions, asks the
// advisor and writes what it says, with everything that stands between a
// program and the open network. It is the only package that knows the web
// framework; handlers return values and errors and never see it.
//
// A request meets, in this order: the front (identity, bounds, answers already
// at hand), the routes, the reading of its parameters or body into a question,
// the work, and the writing of an entry that is kept for the next asker.
package web

import (
	"context"
	"errors"
	"io"
	"net/http"
	"sync/atomic"
	"time"

	"github.com/labstack/echo/v4"
	"golang.org/x/sync/singleflight"

	"hotroom/advisor"
)

// Options say how to serve. The zero value of each is its default.
type Options struct {
	Source  advisor.Source   // read again when its files change
	Program string           // version that answers name
	Build   string           // tells builds of one version apart, in ETags only
	Token   *Token           // lets whoever bears it record runs in the source's folder; nil: nobody
	Reload  <-chan struct{}  // asks for a reload, beside what the files do
	Origins []string         // web origins whose pages may read answers; "*" for all; none
	Frames  []string         // web origins whose pages may frame answers; "*" for all; none
	Rate    float64          // requests a second for each client; 0: no limit
	Burst   int              // requests at once for each client; 0: twice the rate
	CacheMB int              // most MiB of answers kept; 0: 64
	Drain   time.Duration    // how long readiness is red before the listener closes
	Log     io.Writer        // JSON lines; nil: none
	Detail  Detail           // what is logged
	Now     func() time.Time // the clock; nil: the system's
}

// Server answers requests from the newest good snapshot.
type Server struct {
	options  Options
	echo     *echo.Echo
	routes   []*route
	probes   map[string]bool // paths that no client limit holds for
	header   header
	encoders *encoders
	store    *store
	ids      *ids
	clients  *clients // nil: no limit
	work     gate     // answers worked out at once
	bulk     gate     // long bodies held at once
	flight   singleflight.Group
	kept     *kept
	meter    *meter
	journal  *journal
	spec     []byte

	stopping atomic.Bool
}

// New makes a server that begins with a snapshot of the source.
func New(first *advisor.Snapshot, o Options) (*Server, error) {
	if o.Now == nil {
		o.Now = time.Now
	}
	s := &Server{
		options: o, ids: newIDs(), header: newHeader(o), kept: newKept(o.CacheMB), clients: newClients(o.Rate, o.Burst),
		work: newGate(mostWorking()), bulk: newGate(mostBulky), journal: newJournal(o.Log, o.Detail),
	}
	s.routes = s.table()
	s.encoders = newEncoders(s.routes)
	s.meter = newMeter(s.routes)
	s.store = newStore(first, o, s.journal, s.meter)
	var err error
	if s.spec, err = describe(s.routes, o.Program); err != nil {
		return nil, err
	}
	s.bind()
	return s, nil
}

// bind gives the routes to the framework; what may be read with GET may be
// asked about with HEAD.
func (s *Server) bind() {
	s.echo = echo.New()
	s.echo.IPExtractor = echo.ExtractIPDirect()
	s.echo.HTTPErrorHandler = func(err error, c echo.Context) {
		if e, ok := errors.AsType[*echo.HTTPError](err); ok {
			err = s.unrouted(visitOf(c), e.Code)
		}
		s.fail(visitOf(c), err)
	}
	s.probes = map[string]bool{}
	for _, rt := range s.routes {
		rt.policy = s.header.policyOf(rt.media)
		handler := func(c echo.Context) error { return s.answer(visitOf(c), rt, c) }
		s.echo.Add(rt.method, rt.path, handler)
		if rt.method == http.MethodGet {
			s.echo.Add(http.MethodHead, rt.path, handler)
		}
		if rt.now != nil {
			s.probes[rt.path] = true
		}
	}
}

// Reload reads knowledge and rules again and takes them when they are good.
func (s *Server) Reload(ctx context.Context) { s.store.reload(ctx) }
