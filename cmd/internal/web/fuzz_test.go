package web

import (
	"encoding/json"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
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

func FuzzQuery(f *testing.F) {
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
