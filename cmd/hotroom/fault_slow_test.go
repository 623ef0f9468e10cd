package main

import (
	"fmt"
	"io"
	"net"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"
)

const slowClients = 1000

// A thousand clients that dribble their heads, or their bodies, keep no quick
// one waiting. The server cuts them off, and its memory and its goroutines are
// what they were; it makes no difference how many have been there before.
func TestFaultThousandSlowClients(t *testing.T) {
	enoughFiles(t, slowClients+100)
	s := serve(t)
	s.quick(t, 20) // so that what is kept is kept before
	goroutines, memory := s.goroutines(t), s.memory(t)
	var first, rise int
	for wave := range 4 {
		slow, worst := s.slow(t, goroutines)
		if worst > 2*time.Second {
			t.Errorf("a quick client waited %s", worst)
		}
		high := s.memory(t)
		if wave == 3 {
			cutOff(t, slow)
		}
		for _, c := range slow {
			_ = c.Close() // it is to go
		}
		until(t, "the goroutines of before", func() bool { return s.goroutines(t) <= goroutines+10 })
		after := s.memory(t)
		t.Logf("a quick client waited %s at most; %d goroutines before and %d after; %d MiB before, %d with them, %d after",
			worst.Round(time.Millisecond), goroutines, s.goroutines(t), memory>>20, high>>20, after>>20)
		if wave == 0 {
			first, rise = after, high-memory
		}
		if after > first+rise+8<<20 { // three waves that stay would be three times the rise
			t.Errorf("memory grows from %d to %d MiB", first>>20, after>>20)
		}
	}
	s.stop(t)
}

// slow lets a thousand slow clients in, and gives them with the longest time
// that a quick one waited meanwhile.
func (s *server) slow(t *testing.T, goroutines int) (clients []net.Conn, worst time.Duration) {
	t.Helper()
	for i := range slowClients {
		beginning := "GET /v1/facts HTTP/1.1\r\nHost: x\r\nX-Slow: "
		if i%4 == 0 {
			beginning = "POST /v1/advice HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nContent-Length: 1000\r\n\r\n{"
		}
		clients = append(clients, s.dial(t, beginning))
	}
	until(t, "a thousand connections", func() bool { return s.goroutines(t) >= goroutines+slowClients*9/10 }) // the first may be cut off
	for range 3 {
		worst = max(worst, s.quick(t, 20))
		for _, c := range clients {
			_, _ = io.WriteString(c, " ") // the server may have cut it off
		}
	}
	return clients, worst
}

// cutOff wants the server to cut off every client whose head does not come. It
// does so after 5 s, for bodies after 20 s, which are not waited for.
func cutOff(t *testing.T, clients []net.Conn) {
	t.Helper()
	for i, c := range clients {
		if i%4 == 0 {
			continue
		}
		_ = c.SetReadDeadline(time.Now().Add(20 * time.Second))
		if _, err := io.Copy(io.Discard, c); isTimeout(err) {
			t.Fatalf("the slow client %d was never cut off", i)
		}
	}
}

func isTimeout(err error) bool {
	timeout, ok := err.(net.Error)
	return ok && timeout.Timeout()
}

// enoughFiles skips where so many files cannot be open.
func enoughFiles(t *testing.T, many uint64) {
	t.Helper()
	var limit syscall.Rlimit
	if err := syscall.Getrlimit(syscall.RLIMIT_NOFILE, &limit); err != nil || limit.Max < many {
		t.Skipf("SKIPPED: only %d files may be open here (%v), so a thousand slow clients were NOT tried", limit.Max, err)
	}
}

// quick asks many times, some of it worked out anew, and gives the longest
// wait.
func (s *server) quick(t *testing.T, times int) (worst time.Duration) {
	t.Helper()
	for i := range times {
		began := time.Now()
		status, _ := s.get(t, fmt.Sprintf("/v1/advice?board=slate&chip=v10&room=%d.%d", 20+i, time.Now().Nanosecond()%1000))
		if status != 200 {
			t.Errorf("a quick client is answered with %d", status)
		}
		worst = max(worst, time.Since(began))
	}
	return worst
}

// memory gives the server's resident memory, bytes.
func (s *server) memory(t *testing.T) int {
	t.Helper()
	status, err := os.ReadFile(fmt.Sprintf("/proc/%d/status", s.process.Pid))
	if err != nil {
		t.Logf("SKIPPED: the memory of a process is not told here (%v), so it was NOT looked at", err)
		return 0
	}
	m := regexp.MustCompile(`VmRSS:\s+(\d+) kB`).FindStringSubmatch(string(status))
	if m == nil {
		t.Fatalf("no memory in %s", status)
	}
	n, err := strconv.Atoi(m[1])
	if err != nil {
		t.Fatal(err)
	}
	return n << 10
}

// Out of file descriptors, a server lets new clients wait, keeps its knowledge,
// and goes on when old ones leave.
func TestFaultNoFilesLeft(t *testing.T) {
	folder := ownFolder(t)
	s := serveBy(t, exec.Command("sh", "-c", `ulimit -n 40; exec "$@"`, "sh", "hotroom", "serve", "--listen", "127.0.0.1:0", "--drain", "0s", "--plain", "--log", "events", "--knowledge", folder))
	_, before := s.get(t, slateTarget)
	var many []net.Conn
	for range 100 {
		many = append(many, s.dial(t, "GET /"))
	}
	until(t, "a word in the log", func() bool { return strings.Contains(s.log(), "too many open files") })
	// A reading that began with the last files that were free is a good one: it
	// is asked for until one finds none.
	until(t, "a failed reading", func() bool {
		if err := s.process.Signal(syscall.SIGHUP); err != nil {
			t.Fatal(err)
		}
		return strings.Contains(s.log(), "reload failed; the last good state still answers")
	})
	for _, c := range many {
		_ = c.Close() // it is to go
	}
	if status, after := s.get(t, slateTarget); status != 200 || after != before {
		t.Errorf("when they have left: %d %.300s", status, after)
	}
	s.stop(t)
}
