package web

import (
	"compress/gzip"
	"io"
	"net/http"
	"net/http/httptest"
	"strconv"
	"strings"
	"sync"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor"
)

// kinds of route that a cache may hold.
var keepable = []string{
	"/v1/advice?board=slate&chip=v10&room=32", "/v1/ranking?chip=v10", "/v1/comparison?board=slate&board=flint&chip=v10", "/v1/sweep?board=slate&chip=v10",
	"/v1/boards", "/v1/boards/slate", "/v1/chips", "/v1/chips/v10", "/v1/runs", "/v1/rules", "/v1/facts", "/openapi.json",
}

// Every answer to GET can be kept, asked for again by its tag, asked about with
// HEAD and sent compressed; at hand or not, it is the same.
func TestKeepable(t *testing.T) {
	for _, target := range keepable {
		for _, before := range []string{"worked out", "at hand"} {
			t.Run(target+" "+before, func(t *testing.T) {
				s := server(t, Options{})
				if before == "at hand" { // from the second time on
					ask(s, "GET", target, "")
					ask(s, "GET", target, "")
				}
				first := ask(s, "GET", target, "")
				etag := first.header.Get("Etag")
				if first.status != 200 || len(etag) != 34 || first.header.Get("Content-Length") != strconv.Itoa(len(first.body)) {
					t.Fatalf("%d %v", first.status, first.header)
				}
				for name, want := range map[string]string{
					"Cache-Control": "public, max-age=60, stale-while-revalidate=600, stale-if-error=86400", "Vary": "Accept-Encoding",
					"Content-Type": "application/json", "X-Content-Type-Options": "nosniff", "Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'",
				} {
					if got := first.header.Get(name); got != want {
						t.Errorf("%s: %q, want %q", name, got, want)
					}
				}
				if n := len(first.header); n > 7 {
					t.Errorf("%d header fields: more than seven, and one for the coding, cost a larger table: %v", n, first.header)
				}
				checkUnchanged(t, s, target, etag)
				checkHead(t, s, target, first)
				checkCompressed(t, s, target, first)
			})
		}
	}
}

func checkUnchanged(t *testing.T, s *Server, target, etag string) {
	t.Helper()
	for _, given := range []string{etag, "W/" + etag, `"x", ` + etag, "*"} {
		r := ask(s, "GET", target, "", "If-None-Match: "+given)
		if given == "*" && r.status == 200 {
			continue // worked out first: there is nothing yet to compare with
		}
		if r.status != 304 || r.body != "" || r.header.Get("Etag") != etag || r.header.Get("Cache-Control") == "" || r.header.Get("Content-Type") != "" {
			t.Errorf("If-None-Match %s: %d %v %q", given, r.status, r.header, r.body)
		}
	}
	if r := ask(s, "GET", target, "", `If-None-Match: "other"`); r.status != 200 || r.body == "" {
		t.Errorf("another tag: %d", r.status)
	}
}

func checkHead(t *testing.T, s *Server, target string, full reply) {
	t.Helper()
	r := ask(s, "HEAD", target, "")
	if r.status != 200 || r.body != "" || r.header.Get("Etag") != full.header.Get("Etag") || r.header.Get("Content-Length") != full.header.Get("Content-Length") {
		t.Errorf("HEAD: %d %v", r.status, r.header)
	}
}

func checkCompressed(t *testing.T, s *Server, target string, full reply) {
	t.Helper()
	r := ask(s, "GET", target, "", "Accept-Encoding: br, gzip;q=0.5")
	if len(full.body) < leastCompressed {
		if r.header.Get("Content-Encoding") != "" || r.body != full.body {
			t.Errorf("a short answer came compressed: %v", r.header)
		}
		return
	}
	z, err := gzip.NewReader(strings.NewReader(r.body))
	if err != nil {
		t.Fatal(err)
	}
	body, err := io.ReadAll(z)
	if err != nil || string(body) != full.body {
		t.Errorf("compressed it is another: %v", err)
	}
	etag := r.header.Get("Etag")
	if r.header.Get("Content-Encoding") != "gzip" || etag == full.header.Get("Etag") || len(r.body) >= len(full.body) || r.header.Get("Content-Length") != strconv.Itoa(len(r.body)) {
		t.Errorf("compressed: %v, %d bytes of %d", r.header, len(r.body), len(full.body))
	}
	if r = ask(s, "GET", target, "", "Accept-Encoding: gzip", "If-None-Match: "+etag); r.status != 304 || r.header.Get("Etag") != etag {
		t.Errorf("the tag of the compressed form: %d %v", r.status, r.header)
	}
	if r = ask(s, "GET", target, "", "If-None-Match: "+etag); r.status != 200 {
		t.Errorf("the tag of a form that is not taken: %d", r.status)
	}
}

