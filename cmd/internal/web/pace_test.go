//go:build linux

package web

import (
	"bufio"
	"bytes"
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/labstack/echo/v4"
	"golang.org/x/sys/unix"
)

// The pace of this server beside that of a bare echo handler that returns the
// same bytes: one processor for the server, one for the client, pairs of runs in
// turn, medians of their ratios. It takes half a minute and needs two processors
// with little else to do, so it runs when asked for:
//
//	HOTROOM_PACE=1 go test ./cmd/internal/web -run '^TestPace$' -v
const (
	paceAsked  = "HOTROOM_PACE"
	paceServer = "HOTROOM_PACE_SERVER" // set in the process that serves
)

func TestMain(m *testing.M) {
	if kind := os.Getenv(paceServer); kind != "" {
		servePaced(kind)
		return
	}
	os.Exit(m.Run())
}

// least is what must be reached: 0.92 and 0.35 are wanted of answers at hand and
// worked out anew; the other floors guard what is there.
var paces = []struct {
	name   string
	target func(n int) string // of the nth request
	coding string
	least  float64
}{
	{"cached", func(int) string { return "/v1/advice?board=quarry&chip=v10&room=32" }, "", 0.92},
	{"cached, compressed", func(int) string { return "/v1/advice?board=quarry&chip=v10&room=32" }, "gzip", 0.92},
	{"uncached, yes", func(n int) string {
		return fmt.Sprintf("/v1/advice?board=gneiss&chip=v10&room=%.4f", 22+float64(n%40_000)/1e4)
	}, "", 0.35},
	{"uncached, no", func(n int) string {
		return fmt.Sprintf("/v1/advice?board=flint&chip=v10&room=%.4f", 22+float64(n%40_000)/1e4)
	}, "", 0.15},
	{"uncached, any", func(n int) string {
		boards := []string{"gneiss", "anvil", "basalt", "quarry", "brook", "tongs", "flint", "kiln", "slate"}
		return fmt.Sprintf("/v1/advice?board=%s&chip=v10&room=%.4f", boards[n%len(boards)], 18+float64(n*7919%200_000)/1e4)
	}, "", 0.2},
	{"uncached, yes, gzip taken", func(n int) string {
		return fmt.Sprintf("/v1/advice?board=gneiss&chip=v10&room=%.4f", 32+float64(n%40_000)/1e4)
	}, "gzip", 0.35},
}

func TestPace(t *testing.T) {
	if os.Getenv(paceAsked) == "" {
		t.Skip("set " + paceAsked + "=1")
	}
	runtime.LockOSThread()
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	pin(t, 0, 1)
	ours := startPaced(t, "ours", nil)
	for _, p := range paces {
		sample := fetchPaced(t, ours.address, p.target(0), p.coding)
		if p.target(0) == p.target(1) { // as it is given from the second time on
			sample = fetchPaced(t, ours.address, p.target(0), p.coding)
		}
		bare := startPaced(t, "bare", sample)
		var rate, cost []float64
		for range 15 {
			a, b := drive(t, ours, p.target, p.coding), drive(t, bare, func(int) string { return "/v1/advice" }, p.coding)
			rate, cost = append(rate, a.rate/b.rate), append(cost, b.cpu/a.cpu)
		}
		slices.Sort(rate)
		slices.Sort(cost)
		t.Logf("%-26s %5d bytes  throughput %.3f of the bare handler (quartiles %.3f, %.3f)  processor time %.3f (%.3f, %.3f)",
			p.name, len(sample), rate[7], rate[3], rate[11], cost[7], cost[3], cost[11])
		if max(rate[7], cost[7]) < p.least {
			t.Errorf("%s: %.3f is below %.2f", p.name, max(rate[7], cost[7]), p.least)
		}
		bare.stop()
	}
}

// paced is a server in a process of its own.
type paced struct {
	address string
	command *exec.Cmd
}

func (p *paced) stop() {
	_ = p.command.Process.Kill()
	_ = p.command.Wait()
}

func startPaced(t *testing.T, kind string, body []byte) *paced {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), paceServer+"="+kind, "GOMAXPROCS=1")
	c.Stdin = bytes.NewReader(body)
	out, err := c.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	p := &paced{command: c}
	t.Cleanup(p.stop)
	line, err := bufio.NewReader(out).ReadString('\n')
	if err != nil {
		t.Fatal(err)
	}
	p.address = strings.TrimSpace(line)
	pin(t, c.Process.Pid, 0)
	return p
}

