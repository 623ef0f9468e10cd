package web

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// The exposition follows the text format (Prometheus documentation,
// “Exposition formats”, text-based format 0.0.4): a HELP and a TYPE line before
// each family, its lines together, histograms cumulative with a +Inf class that
// equals their count.
func TestExposition(t *testing.T) {
	s := server(t, Options{})
	for _, target := range []string{"/v1/facts", "/v1/facts", "/v1/facts", "/nothing", "/v1/boards/none", "/v1/advice?board=slate&chip=v10"} {
		ask(s, "GET", target, "")
	}
	text := ask(s, "GET", "/metrics", "").body
	sample := regexp.MustCompile(`^([a-z_]+)(\{[a-z]+="[^"\\\n]*"(,[a-z]+="[^"\\\n]*")*\})? ([0-9.e+-]+)$`)
	families := map[string]string{}
	family, seen := "", map[string]bool{}
	for i, line := range strings.Split(strings.TrimSuffix(text, "\n"), "\n") {
		if name, ok := strings.CutPrefix(line, "# HELP "); ok {
			family, _, _ = strings.Cut(name, " ")
			if families[family] != "" {
				t.Errorf("line %d: the family %s comes twice", i+1, family)
			}
			continue
		}
		if kind, ok := strings.CutPrefix(line, "# TYPE "+family+" "); ok {
			families[family] = kind
			continue
		}
		m := sample.FindStringSubmatch(line)
		if m == nil {
			t.Fatalf("line %d is no sample: %s", i+1, line)
		}
		if base := strings.TrimSuffix(strings.TrimSuffix(strings.TrimSuffix(m[1], "_bucket"), "_sum"), "_count"); m[1] != family && (families[family] != "histogram" || base != family) {
			t.Errorf("line %d stands under %s: %s", i+1, family, line)
		}
		if seen[m[1]+m[2]] {
			t.Errorf("line %d comes twice: %s", i+1, line)
		}
		seen[m[1]+m[2]] = true
		if _, err := strconv.ParseFloat(m[4], 64); err != nil {
			t.Errorf("line %d: %v", i+1, err)
		}
	}
	for _, want := range []string{
		`hotroom_requests_total{route="/v1/facts",method="GET",status="2xx"} 3`,
		`hotroom_requests_total{route="none",method="any",status="4xx"} 1`,
		`hotroom_requests_total{route="/v1/boards/:id",method="GET",status="4xx"} 1`,
		`hotroom_request_seconds_bucket{route="/v1/facts",method="GET",le="+Inf"} 3`,
		`hotroom_request_seconds_count{route="/v1/facts",method="GET"} 3`,
		`hotroom_cache_lookups_total{result="hit"} 1`, `hotroom_reload_good 1`, `hotroom_reloads_total{outcome="loaded"} 1`,
	} {
		if !strings.Contains(text, want+"\n") {
			t.Errorf("without %s", want)
		}
	}
	last := -1
	for _, b := range bounds {
		var n int
		_, after, _ := strings.Cut(text, fmt.Sprintf(`hotroom_request_seconds_bucket{route="/v1/facts",method="GET",le="%s"} `, strconv.FormatFloat(b.Seconds(), 'g', -1, 64)))
		if _, err := fmt.Sscan(after, &n); err != nil || n < last {
			t.Errorf("the class up to %s holds %d after %d: %v", b, n, last, err)
		}
		last = n
	}
	// Whatever is asked for, the series are as many as the table allows.
	for i := range 1000 {
		ask(s, "GET", fmt.Sprintf("/nothing/%d?x=%d", i, i), "")
	}
	if more := ask(s, "GET", "/metrics", "").body; strings.Count(more, "\n") > strings.Count(text, "\n")+20 {
		t.Error("the series grow with what is asked")
	}
}