// An answer is compressed when it is asked for again, or when it is long; whoever
// has it plain has it still.
func TestCompressedWhenAskedAgain(t *testing.T) {
	s := server(t, Options{})
	for target, atOnce := range map[string]bool{"/v1/advice?board=slate&chip=v10&room=31": false, "/openapi.json": true} {
		first := ask(s, "GET", target, "", "Accept-Encoding: gzip")
		if coding := first.header.Get("Content-Encoding"); (coding == "gzip") != atOnce || first.header.Get("Vary") != "Accept-Encoding" {
			t.Errorf("%s: %v, %d bytes", target, first.header, len(first.body))
		}
		if r := ask(s, "GET", target, "", "Accept-Encoding: gzip"); r.header.Get("Content-Encoding") != "gzip" {
			t.Errorf("%s again: %v", target, r.header)
		}
		etag := first.header.Get("Etag")
		if r := ask(s, "GET", target, "", "Accept-Encoding: gzip", "If-None-Match: "+etag); r.status != 304 || r.header.Get("Etag") != etag {
			t.Errorf("%s, held: %d %v", target, r.status, r.header)
		}
	}
}

// Two spellings of one question have one tag; two questions, two states, two
// programs or two builds have two.
func TestTags(t *testing.T) {
	s := server(t, Options{})
	tag := func(target string) string { return ask(s, "GET", target, "").header.Get("Etag") }
	one := tag("/v1/advice?board=slate&chip=v10&room=90F&cooler=")
	for _, same := range []string{"/v1/advice?room=90F&chip=V10&board=Slate", "/v1/advice?room=90%20%C2%B0F&chip=v10&board=slate"} {
		if got := tag(same); got != one {
			t.Errorf("%s has the tag %s, not %s", same, got, one)
		}
	}
	seen := map[string]string{one: "first"}
	for _, other := range append(keepable[1:], "/v1/advice?board=slate&chip=v10&room=91F", "/v1/ranking?chip=v10&top=3", "/v1/ranking?chip=v10&budget=200") {
		got := tag(other)
		if seen[got] != "" {
			t.Errorf("%s has the tag of %s", other, seen[got])
		}
		seen[got] = other
	}
	for _, o := range []Options{{Program: "next"}, {Program: "test", Build: "a"}, {Program: "test", Build: "b"}} {
		later, err := New(s.store.current.Load().snapshot, o)
		if err != nil {
			t.Fatal(err)
		}
		got := ask(later, "GET", "/v1/advice?board=slate&chip=v10&room=90F", "").header.Get("Etag")
		if seen[got] != "" {
			t.Errorf("program %s, build %q has the tag of %s", o.Program, o.Build, seen[got])
		}
		seen[got] = o.Program + o.Build
	}
}

func TestTakesGzip(t *testing.T) {
	for given, want := range map[string]bool{
		"": false, "gzip": true, "GZIP": true, "x-gzip": true, "deflate, gzip": true, "gzip;q=0": false, "gzip; q=0.000": false, "gzip;q=0.1": true,
		"*": true, "*;q=0": false, "br": false, "identity": false, "*;q=0, gzip": true, "gzip;q=nonsense": false, "gzipped": false,
	} {
		if got := takesGzip([]string{given}); got != want {
			t.Errorf("%q: %v", given, got)
		}
	}
	if takesGzip(nil) {
		t.Error("no field at all is taken for gzip")
	}
}

