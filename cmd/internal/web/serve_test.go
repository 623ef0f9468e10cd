package web

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// serving serves on a real listener; stop tells it to stop, and ended gives
// what Serve returned.
func serving(t *testing.T, o Options) (s *Server, address string, stop func(), ended <-chan error) {
	t.Helper()
	s = server(t, o)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- s.Serve(ctx, l); close(done) }()
	t.Cleanup(func() { cancel(); <-done })
	return s, l.Addr().String(), cancel, done
}

// raw sends bytes and reads one answer.
func raw(t *testing.T, address, request string) (status int, body string) {
	t.Helper()
	c, err := net.Dial("tcp", address)
	if err != nil {
		t.Fatal(err)
	}
	defer c.Close()
	_ = c.SetDeadline(time.Now().Add(10 * time.Second))
	go io.WriteString(c, request) //nolint:errcheck // the server may stop reading
	r, err := http.ReadResponse(bufio.NewReader(c), nil)
	if err != nil {
		t.Fatalf("no answer: %v", err)
	}
	defer r.Body.Close()
	text, err := io.ReadAll(r.Body)
	if err != nil {
		t.Fatal(err)
	}
	return r.StatusCode, string(text)
}

// Over a real connection, long answers and short ones arrive whole, of every
// length around the library's buffer too, and many on one connection.
func TestWholeAnswers(t *testing.T) {
	s, address, _, _ := serving(t, Options{})
	for n := range 5000 {
		rt := &route{media: "text/plain"}
		s.kept.put(s.store.current.Load().tag, fmt.Sprintf("/n/%d", n), newEntry(rt, "t", bytes.Repeat([]byte("x"), n)))
	}
	client := &http.Client{Transport: &http.Transport{DisableCompression: true, MaxConnsPerHost: 1}, Timeout: 5 * time.Second}
	for n := 3500; n < 4300; n++ {
		r, err := client.Get(fmt.Sprintf("http://%s/n/%d", address, n))
		if err != nil {
			t.Fatal(n, err)
		}
		body, err := io.ReadAll(r.Body)
		r.Body.Close()
		if err != nil || len(body) != n {
			t.Fatalf("%d bytes of %d: %v", len(body), n, err)
		}
	}
	for n := 3600; n < 4000; n++ { // and on connections that are closed after it
		if _, body := raw(t, address, fmt.Sprintf("GET /n/%d HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n", n)); len(body) != n {
			t.Fatalf("%d bytes of %d", len(body), n)
		}
	}
}

func TestRefusedOnTheWire(t *testing.T) {
	_, address, _, _ := serving(t, Options{})
	flood := strings.Repeat("X-Flood: 0123456789012345678901234567890123456789\r\n", 400)
	for _, tt := range []struct {
		name, request string
		status        int
		want          string
	}{
		{"header flood", "GET /v1/advice HTTP/1.1\r\nHost: x\r\n" + flood + "\r\n", 431, `"kind":"headers-too-large"`},
		{"endless head", "GET /v1/advice HTTP/1.1\r\nHost: x\r\n" + strings.Repeat(flood, 5) + "\r\n", 431, "Request Header Fields Too Large"},
		{"no HTTP", "nonsense\r\n\r\n", 400, "Bad Request"},
		{"announced too long", "POST /v1/advice HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 99999999\r\n\r\n", 413, `"kind":"body-too-large"`},
		{"too long in chunks", "POST /v1/advice HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n" + strings.Repeat("10000\r\n"+strings.Repeat(" ", 0x10000)+"\r\n", 70), 413, `"kind":"body-too-large"`},
		{"a path that climbs", "GET /v1/../../etc/passwd HTTP/1.1\r\nHost: x\r\n\r\n", 404, `"kind":"no-such-path"`},
		{"two lengths", "POST /v1/advice HTTP/1.1\r\nHost: x\r\nContent-Length: 2\r\nContent-Length: 3\r\n\r\n{}", 400, "Bad Request"},
		{"another proxy's request", "GET http://elsewhere.example/v1/facts HTTP/1.1\r\nHost: x\r\n\r\n", 200, `"rows"`},
	} {
		t.Run(tt.name, func(t *testing.T) {
			if status, body := raw(t, address, tt.request); status != tt.status || !strings.Contains(body, tt.want) {
				t.Errorf("%d %.300s", status, body)
			}
		})
	}
}

