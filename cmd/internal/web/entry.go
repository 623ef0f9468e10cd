package web

import (
	"bytes"
	"compress/gzip"
	"net/http"
	"strconv"
	"strings"
	"sync"
)

// freshness lets any cache in front hold an answer. For a minute it is given
// without asking; for the next ten the cache may give it while it asks again,
// so that nobody waits; and for a day when no replica answers, since an older
// snapshot's advice, which names its versions, is better than none.
const freshness = "public, max-age=60, stale-while-revalidate=600, stale-if-error=86400"

// leastCompressed is the size from which compressing saves a packet, bytes
// (common practice, no source).
const leastCompressed = 1000

// firstFlight is what a new connection takes at once with its head, bytes: ten
// segments (RFC 6928). An answer of that size arrives no sooner compressed, and
// compressing takes longer than most answers take to work out, so it is left for
// the second time that the answer is asked for.
const firstFlight = 14_000

// entry is an answer ready to be sent: its bytes, compressed once when that is
// worth it, and its header fields. Nobody changes it.
type entry struct {
	route  *route
	tag    string
	plain  form
	made   string // the path of what was made; "": nothing was
	once   sync.Once
	zipped form // see zip
	written
}

// form is one content coding of an answer.
type form struct {
	body   []byte
	etag   []string
	length []string
	coding []string // nil: identity
}

var (
	fresh  = []string{freshness}
	zipped = []string{"gzip"}
)

func newEntry(rt *route, tag string, body []byte) *entry {
	return &entry{route: rt, tag: tag, plain: newForm(body, plainTag(tag), nil)}
}

func newForm(body []byte, etag string, coding []string) form {
	fields := []string{etag, strconv.Itoa(len(body))}
	return form{body: body, etag: fields[:1:1], length: fields[1:], coding: coding}
}

// own gives the entry with bytes of its own, as long as they are and no longer.
func (e *entry) own() *entry {
	if e.space == nil {
		return e
	}
	return newEntry(e.route, e.tag, bytes.Clone(e.plain.body))
}

// zip gives the compressed form, made when first asked for; the plain one where
// that is smaller.
func (e *entry) zip() form {
	e.once.Do(func() { e.zipped = e.plain.compressed(e.tag) })
	return e.zipped
}

func (f form) compressed(tag string) form {
	if len(f.body) < leastCompressed {
		return f
	}
	var b bytes.Buffer
	w := writers.Get().(*gzip.Writer)
	defer writers.Put(w)
	w.Reset(&b)
	_, _ = w.Write(f.body) // a buffer takes everything
	_ = w.Close()
	if b.Len() >= len(f.body) {
		return f
	}
	return newForm(b.Bytes(), gzipTag(tag), zipped)
}

// writers are compressors to use again: each holds some hundred kB.
var writers = sync.Pool{New: func() any { return gzip.NewWriter(nil) }}

// size is what an entry may come to hold, bytes: both forms.
func (e *entry) size() int { return 2*len(e.plain.body) + 1000 }

// form chooses the coding that a client takes; again says that the answer was
// asked for before.
func (e *entry) form(r *http.Request, again bool) form {
	if (again || len(e.plain.body) > firstFlight) && takesGzip(r.Header["Accept-Encoding"]) {
		return e.zip()
	}
	return e.plain
}

// write answers with an entry that may be kept; again says that it was asked
// for before.
func (e *entry) write(v *visit, again bool) {
	f := e.form(v.request, again)
	if given := v.request.Header["If-None-Match"]; given != nil {
		for _, has := range [...]form{f, e.plain} { // whoever asked first has the plain one
			if matches(given, has.etag[0]) || matches(given, "*") {
				notModified(v, has.etag)
				return
			}
		}
	}
	h := v.Header()
	h["Etag"] = f.etag
	h["Cache-Control"] = e.route.life
	e.send(v, f)
}

// notModified tells the client that what it has is right still.
func notModified(v *visit, etag []string) {
	h := v.Header()
	h["Etag"] = etag
	h["Cache-Control"] = v.route.life
	v.WriteHeader(http.StatusNotModified)
}

// held gives which of the forms of an answer the client has already, before
// the answer is worked out; nil: none that it still takes.
func held(r *http.Request, tag string) []string {
	given := r.Header["If-None-Match"]
	switch {
	case given == nil:
		return nil
	case matches(given, plainTag(tag)):
		return []string{plainTag(tag)}
	case matches(given, gzipTag(tag)) && takesGzip(r.Header["Accept-Encoding"]):
		return []string{gzipTag(tag)}
	}
	return nil
}

func plainTag(tag string) string { return `"` + tag + `"` }
func gzipTag(tag string) string  { return `"` + tag + `-gzip"` }

// writeOnce answers with an entry that nobody may keep.
func (e *entry) writeOnce(v *visit) {
	v.Header().Set("X-Request-Id", v.id())
	v.Header().Set("Cache-Control", "no-store")
	if e.made != "" {
		v.Header().Set("Location", e.made)
	}
	e.send(v, e.form(v.request, false))
}

func (e *entry) send(v *visit, f form) {
	h := v.Header()
	h["Content-Type"] = e.route.kind
	h["Content-Security-Policy"] = e.route.policy
	h["Content-Length"] = f.length
	if f.coding != nil {
		h["Content-Encoding"] = f.coding
	}
	if v.request.Method == http.MethodHead {
		v.WriteHeader(http.StatusOK)
		return
	}
	if e.made != "" {
		v.WriteHeader(http.StatusCreated)
	}
	_, _ = v.Write(f.body) // a client that is gone cannot be told
}

// matches compares weakly (RFC 9110, 13.1.2), since a proxy that compresses
// makes a strong tag weak.
func matches(given []string, etag string) bool {
	for _, field := range given {
		for tag := range strings.SplitSeq(field, ",") {
			if strings.TrimPrefix(strings.TrimSpace(tag), "W/") == etag {
				return true
			}
		}
	}
	return false
}

// takesGzip reads Accept-Encoding (RFC 9110, 12.5.3).
func takesGzip(given []string) bool {
	any := false
	for _, field := range given {
		for coding := range strings.SplitSeq(field, ",") {
			name, weight, _ := strings.Cut(coding, ";")
			switch name = strings.TrimSpace(name); {
			case strings.EqualFold(name, "gzip"), strings.EqualFold(name, "x-gzip"):
				return wanted(weight)
			case name == "*":
				any = wanted(weight)
			}
		}
	}
	return any
}

// wanted reports whether a weight is more than nothing.
func wanted(weight string) bool {
	_, q, given := strings.Cut(weight, "=")
	if !given {
		return true
	}
	value, err := strconv.ParseFloat(strings.TrimSpace(q), 64)
	return err == nil && value > 0
}
