package web

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"hotroom/knowledge/storm"
)

// answered holds for every request: never a mistake of ours, always JSON.
func answered(t *testing.T, s *Server, r *http.Request) {
	t.Helper()
	w := httptest.NewRecorder()
	s.ServeHTTP(w, r)
	if w.Code >= 500 || w.Code < 200 {
		t.Fatalf("%d %s", w.Code, w.Body)
	}
	if w.Code != http.StatusNoContent && !json.Valid(w.Body.Bytes()) {
		t.Fatalf("%d, no JSON: %s", w.Code, w.Body)
	}
	if w.Code >= 400 && w.Header().Get("Content-Type") != problemType {
		t.Fatalf("%d comes as %s", w.Code, w.Header().Get("Content-Type"))
	}
	if strings.Contains(w.Body.String(), "<") {
		t.Fatalf("markup is not escaped: %s", w.Body)
	}
}

// FuzzQuery reads queries without answering them.
func FuzzQuery(f *testing.F) {
	for _, target := range targets {
		f.Add(target)
	}
	check := queryReader(f)
	f.Fuzz(func(t *testing.T, target string) { check(t, target) })
}

func TestStorm(t *testing.T) { storm.Run(t, "FuzzQuery", targets, queryReader(t)) }

var targets = append(
	slices.Clone(keepable), "/v1/sweep?board=slate&chip=v10&over=power&from=1&to=1e9&step=1e-9",
	"/?q=Slate+or+Anvil+for+a+v10+at+%33%30+C&board=a&board=b", "/v1/advice?room=90%C2%B0F;x&power=1e300W&power=%zz", "/v1/ranking?top=0.5&only=yes,maybe",
)

// queryReader checks a query: it is refused with a reason, or is a question
// that is the same however often it is read. Which route reads it depends on the
// path, be there such a route or not.
func queryReader(t testing.TB) func(*testing.T, string) bool {
	s := server(t, Options{CacheMB: 1})
	var reading []*route
	for _, rt := range s.routes {
		if rt.method == http.MethodGet && rt.now == nil && !strings.Contains(rt.path, ":") {
			reading = append(reading, rt)
		}
	}
	return func(t *testing.T, target string) bool {
		path, query, _ := strings.Cut(target, "?")
		i := slices.IndexFunc(reading, func(rt *route) bool { return rt.path == path })
		if i < 0 {
			i = len(target) % len(reading)
		}
		first, err := s.understand(reading[i], query)
		second, _ := s.understand(reading[i], query)
		if first != second {
			t.Fatalf("%q is read as %s and as %s", target, first, second)
		}
		if err == nil {
			return true
		}
		if f := faultOf(err); f.status < 400 || f.status >= 500 || f.what == "" || !utf8.ValidString(f.problem().Detail) {
			t.Fatalf("%q is refused with %+v", target, f)
		}
		return false
	}
}

// understand writes down what a query is taken to ask.
func (s *Server) understand(rt *route, query string) (string, error) {
	question, _, err := rt.read(&call{state: s.store.current.Load(), query: query})
	if err != nil {
		return err.Error(), err
	}
	understood, err := s.encoders.append(nil, question)
	return string(understood), err
}

// FuzzRequest answers what it is asked, whatever it is.
func FuzzRequest(f *testing.F) {
	s := server(f, Options{CacheMB: 1})
	for _, tt := range problems {
		if path, query, ok := strings.Cut(tt.target, "?"); ok && tt.method == "" {
			f.Add(path, query)
		}
	}
	for _, target := range keepable {
		path, query, _ := strings.Cut(target, "?")
		f.Add(path, query)
	}
	f.Add("/v1/sweep", "board=slate&chip=v10&over=power&from=1&to=1e9&step=1e-9")
	f.Add("/v1/sweep", "board=slate&chip=v10&from=-20&to=60&step=0.000001")
	f.Fuzz(func(t *testing.T, path, query string) {
		if !strings.HasPrefix(path, "/v1/") || strings.ContainsAny(path+query, " \x00\r\n\t#\x7f") {
			t.Skip("no client can send this target")
		}
		u, err := url.ParseRequestURI(path + "?" + query)
		if err != nil {
			t.Skip("no client can send this target")
		}
		r := &http.Request{Method: "GET", URL: u, RequestURI: path + "?" + query, Header: http.Header{}, Proto: "HTTP/1.1", ProtoMajor: 1, ProtoMinor: 1, Body: http.NoBody}
		answered(t, s, r.WithContext(t.Context()))
	})
}

func FuzzBody(f *testing.F) {
	s := server(f, Options{CacheMB: 1})
	for _, tt := range problems {
		if tt.method == "POST" && len(tt.body) < 1000 {
			f.Add(tt.body, strings.Contains(tt.target, "question"))
		}
	}
	f.Add(`[{"board":"slate","chip":"v10","room_c":"90F"},{"board":"anvil","chip":"q12","power_w":1e-300,"current_a":"9e9"}]`, false)
	f.Add(`{"text":"Will the Slate carry a V10 at 95 F with 250 W of graphics, unlimited?"}`, true)
	f.Fuzz(func(t *testing.T, body string, plain bool) {
		target := "/v1/advice"
		if plain {
			target = "/v1/question"
		}
		if strings.Count(body, "{") > 20 {
			t.Skip("a long batch only slows the fuzzer down")
		}
		r := httptest.NewRequest("POST", target, strings.NewReader(body))
		r.Header.Set("Content-Type", jsonType)
		answered(t, s, r)
	})
}
