package web

import (
	"bytes"
	"fmt"
	"runtime"
	"strconv"
	"sync/atomic"
	"time"
)

// metricsType is the text exposition format of Prometheus, version 0.0.4.
const metricsType = "text/plain; version=0.0.4; charset=utf-8"

// meter counts. Its labels are bounded: routes are those of the table, statuses
// their classes, outcomes those of a reload.
type meter struct {
	routes  []*route
	counts  []routeCounts   // by index; the last is for what has no route
	reloads [3]atomic.Int64 // in the order of outcomes()
}

type routeCounts struct {
	classes [6]atomic.Int64 // 1xx … 5xx by the first digit
	nanos   atomic.Int64
	buckets [len(bounds) + 1]atomic.Int64
}

// bounds are the upper ends of the classes of times: from an answer at hand to
// the longest work.
var bounds = [...]time.Duration{
	50 * time.Microsecond, 200 * time.Microsecond, time.Millisecond, 5 * time.Millisecond, 25 * time.Millisecond,
	100 * time.Millisecond, 500 * time.Millisecond, 2 * time.Second, 10 * time.Second,
}

func newMeter(routes []*route) *meter {
	return &meter{routes: routes, counts: make([]routeCounts, len(routes)+1)}
}

func (m *meter) note(v *visit, took time.Duration) {
	c := &m.counts[len(m.routes)]
	if v.route != nil {
		c = &m.counts[v.route.index]
	}
	c.classes[min(v.status/100, 5)].Add(1)
	c.nanos.Add(int64(took))
	i := 0
	for i < len(bounds) && took > bounds[i] {
		i++
	}
	c.buckets[i].Add(1)
}

func (m *meter) outcome(o outcome) {
	for i, known := range outcomes() {
		if o == known {
			m.reloads[i].Add(1)
		}
	}
}

// metrics writes the exposition.
func (s *Server) metrics(v *visit) (int, any) {
	w := &exposition{}
	s.meter.expose(w)
	entries, size, hits, misses := s.kept.counts()
	w.head("hotroom_cache_entries", "gauge", "Answers kept.")
	w.line("hotroom_cache_entries", "", float64(entries))
	w.head("hotroom_cache_bytes", "gauge", "Memory set aside for answers kept.")
	w.line("hotroom_cache_bytes", "", float64(size))
	w.head("hotroom_cache_lookups_total", "counter", "Targets looked up among the answers kept.")
	w.line("hotroom_cache_lookups_total", `result="hit"`, float64(hits))
	w.line("hotroom_cache_lookups_total", `result="miss"`, float64(misses))
	last := s.store.last.Load()
	w.head("hotroom_reload_good", "gauge", "Whether the newest reading of the files succeeded.")
	w.line("hotroom_reload_good", "", truth(last.outcome != failed))
	w.head("hotroom_state_since_seconds", "gauge", "When the state that answers was taken, in Unix time.")
	w.line("hotroom_state_since_seconds", "", float64(v.state.since.UnixMilli())/1e3)
	w.head("hotroom_state_info", "gauge", "The versions that answers are made from.")
	w.line("hotroom_state_info", fmt.Sprintf("knowledge=%q,rules=%q,program=%q", v.state.versions.Knowledge, v.state.versions.Rules, v.state.versions.Program), 1)
	w.head("hotroom_goroutines", "gauge", "Goroutines in the process.")
	w.line("hotroom_goroutines", "", float64(runtime.NumGoroutine()))
	return 200, text(w.Bytes())
}

func (m *meter) expose(w *exposition) {
	w.head("hotroom_requests_total", "counter", "Requests answered, by route and class of status.")
	m.each(func(route string, c *routeCounts) {
		for class := range c.classes {
			if n := c.classes[class].Load(); n > 0 {
				w.line("hotroom_requests_total", fmt.Sprintf(`%s,status="%dxx"`, route, class), float64(n))
			}
		}
	})
	w.head("hotroom_request_seconds", "histogram", "Time from a request's head to the end of its answer.")
	m.each(func(route string, c *routeCounts) {
		sum := int64(0)
		for i := range c.buckets {
			sum += c.buckets[i].Load()
			end := "+Inf"
			if i < len(bounds) {
				end = strconv.FormatFloat(bounds[i].Seconds(), 'g', -1, 64)
			}
			w.line("hotroom_request_seconds_bucket", fmt.Sprintf(`%s,le="%s"`, route, end), float64(sum))
		}
		w.line("hotroom_request_seconds_sum", route, float64(c.nanos.Load())/1e9)
		w.line("hotroom_request_seconds_count", route, float64(sum))
	})
	w.head("hotroom_reloads_total", "counter", "Readings of the files, by how they ended.")
	for i, o := range outcomes() {
		w.line("hotroom_reloads_total", fmt.Sprintf(`outcome="%s"`, o), float64(m.reloads[i].Load()))
	}
}

// each goes over the routes that were asked for, with their labels.
func (m *meter) each(f func(labels string, c *routeCounts)) {
	for i := range m.counts {
		labels := `route="none",method="any"`
		if i < len(m.routes) {
			labels = fmt.Sprintf(`route="%s",method="%s"`, m.routes[i].path, m.routes[i].method)
		}
		asked := false
		for class := range m.counts[i].classes {
			asked = asked || m.counts[i].classes[class].Load() > 0
		}
		if asked {
			f(labels, &m.counts[i])
		}
	}
}

func truth(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

// exposition is a text of metrics being written.
type exposition struct{ bytes.Buffer }

func (w *exposition) head(name, kind, help string) {
	fmt.Fprintf(w, "# HELP %s %s\n# TYPE %s %s\n", name, help, name, kind)
}

func (w *exposition) line(name, labels string, value float64) {
	if labels != "" {
		labels = "{" + labels + "}"
	}
	fmt.Fprintf(w, "%s%s %s\n", name, labels, strconv.FormatFloat(value, 'g', -1, 64))
}
