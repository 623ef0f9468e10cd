package web

import (
	"io"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"

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

func TestSmoke(t *testing.T) {
	s := server(t, Options{})
	for _, target := range []string{
		"/v1/advice?board=slate&chip=v10&room=32", "/v1/ranking?chip=v10", "/v1/comparison?board=slate&board=flint&chip=v10", "/v1/sweep?board=slate&chip=v10",
		"/v1/boards", "/v1/boards/slate", "/v1/boards/slat", "/v1/chips", "/v1/runs", "/v1/rules", "/v1/facts", "/openapi.json", "/healthz", "/readyz", "/metrics", "/nope",
		"/v1/advice?bord=slate", "/v1/advice?room=400", "/v1/boards/", "/v1/boards/..%2f..%2fetc", "/v1/advice/",
	} {
		r := ask(s, "GET", target, "")
		t.Logf("%s %d %v\n%.600s", target, r.status, r.header, r.body)
	}
	t.Logf("%+v", ask(s, "POST", "/v1/advice", `[{"board":"slate","chip":"v10","room_c":"90F"},{"board":"slate","chp":1}, {"board":5}]`))
	t.Logf("%+v", ask(s, "POST", "/v1/question", `{"text":"will the slate carry a v10 in a hot room"}`))
	t.Logf("%+v", ask(s, "POST", "/v1/question", `{"text":"will the slate carry it"}`))
	t.Logf("%+v", ask(s, "DELETE", "/v1/question", ""))
	t.Logf("%+v", ask(s, "OPTIONS", "/v1/advice", ""))
}