// The table never weighs more than it may, forgets the longest unused first,
// and gives back what was put in.
func TestLRU(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const most = 160
		l := newLRU[int, int](most)
		var used []int // the last used at the end
		weights := map[int]int{}
		for i := range rapid.IntRange(1, 100).Draw(t, "steps") {
			key := rapid.IntRange(0, 30).Draw(t, "key")
			without := func() {
				for at, k := range used {
					if k == key {
						used = append(used[:at:at], used[at+1:]...)
						return
					}
				}
			}
			if rapid.Bool().Draw(t, "put") {
				weight := rapid.IntRange(1, 12).Draw(t, "weight")
				l.put(key, i, weight)
				if weight <= most/16 {
					without()
					used, weights[key] = append(used, key), weight
				}
			} else if _, ok := l.get(key); ok {
				without()
				used = append(used, key)
			}
			sum := 0
			for at := len(used) - 1; at >= 0; at-- {
				if sum += weights[used[at]]; sum > most {
					sum -= weights[used[at]]
					used = used[at+1:]
					break
				}
			}
			if l.weight > most || l.weight != sum || len(l.nodes) != len(used) || l.order.Len() != len(used) {
				t.Fatalf("weight %d and %d entries, want %d and %d", l.weight, len(l.nodes), sum, len(used))
			}
		}
	})
}

// A cache that is full goes on answering, within its bound.
func TestKeptIsBounded(t *testing.T) {
	s := server(t, Options{CacheMB: 1})
	for i := range 600 { // twice each
		if r := ask(s, "GET", "/v1/advice?board=gneiss&chip=v10&room="+strconv.FormatFloat(20+float64(i/2)/100, 'f', -1, 64), ""); r.status != http.StatusOK {
			t.Fatal(r.status, r.body)
		}
	}
	entries, bytes, _, misses := s.kept.counts()
	if bytes > 1<<20 || entries < 50 || entries >= 300 || misses != 600 {
		t.Errorf("%d entries in %d bytes after %d misses", entries, bytes, misses)
	}
}

// What is asked for once takes no room from what is asked for again.
func TestKeptFromTheSecondTimeOn(t *testing.T) {
	s := server(t, Options{CacheMB: 1})
	target := func(i int) string {
		return "/v1/advice?board=gneiss&chip=v10&room=" + strconv.FormatFloat(20+float64(i)/100, 'f', -1, 64)
	}
	for range 3 {
		ask(s, "GET", target(0), "")
	}
	for i := range 500 {
		ask(s, "GET", target(1+i), "")
	}
	ask(s, "GET", target(0), "")
	if entries, _, hits, _ := s.kept.counts(); entries != 1 || hits != 2 {
		t.Errorf("%d entries and %d hits, want 1 and 2", entries, hits)
	}
}

// Answers are written in the space of those before them: none shows in another,
// also where several ask for the same at once.
func TestSpaceIsNotShared(t *testing.T) {
	s, quiet := server(t, Options{}), server(t, Options{})
	var targets []string
	for _, pair := range fitting(demo(t, advisor.Source{})) {
		targets = append(targets, "/v1/advice?room=31&"+pair, "/v1/ranking?room=31&"+pair[strings.IndexByte(pair, '&')+1:])
	}
	want := map[string]string{}
	for _, target := range targets {
		want[target] = ask(quiet, "GET", target, "").body
	}
	var all sync.WaitGroup
	for worker := range 8 {
		all.Go(func() {
			for i := range 4 * len(targets) {
				target := targets[(i+worker/2*7)%len(targets)]
				if got := ask(s, "GET", target, "").body; got != want[target] {
					t.Errorf("%s: got\n%s\nwant\n%s", target, got, want[target])
					return
				}
			}
		})
	}
	all.Wait()
}

// What is kept holds no more memory than its bytes, whatever space they were
// written in and whoever else has them.
func TestKeptOwnsItsBytes(t *testing.T) {
	s := server(t, Options{})
	v := &visit{ResponseWriter: httptest.NewRecorder(), request: httptest.NewRequest(http.MethodGet, "/v1/facts", http.NoBody), state: s.store.current.Load()}
	for _, shared := range []bool{false, true, true} {
		space := append(make([]byte, 0, 1<<20), "{}"...)
		e := newEntry(s.routes[0], "t", space)
		e.written = written{space, &space}
		s.hand(v, e, shared)
	}
	e, ok := s.kept.get(v.state.tag, "/v1/facts")
	if !ok || cap(e.plain.body) > 100 || e.space != nil || string(e.plain.body) != "{}" {
		t.Errorf("kept %v with room for %d bytes", ok, cap(e.plain.body))
	}
}
