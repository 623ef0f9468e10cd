package web

import (
	"context"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"hotroom/advisor"
	"hotroom/knowledge"
	"hotroom/rules"
)

// folder writes the demo into a folder of its own.
func folder(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "knowledge")
	if err := os.CopyFS(dir, knowledge.Demo()); err != nil {
		t.Fatal(err)
	}
	return dir
}

// edit changes a text in a file, as an editor does: a new file is renamed over
// the old one.
func edit(t *testing.T, file, from, to string) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), from) {
		t.Fatalf("%s does not hold %q", file, from)
	}
	if err := os.WriteFile(file+"~", []byte(strings.ReplaceAll(string(text), from, to)), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Rename(file+"~", file); err != nil {
		t.Fatal(err)
	}
}

// watching runs a server's watcher.
func watching(t *testing.T, s *Server) {
	t.Helper()
	ctx, cancel := context.WithCancel(t.Context())
	done := make(chan error, 1)
	go func() { done <- s.watch(ctx) }()
	t.Cleanup(func() {
		cancel()
		if err := <-done; err != nil {
			t.Error(err)
		}
	})
	until(t, "the first reading", func() bool { return s.store.last.Load().outcome == unchanged })
}

// until waits for something to come true.
func until(t *testing.T, what string, holds func() bool) {
	t.Helper()
	for end := time.Now().Add(10 * time.Second); !holds(); time.Sleep(5 * time.Millisecond) {
		if time.Now().After(end) {
			t.Fatal("never came: " + what)
		}
	}
}

const boardTarget = "/v1/boards/slate"

// Valid, invalid, valid: each good edit is taken with its own tag, a broken one
// changes nothing and is told, and what is mended is told too.
func TestReload(t *testing.T) {
	dir := folder(t)
	boards := filepath.Join(dir, "boards.toml")
	var log syncBuilder
	s := server(t, Options{Source: advisor.Source{Folder: dir}, Log: &log, Detail: Events})
	watching(t, s)
	first := ask(s, "GET", boardTarget, "")

	edit(t, boards, "price = 79\n", "price = 81\n")
	until(t, "the new price", func() bool { return strings.Contains(ask(s, "GET", boardTarget, "").body, `"price":81`) })
	second := ask(s, "GET", boardTarget, "")
	if second.header.Get("Etag") == first.header.Get("Etag") {
		t.Error("another state has the same tag")
	}
	if r := ask(s, "GET", boardTarget, "", "If-None-Match: "+first.header.Get("Etag")); r.status != 200 {
		t.Errorf("the tag of the old state: %d", r.status)
	}

	edit(t, boards, "price = 81\n", "price = -1\n")
	until(t, "the failure", func() bool { return s.store.last.Load().outcome == failed })
	if r := ask(s, "GET", boardTarget, ""); r.body != second.body || r.header.Get("Etag") != second.header.Get("Etag") {
		t.Error("a broken edit changed the answer")
	}
	ready := ask(s, "GET", "/readyz", "")
	if want := `"outcome":"failed","problems":["boards.toml:9:9: price is -1: give 0 to 1000000000"]`; ready.status != 200 || !strings.Contains(ready.body, want) {
		t.Errorf("readiness says %d %s, without %s", ready.status, ready.body, want)
	}
	metrics := ask(s, "GET", "/metrics", "").body
	for _, want := range []string{"hotroom_reload_good 0\n", `hotroom_reloads_total{outcome="failed"} 1` + "\n"} {
		if !strings.Contains(metrics, want) {
			t.Errorf("the metrics are without %s", want)
		}
	}
	if !strings.Contains(log.String(), `"level":"ERROR","msg":"reload failed; the last good state still answers","problems":["boards.toml:9:9: `) {
		t.Errorf("the log says\n%s", log.String())
	}

	edit(t, boards, "price = -1\n", "price = 79\n")
	until(t, "the old price", func() bool { return strings.Contains(ask(s, "GET", boardTarget, "").body, `"price":79`) })
	if r := ask(s, "GET", boardTarget, ""); r.body != first.body || r.header.Get("Etag") != first.header.Get("Etag") {
		t.Error("the old files do not give the old answer")
	}
	if r := ask(s, "GET", "/metrics", "").body; !strings.Contains(r, "hotroom_reload_good 1\n") {
		t.Error("the metrics stay red")
	}
}

