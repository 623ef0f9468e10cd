package web

import (
	"bufio"
	"io"
	"log/slog"
	"strconv"
	"sync"
	"time"
)

// Detail is how much is logged.
type Detail int

// What is logged, each with what stands above it.
const (
	Requests Detail = iota // every request
	Events                 // starts, stops, reloads
	Errors                 // what broke
)

// journal writes JSON lines. Lines of requests are gathered and written when
// there are many, or once a second; everything else is written at once. Neither
// queries nor bodies nor header fields of requests are in it.
type journal struct {
	detail Detail
	mu     sync.Mutex
	out    *bufio.Writer // nil: nothing is logged
	logger *slog.Logger
	line   []byte
	second int64  // of the clock below
	clock  []byte // that second, as every line of it begins
}

// heldBack is how much of the journal is held back, bytes.
const heldBack = 32 << 10

func newJournal(to io.Writer, detail Detail) *journal {
	j := &journal{detail: detail}
	if to == nil {
		j.logger = slog.New(slog.DiscardHandler)
		return j
	}
	j.out = bufio.NewWriterSize(to, heldBack)
	level := slog.LevelInfo
	if detail == Errors {
		level = slog.LevelError
	}
	j.logger = slog.New(slog.NewJSONHandler(direct{j}, &slog.HandlerOptions{Level: level, ReplaceAttr: inUTC}))
	return j
}

// inUTC makes times those of no place.
func inUTC(_ []string, a slog.Attr) slog.Attr {
	if a.Value.Kind() == slog.KindTime {
		a.Value = slog.TimeValue(a.Value.Time().UTC())
	}
	return a
}

// direct writes lines at once, after those that were held back.
type direct struct{ j *journal }

func (d direct) Write(line []byte) (int, error) {
	d.j.mu.Lock()
	defer d.j.mu.Unlock()
	n, err := d.j.out.Write(line)
	if err == nil {
		err = d.j.out.Flush()
	}
	return n, err
}

func (j *journal) event(what string, args ...any) { j.logger.Info(what, args...) }
func (j *journal) error(what string, args ...any) { j.logger.Error(what, args...) }

// flush writes what was held back.
func (j *journal) flush() {
	if j.out == nil {
		return
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	_ = j.out.Flush() // a log that cannot be written has nowhere to say so
}

// visit notes a request, in the form that slog's JSON handler has. It is
// written by hand because it is written for each: nothing in it needs escaping.
func (j *journal) visit(v *visit, took time.Duration) {
	if j.out == nil || j.detail > Requests {
		return
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	b := append(j.line[:0], `{"time":"`...)
	b = j.time(b, v.began)
	b = append(b, `","level":"INFO","msg":"request","id":"`...)
	b = append(b, v.given()...)
	b = append(b, `","client":"`...)
	b = append(b, v.request.RemoteAddr...)
	b = append(b, `","method":"`...)
	b = append(b, method(v.request.Method)...)
	b = append(b, `","route":"`...)
	if v.route != nil {
		b = append(b, v.route.path...)
	}
	b = append(b, `","status":`...)
	b = strconv.AppendInt(b, int64(v.status), 10)
	b = append(b, `,"bytes":`...)
	b = strconv.AppendInt(b, int64(v.bytes), 10)
	b = append(b, `,"us":`...)
	b = strconv.AppendInt(b, took.Microseconds(), 10)
	b = append(b, '}', '\n')
	j.line = b
	_, _ = j.out.Write(b) // a log that cannot be written has nowhere to say so
}

// method keeps to the known ones, so that no log holds what a client made up.
func method(given string) string {
	switch given {
	case "GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "CONNECT":
		return given
	}
	return "OTHER"
}

// time writes a time to the microsecond, in UTC. Its seconds are written once
// for all lines of a second.
func (j *journal) time(b []byte, t time.Time) []byte {
	if second := t.Unix(); second != j.second || j.clock == nil {
		j.second, j.clock = second, t.UTC().AppendFormat(j.clock[:0], "2006-01-02T15:04:05")
	}
	b = append(b, j.clock...)
	micro := t.Nanosecond() / 1000
	b = append(b, '.')
	for place := 100_000; place > 0; place /= 10 {
		b = append(b, byte('0'+micro/place%10))
	}
	return append(b, 'Z')
}
