package web

import (
	"context"
	"encoding/json"
	"fmt"
	"net/http/httptest"
	"strings"
	"testing"
	"time"
)

func TestClientLimit(t *testing.T) {
	s, forgeries := server(t, Options{Rate: 0.5, Burst: 3}), 0
	from := func(address, target string) reply {
		r := httptest.NewRequest("GET", target, nil)
		r.RemoteAddr = address
		for _, forged := range []string{"X-Forwarded-For", "X-Real-IP", "Forwarded"} { // anybody can name any address
			forgeries++
			r.Header.Set(forged, fmt.Sprintf("198.51.100.%d", forgeries))
		}
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		return reply{w.Code, w.Header(), w.Body.String()}
	}
	for i := range 3 {
		if r := from("192.0.2.1:1000", "/v1/facts"); r.status != 200 {
			t.Fatal(i, r.status)
		}
	}
	r := from("192.0.2.1:2000", "/v1/facts")
	want := `"detail":"this client asks more often than is allowed: wait 2 s; up to 1000 questions go into one POST /v1/advice","kind":"too-many-requests"`
	if r.status != 429 || r.header.Get("Retry-After") != "2" || !strings.Contains(r.body, want) {
		t.Errorf("%d %v %s", r.status, r.header, r.body)
	}
	for _, probe := range []string{"/healthz", "/readyz", "/metrics"} {
		if r := from("192.0.2.1:1000", probe); r.status != 200 {
			t.Errorf("%s is limited: %d", probe, r.status)
		}
	}
	if r := from("192.0.2.2:1000", "/v1/facts"); r.status != 200 {
		t.Errorf("another client is limited: %d", r.status)
	}
}

func TestClients(t *testing.T) {
	now := time.Now()
	c := newClients(1, 1)
	for remote, want := range map[string]bool{ // each is asked for once, in any order
		"192.0.2.1:1": true, "192.0.2.2:1": true, "[2001:db8:0:1::1]:1": true, "[2001:db8:0:2::1]:1": true, "[::ffff:192.0.2.3]:1": true, "nonsense": true,
	} {
		if got := c.take(remote, now) == 0; got != want {
			t.Errorf("%s: %v", remote, got)
		}
	}
	for _, same := range []string{"192.0.2.1:9", "[2001:db8:0:1:ffff::2]:9", "192.0.2.3:1", "other nonsense"} {
		if c.take(same, now) == 0 {
			t.Errorf("%s is taken for another client", same)
		}
	}
	if c.take("192.0.2.1:1", now.Add(time.Second)) != 0 {
		t.Error("a client that waited must wait on")
	}
	for i := range 3 * mostClients {
		c.take(fmt.Sprintf("10.%d.%d.%d:1", i>>16, i>>8&255, i&255), now)
	}
	if n := len(c.known.nodes); n != mostClients {
		t.Errorf("%d clients are known", n)
	}
	if newClients(0, 5) != nil {
		t.Error("no rate is a limit")
	}
}

func TestGate(t *testing.T) {
	g := newGate(1)
	if err := g.enter(t.Context()); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 20*time.Millisecond)
	defer cancel()
	if f := faultOf(g.enter(ctx)); f.status != 503 || f.retry == 0 {
		t.Errorf("a full gate gives %+v", f)
	}
	g.leave()
	if err := g.enter(t.Context()); err != nil {
		t.Error(err)
	}
}

// Many who ask the same at once have it worked out once.
func TestOneFlight(t *testing.T) {
	s := server(t, Options{})
	worked := make(chan struct{}, 100)
	hold := make(chan struct{})
	rt := get("/slow", "slow", "", nil, readNone, func(context.Context, *state, none) (none, error) {
		worked <- struct{}{}
		<-hold
		return none{}, nil
	})
	s.echo.GET(rt.path, func(c echoContext) error { return s.answer(visitOf(c), rt, c) })
	done := make(chan reply)
	for range 20 {
		go func() { done <- ask(s, "GET", "/slow", "") }()
	}
	time.Sleep(50 * time.Millisecond)
	close(hold)
	for range 20 {
		if r := <-done; r.status != 200 || r.body != "{}\n" {
			t.Errorf("%d %s", r.status, r.body)
		}
	}
	if n := len(worked); n > 3 {
		t.Errorf("it was worked out %d times", n)
	}
}

