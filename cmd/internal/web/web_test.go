package web

import (
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

	"github.com/labstack/echo/v4"

	"hotroom/advisor"
)

// demo opens the embedded knowledge, or a folder.
func demo(t testing.TB, src advisor.Source) *advisor.Snapshot {
	t.Helper()
	snapshot, problems, err := advisor.Open(src, "test")
	if err != nil || problems.Fatal() {
		t.Fatal(err, problems)
	}
	return snapshot
}

// server makes a server on the demo.
func server(t testing.TB, o Options) *Server {
	t.Helper()
	o.Program = "test"
	s, err := New(demo(t, o.Source), o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// reply is what came back.
type reply struct {
	status int
	header http.Header
	body   string
}

// ask sends a request past any network. Header fields are "Name: value".
func ask(h http.Handler, method, target, body string, fields ...string) reply {
	r := httptest.NewRequest(method, target, strings.NewReader(body))
	if body != "" {
		r.Header.Set("Content-Type", "application/json")
	}
	for _, f := range fields {
		name, value, _ := strings.Cut(f, ": ")
		if value == "" {
			r.Header.Del(name)
			continue
		}
		r.Header.Set(name, value)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	text, _ := io.ReadAll(w.Result().Body)
	return reply{w.Code, w.Result().Header, string(text)}
}

// fitting lists the boards with each chip that fits them, as queries.
func fitting(s *advisor.Snapshot) []string {
	var pairs []string
	for _, b := range s.Base().Boards {
		for _, k := range s.Base().Chips {
			if b.Socket == k.Socket {
				pairs = append(pairs, "board="+b.ID+"&chip="+k.ID)
			}
		}
	}
	return pairs
}

type echoContext = echo.Context