// A body that does not come keeps nobody else waiting, and ends with a word.
func TestSlowClient(t *testing.T) {
	_, address, _, _ := serving(t, Options{})
	var slow []net.Conn
	for range 50 {
		c, err := net.Dial("tcp", address)
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
		fmt.Fprintf(c, "POST /v1/advice HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 100\r\n\r\n{")
		slow = append(slow, c)
	}
	began := time.Now()
	if status, _ := raw(t, address, "GET /v1/facts HTTP/1.1\r\nHost: x\r\n\r\n"); status != 200 || time.Since(began) > 2*time.Second {
		t.Errorf("%d after %s", status, time.Since(began))
	}
	if half, ok := slow[0].(*net.TCPConn); ok {
		_ = half.CloseWrite()
	}
	_ = slow[0].SetReadDeadline(time.Now().Add(5 * time.Second))
	r, err := http.ReadResponse(bufio.NewReader(slow[0]), nil)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	if body, _ := io.ReadAll(r.Body); r.StatusCode != 400 || !strings.Contains(string(body), `"kind":"bad-body"`) {
		t.Errorf("%d %s", r.StatusCode, body)
	}
}

// Under load, a server that is told to stop turns red, goes on answering while
// it drains, and lets no answer fall.
func TestGracefulStop(t *testing.T) {
	_, address, stop, ended := serving(t, Options{Drain: 300 * time.Millisecond})
	var answered, broken, red atomic.Int64
	var all sync.WaitGroup
	stopped := make(chan struct{})
	for worker := range 8 {
		all.Go(func() {
			client := &http.Client{Transport: &http.Transport{}, Timeout: 5 * time.Second}
			for i := 0; ; i++ {
				r, err := client.Get(fmt.Sprintf("http://%s/v1/advice?board=gneiss&chip=v10&room=%d.%d", address, 20+worker, i))
				if err != nil {
					select {
					case <-stopped: // the listener is closed: nothing was begun
					default:
						broken.Add(1)
					}
					return
				}
				_, err = io.Copy(io.Discard, r.Body)
				r.Body.Close()
				if err != nil || r.StatusCode != 200 {
					broken.Add(1)
					return
				}
				answered.Add(1)
			}
		})
	}
	time.Sleep(200 * time.Millisecond)
	before := answered.Load()
	stop()
	until(t, "a red readiness", func() bool {
		r, err := http.Get("http://" + address + "/readyz")
		if err != nil {
			return false
		}
		defer r.Body.Close()
		body, _ := io.ReadAll(r.Body)
		if r.StatusCode == 503 && strings.Contains(string(body), `"status":"stopping"`) {
			red.Add(1)
			return true
		}
		return false
	})
	time.Sleep(200 * time.Millisecond) // still draining
	close(stopped)
	if err := <-ended; err != nil {
		t.Error(err)
	}
	all.Wait()
	if broken.Load() > 0 || red.Load() != 1 || before == 0 || answered.Load() == before {
		t.Errorf("%d answers fell, %d were given before and %d after the stop, red %d", broken.Load(), before, answered.Load()-before, red.Load())
	}
}

// A listener that has no room lets the next client in when one has left.
func TestListenerIsBounded(t *testing.T) {
	inner, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	l := newListener(inner, 1)
	defer l.Close()
	for range 2 {
		c, err := net.Dial("tcp", inner.Addr().String())
		if err != nil {
			t.Fatal(err)
		}
		defer c.Close()
	}
	first, err := l.Accept()
	if err != nil {
		t.Fatal(err)
	}
	second := make(chan error, 2)
	go func() { _, err := l.Accept(); second <- err; _, err = l.Accept(); second <- err }()
	select {
	case <-second:
		t.Fatal("a second connection was taken")
	case <-time.After(50 * time.Millisecond):
	}
	first.Close()
	first.Close()
	if err := <-second; err != nil {
		t.Error(err)
	}
	l.Close()
	if err := <-second; err == nil {
		t.Error("a closed listener accepts")
	}
}
