package web

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"hotroom/advisor"
)

// replica is one server in this process, on a port of its own.
type replica struct {
	server  *Server
	address string
	stop    func()
}

func newReplica(t *testing.T, src advisor.Source) replica {
	t.Helper()
	l, err := (&net.ListenConfig{}).Listen(t.Context(), "tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s := server(t, Options{Source: src, Drain: 500 * time.Millisecond})
	ctx, cancel := context.WithCancel(t.Context())
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(ctx, l) }()
	stop := sync.OnceFunc(func() {
		cancel()
		if err := <-ended; err != nil {
			t.Error(err)
		}
	})
	t.Cleanup(stop)
	return replica{s, l.Addr().String(), stop}
}

// proxied starts nginx with the configuration that the documents show, before
// replicas, and gives its address.
func proxied(t *testing.T, replicas ...replica) string {
	t.Helper()
	path, err := exec.LookPath("nginx")
	if err != nil {
		if _, err := os.Stat("/usr/sbin/nginx"); err != nil {
			lacks(t, "nginx", "apt-get install nginx")
		}
		path = "/usr/sbin/nginx"
	}
	shown, err := os.ReadFile("testdata/nginx.conf")
	if err != nil {
		t.Fatal(err)
	}
	// nginx's workers may belong to another user, so the folder is open.
	dir, err := os.MkdirTemp("", "proxy")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = os.RemoveAll(dir) })
	if err := os.Chmod(dir, 0o755); err != nil {
		t.Fatal(err)
	}
	address := freePort(t)
	conf := strings.NewReplacer(
		"127.0.0.1:8081", replicas[0].address, "127.0.0.1:8082", replicas[1].address, "listen 8080", "listen "+address,
		"/var/cache/nginx/hotroom", filepath.Join(dir, "cache"),
	).Replace(string(shown))
	whole := fmt.Sprintf("daemon off;\npid %s/pid;\nerror_log %s/error.log;\nevents {}\nhttp {\naccess_log off;\n%s\n}\n", dir, dir, conf)
	file := filepath.Join(dir, "nginx.conf")
	if err := os.WriteFile(file, []byte(whole), 0o600); err != nil {
		t.Fatal(err)
	}
	start(t, path, dir, file)
	waitFor(t, address)
	return "http://" + address
}

func freePort(t *testing.T) string {
	t.Helper()
	l, err := (&net.ListenConfig{}).Listen(t.Context(), "tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	defer l.Close()
	return l.Addr().String()
}

func start(t *testing.T, path, dir, file string) {
	t.Helper()
	c := exec.Command(path, "-p", dir, "-c", file)
	var said strings.Builder
	c.Stderr = &said
	if err := c.Start(); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		_ = c.Process.Signal(os.Interrupt)
		_ = c.Wait() // nginx ends with the signal
		if t.Failed() {
			log, _ := os.ReadFile(filepath.Join(dir, "error.log"))
			t.Logf("nginx says\n%s%s", said.String(), log)
		}
	})
}

func waitFor(t *testing.T, address string) {
	t.Helper()
	for range 100 {
		if c, err := net.DialTimeout("tcp", address, time.Second); err == nil {
			_ = c.Close()
			return
		}
		time.Sleep(50 * time.Millisecond)
	}
	t.Fatalf("nothing listens on %s", address)
}

// load asks until it is stopped, and counts what came back.
type load struct {
	asked, failed, hits atomic.Int64
	last                atomic.Value
	stop                func()
}

func begin(t *testing.T, target func(n int64) string) *load {
	l := &load{}
	ctx, cancel := context.WithCancel(t.Context())
	var workers sync.WaitGroup
	client := &http.Client{Timeout: 10 * time.Second, Transport: &http.Transport{MaxIdleConnsPerHost: 8}}
	for range 4 {
		workers.Go(func() {
			for ctx.Err() == nil {
				l.one(client, target(l.asked.Add(1)))
			}
		})
	}
	l.stop = sync.OnceFunc(func() { cancel(); workers.Wait() })
	t.Cleanup(l.stop)
	return l
}

