package main

import (
	"bufio"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"
)

// server is the program serving.
type server struct {
	address string
	process *os.Process
	ended   chan int // its exit code; −1: a signal ended it

	mu   sync.Mutex
	said strings.Builder
}

// serve starts the program on a free port.
func serve(t *testing.T, args ...string) *server {
	t.Helper()
	return serveBy(t, hotroom(append([]string{"serve", "--listen", "127.0.0.1:0", "--drain", "0s", "--plain"}, args...)...))
}

func serveBy(t *testing.T, c *exec.Cmd) *server {
	t.Helper()
	messages, err := c.StderrPipe()
	if err != nil {
		t.Fatal(err)
	}
	c.Env = promptly()
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	s := &server{process: c.Process, ended: make(chan int, 1)}
	go s.hear(messages, func() { _ = c.Wait(); s.ended <- c.ProcessState.ExitCode() })
	t.Cleanup(func() {
		_ = c.Process.Kill() // it has ended as a rule
		if said := s.log(); strings.Contains(said, "goroutine ") || strings.Contains(said, `"panic"`) {
			t.Errorf("it broke down: %s", said)
		}
	})
	listens := regexp.MustCompile(`hotroom serves http://(\S+)`)
	until(t, "the address", func() bool {
		m := listens.FindStringSubmatch(s.log())
		if m != nil {
			s.address = m[1]
		}
		return m != nil
	})
	return s
}

func (s *server) hear(messages io.Reader, end func()) {
	lines := bufio.NewReader(messages)
	for {
		line, err := lines.ReadString('\n')
		s.mu.Lock()
		s.said.WriteString(line)
		s.mu.Unlock()
		if err != nil {
			end()
			return
		}
	}
}

func (s *server) log() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.said.String()
}

// stop tells the server to stop and wants it to end well.
func (s *server) stop(t *testing.T) {
	t.Helper()
	if err := s.process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	s.ends(t)
}

func (s *server) ends(t *testing.T) {
	t.Helper()
	select {
	case code := <-s.ended:
		if code != 0 {
			t.Errorf("exit code %d; it says %s", code, s.log())
		}
	case <-time.After(20 * time.Second):
		t.Fatal("it does not end")
	}
}

// get asks on a connection of its own.
func (s *server) get(t *testing.T, target string) (status int, body string) {
	t.Helper()
	status, body, err := s.send(http.MethodGet, target, "")
	if err != nil {
		t.Fatal(err)
	}
	return status, body
}

// record sends a run with an id.
func (s *server) record(id string) (status int, body string, err error) {
	return s.send(http.MethodPost, "/v1/runs", `{"id":"`+id+`","date":"2025-06-01","board":"slate","chip":"v10","enclosure":"bench","cooler":"liquid",`+
		`"room_c":22.4,"ghz":3.9,"volts":1.02,"package_w":131,"hot_c":81,"outcome":"settled"}`)
}

const token = "plum-tree"

// tokenFile lets whoever has the token record.
func tokenFile(t *testing.T) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "token")
	write(t, file, token+"\n")
	return file
}

func (s *server) send(method, target, body string) (status int, answer string, err error) {
	request, err := http.NewRequest(method, "http://"+s.address+target, strings.NewReader(body))
	if err != nil {
		return 0, "", err
	}
	request.Header.Set("Content-Type", "application/json")
	request.Header.Set("Authorization", "Bearer "+token)
	r, err := (&http.Client{Transport: &http.Transport{DisableKeepAlives: true}, Timeout: 20 * time.Second}).Do(request)
	if err != nil {
		return 0, "", err
	}
	defer r.Body.Close()
	text, err := io.ReadAll(r.Body)
	return r.StatusCode, string(text), err
}

// dial opens a connection and sends the beginning of a request.
func (s *server) dial(t *testing.T, beginning string) net.Conn {
	t.Helper()
	c, err := net.DialTimeout("tcp", s.address, 20*time.Second)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = c.Close() }) // it may be closed
	if _, err := io.WriteString(c, beginning); err != nil {
		t.Fatal(err)
	}
	return c
}

// goroutines gives how many the server has.
func (s *server) goroutines(t *testing.T) int {
	t.Helper()
	_, body := s.get(t, "/metrics")
	m := regexp.MustCompile(`(?m)^hotroom_goroutines (\d+)$`).FindStringSubmatch(body)
	if m == nil {
		t.Fatalf("no goroutines are counted in %s", body)
	}
	n, err := strconv.Atoi(m[1])
	if err != nil {
		t.Fatal(err)
	}
	return n
}

// A port that is taken is refused in a sentence, and whoever has it keeps it.
func TestFaultPortInUse(t *testing.T) {
	s := serve(t)
	try(t, hotroom("serve", "--listen", s.address)).wants(t, "a second server", 1, fmt.Sprintf(
		"hotroom: nothing can listen on %s (listen tcp %s: bind: address already in use): choose another address with --listen, or port 0 for a free one", s.address, s.address))
	if status, _ := s.get(t, "/healthz"); status != 200 {
		t.Errorf("the first one answers with %d", status)
	}
	s.stop(t)
}

// A server that is told to stop turns red and goes on answering; a request that
// had begun is answered even after the listener is closed.
func TestFaultStopWhileAnswering(t *testing.T) {
	s := serve(t, "--drain", "500ms")
	const question = `{"board":"slate","chip":"v10"}`
	c := s.dial(t, "POST /v1/advice HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\nExpect: 100-continue\r\nContent-Length: "+strconv.Itoa(len(question))+"\r\n\r\n")
	answers := bufio.NewReader(c)
	if line, err := answers.ReadString('\n'); err != nil || line != "HTTP/1.1 100 Continue\r\n" {
		t.Fatalf("the request is not in flight: %q, %v", line, err)
	}
	if _, err := answers.ReadString('\n'); err != nil { // the empty line after it
		t.Fatal(err)
	}
	if _, err := io.WriteString(c, question[:9]); err != nil {
		t.Fatal(err)
	}
	if err := s.process.Signal(syscall.SIGTERM); err != nil {
		t.Fatal(err)
	}
	until(t, "a red readiness", func() bool {
		status, body := s.get(t, "/readyz")
		return status == 503 && strings.Contains(body, `"status":"stopping"`)
	})
	if status, _ := s.get(t, "/v1/advice?board=slate&chip=v10"); status != 200 {
		t.Errorf("while it drains it answers with %d", status)
	}
	until(t, "a closed listener", func() bool {
		c, err := net.Dial("tcp", s.address)
		if err == nil {
			_ = c.Close() // it only had to be taken
		}
		return err != nil
	})
	if _, err := io.WriteString(c, question[9:]); err != nil {
		t.Fatal(err)
	}
	r, err := http.ReadResponse(answers, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Body.Close()
	if body, err := io.ReadAll(r.Body); err != nil || r.StatusCode != 200 || !strings.Contains(string(body), `"verdict"`) {
		t.Errorf("what was in flight: %d %s (%v)", r.StatusCode, body, err)
	}
	s.ends(t)
	if !strings.Contains(s.log(), `"msg":"stopped"`) {
		t.Errorf("it says %s", s.log())
	}
}
