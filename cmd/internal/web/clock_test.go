package web

import (
	"fmt"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"hotroom/advisor"
)

// clock is a clock of the wall that somebody sets. Its times are without the
// steady part that the system's have, so that a jump is a jump.
type clock struct {
	mu  sync.Mutex
	now time.Time
}

func (c *clock) Now() time.Time {
	c.mu.Lock()
	defer c.mu.Unlock()
	return c.now
}

func (c *clock) jump(by time.Duration) {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.now = c.now.Add(by)
}

// jumps are what sets clocks: a battery that is empty, a summer time, a time
// server that was reached at last, a typing error.
func jumps() []time.Duration {
	return []time.Duration{-time.Second, time.Hour, -time.Hour, -200_000 * time.Hour, 400_000 * time.Hour, -200_000 * time.Hour, -time.Nanosecond, 0}
}

// However the clock jumps, a client that has been quiet for the time it was told
// is let in, one that floods is held, and nobody waits longer than for one
// question.
func TestFaultClockJumpsAtTheClientLimit(t *testing.T) {
	at := &clock{now: time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)}
	s := server(t, Options{Rate: 0.5, Burst: 3, Now: at.Now})
	get := func() reply {
		r := httptest.NewRequest("GET", "/v1/facts", nil)
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		return reply{w.Code, w.Header(), w.Body.String()}
	}
	for _, by := range append(jumps(), jumps()...) {
		at.jump(by)
		let := 0
		for range 10 {
			r := get()
			if r.status == 200 {
				let++
			} else if wait := r.header.Get("Retry-After"); r.status != 429 || wait != "1" && wait != "2" {
				t.Fatalf("after a jump of %s: %d, wait %s s", by, r.status, wait)
			}
		}
		if let > 3 {
			t.Errorf("after a jump of %s, %d were let in at once", by, let)
		}
		at.jump(2 * time.Second)
		if r := get(); r.status != 200 {
			t.Errorf("after a jump of %s and the wait: %d", by, r.status)
		}
	}
}

// However the clock jumps, answers that are kept are given, readiness and
// metrics make sense, and the log has a line for each request.
func TestFaultClockJumpsWhileServing(t *testing.T) {
	at := &clock{now: time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)}
	var log syncBuilder
	s := server(t, Options{Now: at.Now, Log: &log})
	first := ask(s, "GET", boardTarget, "")
	for _, by := range jumps() {
		at.jump(by)
		if r := ask(s, "GET", boardTarget, ""); r.status != 200 || r.body != first.body || r.header.Get("Etag") != first.header.Get("Etag") {
			t.Errorf("after a jump of %s: %d, another answer", by, r.status)
		}
		if r := ask(s, "GET", boardTarget, "", "If-None-Match: "+first.header.Get("Etag")); r.status != 304 {
			t.Errorf("after a jump of %s: %d instead of 304", by, r.status)
		}
	}
	s.journal.flush()
	if lines := strings.Count(log.String(), `"msg":"request"`); lines != 1+2*len(jumps()) {
		t.Errorf("%d lines in the log", lines)
	}
	if strings.Contains(log.String(), `"us":-`) {
		t.Errorf("a request took less than no time: %s", log.String())
	}
}

// While a request is answered the clock may jump back: it took no time then.
func TestFaultClockJumpsDuringARequest(t *testing.T) {
	now := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
	s := server(t, Options{Now: func() time.Time { now = now.Add(-time.Hour); return now }})
	ask(s, "GET", boardTarget, "")
	body := ask(s, "GET", "/metrics", "").body
	if !strings.Contains(body, `hotroom_request_seconds_sum{route="/v1/boards/:id",method="GET"} 0`+"\n") {
		t.Errorf("the metrics say\n%s", body)
	}
}

// However the clock jumps between two changes of files, they are read soon.
func TestFaultClockJumpsWhileFilesChange(t *testing.T) {
	for _, by := range jumps() {
		now := time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)
		var due timer
		due.push(now)
		due.push(now.Add(by))
		select {
		case <-due.fires:
		case <-time.After(10 * settle):
			t.Errorf("after a jump of %s they are not read", by)
		}
	}
	dir := folder(t)
	at := &clock{now: time.Date(2026, 3, 1, 12, 0, 0, 0, time.UTC)}
	s := server(t, Options{Source: advisor.Source{Folder: dir}, Now: at.Now})
	watching(t, s)
	boards := filepath.Join(dir, "boards.toml")
	for i, by := range []time.Duration{-200_000 * time.Hour, 400_000 * time.Hour} {
		at.jump(by)
		edit(t, boards, fmt.Sprintf("price = %d\n", 79+i), fmt.Sprintf("price = %d\n", 80+i))
		long := at.Now()
		if err := os.Chtimes(boards, long, long); err != nil { // as the clock has it
			t.Fatal(err)
		}
		until(t, "the new price", func() bool {
			return strings.Contains(ask(s, "GET", boardTarget, "").body, fmt.Sprintf(`"price":%d`, 80+i))
		})
	}
}