func (l *load) one(client *http.Client, target string) {
	r, err := client.Get(target)
	if err != nil {
		l.failed.Add(1)
		l.last.Store(err.Error())
		return
	}
	defer r.Body.Close()
	body, err := io.ReadAll(r.Body)
	if err != nil || r.StatusCode != http.StatusOK || len(body) == 0 {
		l.failed.Add(1)
		l.last.Store(fmt.Sprintf("%d %v %.200s", r.StatusCode, err, body))
	}
	if r.Header.Get("X-Cache") == "HIT" {
		l.hits.Add(1)
	}
}

// eventually waits for a condition under load.
func eventually(t *testing.T, what string, holds func() bool) {
	t.Helper()
	for range 600 {
		if holds() {
			return
		}
		time.Sleep(20 * time.Millisecond)
	}
	t.Errorf("in twelve seconds there was never %s", what)
}

// One of two replicas is stopped while both are asked through the proxy: no
// request fails.
func TestAReplicaStopsUnderLoad(t *testing.T) {
	first, second := newReplica(t, advisor.Source{}), newReplica(t, advisor.Source{})
	url := proxied(t, first, second)
	l := begin(t, func(n int64) string { // each a new question, past the proxy's cache
		return fmt.Sprintf("%s/v1/advice?board=brook&chip=v10&room=%d.%02d&graphics=%d", url, 15+n%20, n%97, n%500)
	})
	eventually(t, "a hundred answers", func() bool { return l.asked.Load() > 100 })
	first.stop()
	after := l.asked.Load()
	eventually(t, "three hundred answers more", func() bool { return l.asked.Load() > after+300 })
	l.stop()
	if failed := l.failed.Load(); failed != 0 {
		t.Errorf("%d of %d requests failed, the last with %v", failed, l.asked.Load(), l.last.Load())
	}
	if l.hits.Load() > l.asked.Load()/2 {
		t.Errorf("%d of %d answers came from the cache, so the replicas were hardly asked", l.hits.Load(), l.asked.Load())
	}
}

// The proxy gives what it holds while both replicas read new knowledge, and
// gives the new answer soon after.
func TestTheProxyServesHitsWhileReplicasReload(t *testing.T) {
	dir := t.TempDir()
	if err := os.CopyFS(dir, os.DirFS("../../../knowledge/demo")); err != nil {
		t.Fatal(err)
	}
	src := advisor.Source{Folder: dir}
	first, second := newReplica(t, src), newReplica(t, src)
	url := proxied(t, first, second)
	l := begin(t, func(n int64) string {
		return fmt.Sprintf("%s/card?board=brook&chip=v10&room=%d", url, 20+n%5)
	})
	eventually(t, "a hundred hits", func() bool { return l.hits.Load() > 100 })
	before := first.server.store.current.Load().tag
	for n := range 5 {
		rename(t, filepath.Join(dir, "boards.toml"), "Wexholm Brook", fmt.Sprintf("Wexholm Brook %d", n))
		hits := l.hits.Load()
		first.server.Reload(t.Context())
		second.server.Reload(t.Context())
		eventually(t, "fifty hits after a reload", func() bool { return l.hits.Load() > hits+50 })
	}
	l.stop()
	if failed := l.failed.Load(); failed != 0 {
		t.Errorf("%d of %d requests failed, the last with %v", failed, l.asked.Load(), l.last.Load())
	}
	now := first.server.store.current.Load().tag
	if now == before || now != second.server.store.current.Load().tag {
		t.Errorf("the replicas went from %s to %s and %s", before, now, second.server.store.current.Load().tag)
	}
}

// rename puts a name in the place of another, as an editor saves: all at once.
func rename(t *testing.T, file, was, is string) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	out := strings.Replace(string(text), "name = \""+was, "name = \""+is, 1)
	if out == string(text) {
		t.Fatalf("%s does not hold %q", file, was)
	}
	if err := os.WriteFile(file+".new", []byte(out), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(file+".new", file); err != nil {
		t.Fatal(err)
	}
}
