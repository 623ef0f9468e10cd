package web

import (
	"encoding/json"
	"fmt"
	"io"
	"math/rand/v2"
	"net/http"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"hotroom/advisor"
)

// Mixed load with a reload every second: no error, no mixed answer, and memory
// that stays flat. A few seconds of it run always; for longer:
//
//	HOTROOM_SOAK=10m go test ./cmd/internal/web -run '^TestSoak$' -v -count 1 -timeout 20m
func TestSoak(t *testing.T) {
	span := 3 * time.Second
	if asked := os.Getenv("HOTROOM_SOAK"); asked != "" {
		var err error
		if span, err = time.ParseDuration(asked); err != nil {
			t.Fatal(err)
		}
	}
	if testing.Short() {
		t.Skip("SKIPPED, NOT CHECKED: -short leaves out what loads the server for a while")
	}
	dir := folder(t)
	s, address, _, _ := serving(t, Options{Source: advisor.Source{Folder: dir}, CacheMB: 4, Log: io.Discard})
	k := &soak{t: t, client: &http.Client{Transport: &http.Transport{MaxIdleConnsPerHost: 16}, Timeout: 20 * time.Second}, home: "http://" + address}
	end := time.Now().Add(span)
	var all sync.WaitGroup
	for range 6 {
		all.Go(func() {
			for time.Now().Before(end) && !t.Failed() {
				k.ask()
			}
		})
	}
	var early uint64
	for i := 1; time.Now().Before(end); i++ {
		edit(t, filepath.Join(dir, "boards.toml"), fmt.Sprintf("hot_spot_c = %d", 104+i%2), fmt.Sprintf("hot_spot_c = %d", 105-i%2))
		time.Sleep(time.Second)
		if early == 0 && time.Until(end) < span*3/4 {
			early = heap()
		}
	}
	all.Wait()
	late := heap()
	reloads := s.meter.reloads[0].Load()
	t.Logf("%d answers, %d of them 304, %d reloads, heap %d kB after a quarter, %d kB at the end", k.answers.Load(), k.unchanged.Load(), reloads, early>>10, late>>10)
	if reloads < int64(span/time.Second)/2 || k.answers.Load() == 0 {
		t.Error("too little happened")
	}
	if early > 0 && late > early+early/4+8<<20 {
		t.Errorf("memory grows from %d to %d bytes", early, late)
	}
}

func heap() uint64 {
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}

// soak is the load: what every target's tag was the tag of.
type soak struct {
	t                  *testing.T
	client             *http.Client
	home               string
	bodies             sync.Map // target and tag → body
	kept               atomic.Int64
	answers, unchanged atomic.Int64
}

var soakTargets = []string{
	"/v1/advice?board=flint&chip=v10&room=30", "/v1/advice?board=flint&chip=v10&room=30.%d", "/v1/ranking?chip=v10", "/v1/boards/flint", "/v1/boards", "/v1/runs", "/v1/facts",
	"/v1/sweep?board=gneiss&chip=v10&step=10", "/v1/comparison?board=slate&board=flint&chip=v10", "/readyz", "/metrics", "/v1/advice?board=nothing", "POST",
}

func (k *soak) ask() {
	target := soakTargets[rand.IntN(len(soakTargets))]
	if target == "POST" {
		k.post()
		return
	}
	target = strings.ReplaceAll(target, "%d", fmt.Sprint(rand.IntN(3000)))
	request, err := http.NewRequest(http.MethodGet, k.home+target, http.NoBody)
	if err != nil {
		k.t.Error(err)
		return
	}
	tag, _ := k.bodies.Load(target)
	if tag != nil && rand.IntN(2) == 0 {
		request.Header.Set("If-None-Match", tag.(string))
	}
	r, body := k.send(request)
	if r == nil {
		return
	}
	switch {
	case r.StatusCode == http.StatusNotModified:
		k.unchanged.Add(1)
	case r.StatusCode == http.StatusNotFound && target == "/v1/advice?board=nothing":
	case r.StatusCode != http.StatusOK:
		k.t.Errorf("%s: %d %.300s", target, r.StatusCode, body)
	case r.Header.Get("Etag") != "" && k.kept.Load() < 4000:
		k.kept.Add(1)
		k.bodies.Store(target, r.Header.Get("Etag"))
		if before, seen := k.bodies.LoadOrStore(target+r.Header.Get("Etag"), body); seen && before != body {
			k.t.Errorf("%s: one tag, two answers", target)
		}
	}
}

// post asks for several answers at once: all are of one state.
func (k *soak) post() {
	request, err := http.NewRequest(http.MethodPost, k.home+"/v1/advice", strings.NewReader(`[{"board":"flint","chip":"v10"},{"board":"gneiss","chip":"v10"},{"board":"flint","chip":"v4"}]`))
	if err != nil {
		k.t.Error(err)
		return
	}
	request.Header.Set("Content-Type", jsonType)
	r, body := k.send(request)
	if r == nil {
		return
	}
	var list []advisor.Advice
	if err := json.Unmarshal([]byte(body), &list); err != nil || r.StatusCode != http.StatusOK || len(list) != 3 {
		k.t.Errorf("POST: %d %v %.300s", r.StatusCode, err, body)
		return
	}
	for _, a := range list {
		if a.Versions != list[0].Versions {
			k.t.Error("a batch of two states")
		}
	}
}

func (k *soak) send(request *http.Request) (*http.Response, string) {
	r, err := k.client.Do(request)
	if err != nil {
		k.t.Error(err)
		return nil, ""
	}
	defer r.Body.Close()
	body, err := io.ReadAll(r.Body)
	if err != nil {
		k.t.Error(err)
		return nil, ""
	}
	k.answers.Add(1)
	return r, string(body)
}
