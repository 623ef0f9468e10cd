package web

import (
	"crypto/rand"
	"net/http"
	"strconv"
	"sync/atomic"
	"time"

	"github.com/labstack/echo/v4"
)

// visit is one request being answered. It takes one state when it begins and
// keeps to it, so that no answer is a mixture of two; and it is the response
// writer, so that what was sent is known.
type visit struct {
	http.ResponseWriter
	request *http.Request
	state   *state
	route   *route // nil until one is found
	ids     *ids
	name    string // its id, once it was asked for
	began   time.Time
	status  int
	bytes   int
}

// visitOf finds the visit that the front handed to the framework.
func visitOf(c echo.Context) *visit { return c.Response().Writer.(*visit) }

func (v *visit) WriteHeader(status int) {
	if v.status == 0 {
		v.status = status
	}
	v.ResponseWriter.WriteHeader(status)
}

func (v *visit) Write(text []byte) (int, error) {
	if v.status == 0 {
		v.status = http.StatusOK
	}
	n, err := v.ResponseWriter.Write(text)
	v.bytes += n
	return n, err
}

// Unwrap lets http.ResponseController reach the connection.
func (v *visit) Unwrap() http.ResponseWriter { return v.ResponseWriter }

// ids names requests: a word drawn once a process, and a count.
type ids struct {
	prefix string
	count  atomic.Uint64
}

func newIDs() *ids { return &ids{prefix: rand.Text()[:8] + "-"} }

// id names the visit: as a proxy in front has, where that is a plain name, or
// anew. Only answers that are sent once carry it: caches would give that of
// another.
func (v *visit) id() string {
	if v.name = v.given(); v.name == "" {
		v.name = v.ids.next()
	}
	return v.name
}

// given gives the id that the visit has already, from here or from a proxy in
// front; "" for none.
func (v *visit) given() string {
	if v.name != "" {
		return v.name
	}
	if given := v.request.Header["X-Request-Id"]; len(given) == 1 && plainID(given[0]) {
		return given[0]
	}
	return ""
}

// longestID bounds the ids that are taken from outside.
const longestID = 64

func (i *ids) next() string { return i.prefix + strconv.FormatUint(i.count.Add(1), 36) }

func plainID(id string) bool {
	if id == "" || len(id) > longestID {
		return false
	}
	for _, c := range []byte(id) {
		if !(c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == '_' || c == '.') {
			return false
		}
	}
	return true
}