// pin keeps all threads of a process to one processor.
func pin(t *testing.T, pid, cpu int) {
	t.Helper()
	var set unix.CPUSet
	set.Set(cpu % runtime.NumCPU())
	if pid == 0 {
		pid = os.Getpid()
	}
	threads, err := filepath.Glob(fmt.Sprintf("/proc/%d/task/*", pid))
	if err != nil {
		t.Fatal(err)
	}
	for _, thread := range threads {
		id, _ := strconv.Atoi(filepath.Base(thread))
		if err := unix.SchedSetaffinity(id, &set); err != nil {
			t.Log("a thread is not pinned:", err)
		}
	}
}

// servePaced is the process that serves: ours with its usual options, or a bare
// echo handler that returns what stands on its input.
func servePaced(kind string) {
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		panic(err)
	}
	fmt.Println(l.Addr())
	if kind == "ours" {
		s, err := New(demo(&testing.T{}, Options{}.Source), Options{Program: "test", Log: io.Discard})
		if err != nil {
			panic(err)
		}
		_ = s.Serve(context.Background(), l)
		return
	}
	body, _ := io.ReadAll(os.Stdin)
	e := echo.New()
	e.GET("/v1/advice", func(c echo.Context) error { return c.Blob(http.StatusOK, jsonType, body) })
	_ = http.Serve(l, e)
}

func fetchPaced(t *testing.T, address, target, coding string) []byte {
	t.Helper()
	r, err := http.NewRequest(http.MethodGet, "http://"+address+target, http.NoBody)
	if err != nil {
		t.Fatal(err)
	}
	r.Header.Set("Accept-Encoding", coding)
	answer, err := http.DefaultTransport.RoundTrip(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil || answer.StatusCode != http.StatusOK {
		t.Fatal(answer.Status, err)
	}
	return body
}

// pace is how a run went: requests a second, and processor time of the server
// a request, ns.
type pace struct{ rate, cpu float64 }

// drive asks on 16 connections for a while. The client is written by hand, so
// that the server is what takes the time.
func drive(t *testing.T, p *paced, target func(int) string, coding string) pace {
	const connections, span = 16, 400 * time.Millisecond
	counts := make(chan int, connections)
	before, began := cpuTime(p.command.Process.Pid), time.Now()
	for c := range connections {
		go func() { counts <- driveOne(p.address, target, coding, c, began.Add(span)) }()
	}
	n := 0
	for range connections {
		n += <-counts
	}
	if n == 0 {
		t.Fatal("nothing was answered")
	}
	return pace{float64(n) / time.Since(began).Seconds(), (cpuTime(p.command.Process.Pid) - before) / float64(n)}
}

var paceCount int

func driveOne(address string, target func(int) string, coding string, c int, end time.Time) int {
	conn, err := net.Dial("tcp", address)
	if err != nil {
		return 0
	}
	defer conn.Close()
	r := bufio.NewReaderSize(conn, 16<<10)
	var request []byte
	for n := 0; ; n++ {
		if time.Now().After(end) {
			return n
		}
		paceCount++ // one processor, and a rough count is enough
		request = fmt.Appendf(request[:0], "GET %s HTTP/1.1\r\nHost: %s\r\nUser-Agent: pace\r\nAccept: */*\r\nAccept-Encoding: %s\r\n\r\n", target(paceCount), address, coding)
		if _, err := conn.Write(request); err != nil || !skipAnswer(r) {
			return n
		}
	}
}

// skipAnswer reads one answer, by its length or in chunks.
func skipAnswer(r *bufio.Reader) bool {
	length := -1
	for {
		line, err := r.ReadSlice('\n')
		if err != nil {
			return false
		}
		if len(line) <= 2 {
			break
		}
		if given, ok := bytes.CutPrefix(line, []byte("Content-Length: ")); ok {
			length, _ = strconv.Atoi(string(bytes.TrimSpace(given)))
		}
	}
	if length >= 0 {
		_, err := r.Discard(length)
		return err == nil
	}
	for {
		line, err := r.ReadSlice('\n')
		if err != nil {
			return false
		}
		size, _ := strconv.ParseInt(string(bytes.TrimSpace(line)), 16, 64)
		if _, err := r.Discard(int(size) + 2); err != nil {
			return false
		}
		if size == 0 {
			return true
		}
	}
}

// cpuTime sums the processor time of a process's threads, ns.
func cpuTime(pid int) float64 {
	files, _ := filepath.Glob(fmt.Sprintf("/proc/%d/task/*/schedstat", pid))
	total := 0.0
	for _, f := range files {
		text, _ := os.ReadFile(f)
		if fields := strings.Fields(string(text)); len(fields) > 0 {
			ns, _ := strconv.ParseFloat(fields[0], 64)
			total += ns
		}
	}
	return total
}