// Rules in the folder, rules of their own, and a folder that is put in the
// place of another by a link are all noticed.
func TestReloadOfOtherKinds(t *testing.T) {
	broken := `verdict = []` // broken: it only has to be noticed
	dir := folder(t)
	t.Run("rules appear in the folder", func(t *testing.T) {
		s := server(t, Options{Source: advisor.Source{Folder: dir}})
		watching(t, s)
		put(t, filepath.Join(dir, "rules.toml"), broken)
		until(t, "the failure", func() bool { return s.store.last.Load().outcome == failed })
		if err := os.Remove(filepath.Join(dir, "rules.toml")); err != nil {
			t.Fatal(err)
		}
		until(t, "the mending", func() bool { return s.store.last.Load().outcome == unchanged })
	})
	t.Run("rules of their own", func(t *testing.T) {
		file := filepath.Join(t.TempDir(), "mine.toml")
		put(t, file, string(defaultRules()))
		s := server(t, Options{Source: advisor.Source{RulesFile: file}})
		watching(t, s)
		put(t, file, string(defaultRules())+"\n# a remark\n")
		until(t, "the new rules", func() bool { return s.store.last.Load().outcome == loaded })
	})
	t.Run("rules of their own, mounted", func(t *testing.T) {
		dir := t.TempDir()
		for i, text := range []string{string(defaultRules()), string(defaultRules()) + "\n# a remark\n"} {
			if err := os.Mkdir(filepath.Join(dir, fmt.Sprint(i)), 0o700); err != nil {
				t.Fatal(err)
			}
			put(t, filepath.Join(dir, fmt.Sprint(i), "rules.toml"), text)
		}
		link := func(to, name string) {
			if err := os.Symlink(to, filepath.Join(dir, name+"~")); err != nil {
				t.Fatal(err)
			}
			if err := os.Rename(filepath.Join(dir, name+"~"), filepath.Join(dir, name)); err != nil {
				t.Fatal(err)
			}
		}
		link("0", "..data")
		link("..data/rules.toml", "rules.toml")
		s := server(t, Options{Source: advisor.Source{RulesFile: filepath.Join(dir, "rules.toml")}})
		watching(t, s)
		link("1", "..data")
		until(t, "the new rules", func() bool { return s.store.last.Load().outcome == loaded })
	})
	t.Run("another folder by a link", func(t *testing.T) {
		top := t.TempDir()
		for _, version := range []string{"1", "2"} {
			if err := os.CopyFS(filepath.Join(top, version), knowledge.Demo()); err != nil {
				t.Fatal(err)
			}
		}
		edit(t, filepath.Join(top, "2", "boards.toml"), "price = 79\n", "price = 80\n")
		link := filepath.Join(top, "current")
		if err := os.Symlink("1", link); err != nil {
			t.Fatal(err)
		}
		s := server(t, Options{Source: advisor.Source{Folder: link}})
		watching(t, s)
		if err := os.Symlink("2", link+"~"); err != nil {
			t.Fatal(err)
		}
		if err := os.Rename(link+"~", link); err != nil {
			t.Fatal(err)
		}
		until(t, "the new folder", func() bool { return strings.Contains(ask(s, "GET", boardTarget, "").body, `"price":80`) })
		edit(t, filepath.Join(top, "2", "boards.toml"), "price = 80\n", "price = 82\n")
		until(t, "an edit in it", func() bool { return strings.Contains(ask(s, "GET", boardTarget, "").body, `"price":82`) })
	})
	t.Run("being asked", func(t *testing.T) {
		asked := make(chan struct{})
		s := server(t, Options{Reload: asked})
		watching(t, s)
		before := s.store.last.Load()
		asked <- struct{}{}
		until(t, "another reading", func() bool { return s.store.last.Load() != before })
	})
}

// While states change under them, requests of every kind get answers that are
// all of one state: what is worked out, its versions and its tag.
func TestNoMixture(t *testing.T) {
	dir := folder(t)
	boards := filepath.Join(dir, "boards.toml")
	s := server(t, Options{Source: advisor.Source{Folder: dir}, CacheMB: 1})
	states := [2]*state{}
	states[0] = s.store.current.Load()
	edit(t, boards, "hot_spot_c = 105", "hot_spot_c = 99")
	s.Reload(t.Context())
	states[1] = s.store.current.Load()
	if states[0].tag == states[1].tag {
		t.Fatal("the edit made no new state")
	}

	targets := []string{"/v1/advice?board=flint&chip=v10&room=30", "/v1/boards/flint", "/v1/ranking?chip=v10&room=%d"}
	wants := map[string]bool{} // target, tag and body that belong together
	for _, st := range states {
		s.store.current.Store(st)
		for _, target := range targets {
			r := ask(s, "GET", numbered(target, 30), "")
			wants[numbered(target, 30)+r.header.Get("Etag")+r.body] = true
		}
	}
	var stop atomic.Bool
	var all sync.WaitGroup
	all.Go(func() {
		for i := 0; !stop.Load(); i++ {
			from, to := "hot_spot_c = 99", "hot_spot_c = 105"
			if i%2 == 1 {
				from, to = to, from
			}
			edit(t, boards, from, to)
			s.Reload(context.Background())
		}
	})
	for worker := range 4 {
		all.Go(func() {
			for i := 0; !stop.Load(); i++ {
				target := numbered(targets[(worker+i)%len(targets)], 30)
				if r := ask(s, http.MethodGet, target, ""); !wants[target+r.header.Get("Etag")+r.body] {
					t.Errorf("%s gives a mixture: %d %s %.300s", target, r.status, r.header.Get("Etag"), r.body)
					stop.Store(true)
				}
			}
		})
	}
	time.Sleep(time.Second)
	stop.Store(true)
	all.Wait()
	if n := s.meter.reloads[0].Load(); n < 4 {
		t.Errorf("only %d reloads", n)
	}
}

func numbered(target string, n int) string { return strings.ReplaceAll(target, "%d", fmt.Sprint(n)) }

func put(t *testing.T, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

// syncBuilder is a log that may be read while it is written.
type syncBuilder struct {
	mu   sync.Mutex
	text strings.Builder
}

func (b *syncBuilder) Write(p []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.text.Write(p)
}

func (b *syncBuilder) String() string {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.text.String()
}

func defaultRules() []byte {
	_, text := rules.Default()
	return text
}
