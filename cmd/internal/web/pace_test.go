//go:build linux

package web

import (
	"bufio"
	"bytes"
	"context"
	"encoding/json"
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
	"sync/atomic"
	"testing"
	"time"

	"github.com/labstack/echo/v4"
	"golang.org/x/sys/unix"

	"hotroom/advisor"
)

// The pace of this server beside that of a bare echo handler that returns the
// same bytes: one processor for the server, one for the client, pairs of runs in
// turn, medians of their ratios. It takes a minute and a quarter and needs two
// processors with little else to do, so it runs when asked for:
//
//	HOTROOM_PACE=1 go test ./cmd/internal/web -run '^TestPace$' -v -count 1
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

// paces are what is asked, in rooms that no request before had, and the least
// share of the bare handler's pace: 0.92 and 0.35 are wanted of answers at hand
// and worked out anew. What the guide holds are all boards with all chips that
// fit them, over the rooms from cool to attic. The other floors guard what is
// there.
func paces(t *testing.T) []paceOf {
	one := func(int) string { return "/v1/advice?board=quarry&chip=v10&room=32" }
	anew := func(pairs []string, from, span float64) func(int) string {
		return func(n int) string { // millions of rooms, all over the span, before one comes again
			const perK, stride = 1e6, 7919
			return fmt.Sprintf("/v1/advice?%s&room=%.6f", pairs[n%len(pairs)], from+float64(n*stride%int(span*perK))/perK)
		}
	}
	all := fitting(demo(t, advisor.Source{}))
	return []paceOf{
		{"cached", one, "", 0.92},
		{"cached, compressed", one, "gzip", 0.92},
		{"uncached, of the guide", anew(all, 18, 20), "", 0.35},
		{"uncached, of the guide, gzip taken", anew(all, 18.5, 19), "gzip", 0.35},
		{"uncached, a yes", anew([]string{"board=gneiss&chip=v10"}, 22, 4), "", 0.35},
		{"uncached, a no", anew([]string{"board=flint&chip=v10"}, 22, 4), "", 0.15},
	}
}

type paceOf struct {
	name   string
	target func(n int) string // of the nth request
	coding string
	least  float64
}

func TestPace(t *testing.T) {
	if os.Getenv(paceAsked) == "" {
		t.Skip("SKIPPED, NOT MEASURED: it needs two quiet processors; set " + paceAsked + "=1")
	}
	runtime.LockOSThread()
	defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(1))
	pin(t, 0, 1)
	ours := startPaced(t, "ours", nil)
	for _, p := range paces(t) {
		bodies := p.sample(t, ours.address)
		bare := startPaced(t, "bare", bodies)
		var rate, cost []float64
		hits := ours.hits(t)
		for range 15 {
			a, b := drive(t, ours, p.target, p.coding), drive(t, bare, func(int) string { return "/v1/advice" }, p.coding)
			rate, cost = append(rate, a.rate/b.rate), append(cost, b.cpu/a.cpu)
		}
		slices.Sort(rate)
		slices.Sort(cost)
		t.Logf("%-34s %5d bytes  throughput %.3f of the bare handler (quartiles %.3f, %.3f)  processor time %.3f (%.3f, %.3f)",
			p.name, len(slices.Concat(bodies...))/len(bodies), rate[7], rate[3], rate[11], cost[7], cost[3], cost[11])
		if max(rate[7], cost[7]) < p.least {
			t.Errorf("%s: %.3f is below %.2f", p.name, max(rate[7], cost[7]), p.least)
		}
		if anew := p.target(0) != p.target(1); anew != (ours.hits(t) == hits) {
			t.Errorf("%s: %d answers were at hand", p.name, ours.hits(t)-hits)
		}
		bare.stop()
	}
}

// sample gives answers as the bare handler is to give them, in turn: the only
// one that is asked for, or some of them.
func (p *paceOf) sample(t *testing.T, address string) [][]byte {
	if p.target(0) == p.target(1) { // as it is given from the second time on
		fetchPaced(t, address, p.target(0), p.coding)
		return [][]byte{fetchPaced(t, address, p.target(0), p.coding)}
	}
	var bodies [][]byte
	const some = 144 // three of each pair of the demo
	for n := range some {
		bodies = append(bodies, fetchPaced(t, address, p.target(n), p.coding))
	}
	return bodies
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

// hits counts the answers that were at hand.
func (p *paced) hits(t *testing.T) int {
	t.Helper()
	_, after, _ := strings.Cut(string(fetchPaced(t, p.address, "/metrics", "")), "hotroom_cache_lookups_total{result=\"hit\"} ")
	n, err := strconv.Atoi(strings.SplitN(after, "\n", 2)[0])
	if err != nil {
		t.Fatal(err)
	}
	return n
}

func startPaced(t *testing.T, kind string, bodies [][]byte) *paced {
	t.Helper()
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), paceServer+"="+kind, "GOMAXPROCS=1")
	given, err := json.Marshal(bodies)
	if err != nil {
		t.Fatal(err)
	}
	c.Stdin = bytes.NewReader(given)
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
// echo handler that returns what stands on its input, in turn.
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
	var bodies [][]byte
	if err := json.NewDecoder(os.Stdin).Decode(&bodies); err != nil {
		panic(err)
	}
	var count atomic.Uint64
	e := echo.New()
	e.GET("/v1/advice", func(c echo.Context) error {
		return c.Blob(http.StatusOK, jsonType, bodies[count.Add(1)%uint64(len(bodies))])
	})
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