func TestOrigins(t *testing.T) {
	const target, guide = "/v1/facts", "https://guide.example"
	preflight := []string{"Origin: " + guide, "Access-Control-Request-Method: POST"}
	for _, tt := range []struct {
		allowed               []string
		origin, want, vary    string
		methods, frames, from string
	}{
		{nil, guide, "", "Accept-Encoding", "", "frame-ancestors 'none'", ""},
		{[]string{guide}, guide, guide, "Accept-Encoding, Origin", "GET, HEAD, POST", "frame-ancestors https://guide.example", ""},
		{[]string{"https://other.example"}, guide, "", "Accept-Encoding, Origin", "", "frame-ancestors https://other.example", ""},
		{[]string{"*"}, guide, "*", "Accept-Encoding", "GET, HEAD, POST", "frame-ancestors *", ""},
	} {
		s := server(t, Options{Origins: tt.allowed, Frames: tt.allowed})
		for range 2 { // worked out, and at hand
			r := ask(s, "GET", target, "", "Origin: "+tt.origin)
			if got := r.header.Get("Access-Control-Allow-Origin"); got != tt.want || r.header.Get("Vary") != tt.vary || !strings.HasSuffix(r.header.Get("Content-Security-Policy"), tt.frames) {
				t.Errorf("%v: %v", tt.allowed, r.header)
			}
		}
		r := ask(s, "OPTIONS", "/v1/advice", "", preflight...)
		if r.status != 204 || r.header.Get("Access-Control-Allow-Methods") != tt.methods {
			t.Errorf("%v: preflight %d %v", tt.allowed, r.status, r.header)
		}
	}
	for given, want := range map[string]bool{
		"*": true, guide: true, "http://127.0.0.1:3000": true, "": false, "guide.example": false, "https://": false, "https://a/b": false, "https://a/": false,
		"ftp://a": false, "https://a; script-src *": false, "https://a b": false, "https://u@a": false, "null": false, "https://a?x": false, "https://a#x": false,
	} {
		if got := IsOrigin(given); got != want {
			t.Errorf("%q: %v", given, got)
		}
	}
}

func TestRequestID(t *testing.T) {
	s := server(t, Options{})
	for given, kept := range map[string]bool{"abc-123_X.9": true, "": false, "a b": false, "<b>": false, strings.Repeat("x", 65): false} {
		got := ask(s, "GET", "/healthz", "", "X-Request-Id: "+given).header.Get("X-Request-Id")
		if (got == given) != kept || got == "" {
			t.Errorf("%q became %q", given, got)
		}
	}
}

// Lines of requests are JSON like those of slog, and hold no query.
func TestJournal(t *testing.T) {
	var log strings.Builder
	s := server(t, Options{Log: &log})
	ask(s, "GET", "/v1/facts?secret=1", "", "X-Request-Id: from-the-proxy")
	ask(s, "BREW", "/v1/facts/<b>", "")
	s.journal.event("done")
	var keys [3]map[string]any
	lines := strings.Split(strings.TrimSpace(log.String()), "\n")
	if len(lines) != len(keys) {
		t.Fatalf("%d lines:\n%s", len(lines), log.String())
	}
	for i, line := range lines {
		if err := json.Unmarshal([]byte(line), &keys[i]); err != nil {
			t.Fatal(err, line)
		}
		if at, err := time.Parse(time.RFC3339Nano, fmt.Sprint(keys[i]["time"])); err != nil || time.Since(at).Abs() > time.Minute {
			t.Errorf("time %v: %v", keys[i]["time"], err)
		}
	}
	delete(keys[0], "time")
	delete(keys[0], "us")
	if got, want := fmt.Sprint(keys[0]), "map[bytes:226 client:192.0.2.1:1234 id:from-the-proxy level:INFO method:GET msg:request route:/v1/facts status:400]"; got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	if keys[1]["method"] != "OTHER" || keys[1]["route"] != "" || strings.Contains(log.String(), "secret") {
		t.Errorf("the log says\n%s", log.String())
	}
	var events, errors strings.Builder
	for detail, out := range map[Detail]*strings.Builder{Events: &events, Errors: &errors} {
		j := newJournal(out, detail)
		j.visit(&visit{request: httptest.NewRequest("GET", "/", nil)}, 0)
		j.event("one")
		j.error("two")
		j.flush()
	}
	if strings.Count(events.String(), "\n") != 2 || strings.Count(errors.String(), "\n") != 1 {
		t.Errorf("events:\n%serrors:\n%s", events.String(), errors.String())
	}
}
