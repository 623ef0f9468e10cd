package web

import (
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"net/http/httptest"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"github.com/getkin/kin-openapi/openapi3filter"

	"hotroom/advisor"
)

const (
	secret = "plum-tree-and-lantern"
	bearer = "Authorization: Bearer " + secret
)

// tokenFile writes a token file.
func tokenFile(t *testing.T, content string, mode os.FileMode) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "token")
	if err := os.WriteFile(path, []byte(content), mode); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, mode); err != nil {
		t.Fatal(err)
	}
	return path
}

// recorder makes a server that records in a folder.
func recorder(t *testing.T, log io.Writer) (*Server, string) {
	t.Helper()
	token, err := ReadToken(tokenFile(t, secret+"\nnot this\n", 0o600))
	if err != nil {
		t.Fatal(err)
	}
	dir := folder(t)
	return server(t, Options{Source: advisor.Source{Folder: dir}, Token: token, Log: log}), dir
}

// measured is a good run with further members.
func measured(more string) string {
	return `{"date":"2025-06-01","board":"slate","chip":"v10","enclosure":"bench","cooler":"liquid","thermometer":"k1","load":"render","setup":"shipped",` +
		`"power_limit_w":null,"room_c":22.4,"minutes":60,"ghz":3.9,"volts":1.02,"package_w":131.5,"hot_c":81.2,"outcome":"settled","by":null,"note":"as \"usual\", warm"` + more + `}`
}

func runsIn(t *testing.T, dir string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(dir, "runs.csv"))
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func TestTokenFile(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("SKIPPED, NOT CHECKED: the modes of files say nothing on this system")
	}
	for _, tt := range []struct {
		content string
		mode    os.FileMode
		want    string
	}{
		{secret, 0o600, ""},
		{"  " + secret + "\r\nmore", 0o400, ""},
		{"", 0o600, "the token file PATH holds no token: write one into its first line"},
		{" \n" + secret, 0o600, "the token file PATH holds no token: write one into its first line"},
		{secret, 0o640, "the token file PATH is open to others (mode 0640): take that away with chmod 600"},
		{secret, 0o604, "the token file PATH is open to others (mode 0604): take that away with chmod 600"},
	} {
		path := tokenFile(t, tt.content, tt.mode)
		token, err := ReadToken(path)
		got := ""
		if err != nil {
			got = strings.ReplaceAll(err.Error(), path, "PATH")
		}
		if got != tt.want {
			t.Errorf("%q %04o: got %q, want %q", tt.content, tt.mode, got, tt.want)
		}
		if r := httptest.NewRequest("POST", runsPath, nil); err == nil {
			r.Header.Set("Authorization", "bearer "+secret) // schemes have no case (RFC 9110, 11.1)
			if err := token.admit(r); err != nil {
				t.Errorf("%q: %v", tt.content, err)
			}
		}
	}
	want := "the token file nowhere/token cannot be read (no such file or directory): give a file whose first line is the token"
	if _, err := ReadToken("nowhere/token"); err == nil || err.Error() != want {
		t.Errorf("got %v, want %s", err, want)
	}
}

// Without a token, or without a folder, there is nothing to record with.
func TestNoRecording(t *testing.T) {
	token, err := ReadToken(tokenFile(t, secret, 0o600))
	if err != nil {
		t.Fatal(err)
	}
	dir := folder(t)
	before := runsIn(t, dir)
	for name, o := range map[string]Options{"no token": {Source: advisor.Source{Folder: dir}}, "no folder": {Token: token}} {
		s := server(t, o)
		r := ask(s, "POST", runsPath, measured(""), bearer)
		want := `"detail":"there is nothing at \"/v1/runs\": /openapi.json lists the paths and what they take","kind":"no-such-path","field":null,"candidates":[]`
		if r.status != 404 || !strings.Contains(r.body, want) || r.header.Get("Allow") != "" {
			t.Errorf("%s: %d %s", name, r.status, r.body)
		}
		doc, _ := described(t, s)
		if doc.Paths.Find(runsPath).Post != nil || doc.Components.SecuritySchemes != nil {
			t.Errorf("%s: it is described", name)
		}
		if get, put := ask(s, "GET", runsPath, ""), ask(s, "PUT", runsPath, ""); get.status != 200 || put.status != 405 {
			t.Errorf("%s: GET %d, PUT %d", name, get.status, put.status)
		}
	}
	if runsIn(t, dir) != before {
		t.Error("the file was changed")
	}
}

func TestRunIsRecorded(t *testing.T) {
	s, _ := recorder(t, nil)
	list := ask(s, "GET", runsPath, "").body
	r := ask(s, "POST", runsPath, measured(""), bearer)
	if r.status != 201 || r.header.Get("Location") != "/v1/runs/2025-06-01-slate-v10" || r.header.Get("Cache-Control") != "no-store" || r.header.Get("Etag") != "" {
		t.Fatalf("%d %v %s", r.status, r.header, r.body)
	}
	got := ask(s, "GET", r.header.Get("Location"), "")
	if got.status != 200 || got.body != r.body || !strings.Contains(got.body, `"note":"as \"usual\", warm"`) || !strings.Contains(got.body, `"power_limit_w":null`) {
		t.Errorf("recorded\n%s\nread %d\n%s", r.body, got.status, got.body)
	}
	if now := ask(s, "GET", runsPath, "").body; now == list || !strings.Contains(now, `"id":"2025-06-01-slate-v10"`) {
		t.Error("the list is as it was")
	}
	if again := ask(s, "POST", runsPath, measured(""), bearer); again.header.Get("Location") != "/v1/runs/2025-06-01-slate-v10-2" {
		t.Errorf("%d %v", again.status, again.header)
	}
	if odd := ask(s, "POST", runsPath, measured(`,"id":"a/b c"`), bearer); odd.status != 201 || ask(s, "GET", odd.header.Get("Location"), "").body != odd.body {
		t.Errorf("%d %v %s", odd.status, odd.header, odd.body)
	}
	if head := ask(s, "HEAD", runsPath, ""); head.status != 200 || head.body != "" {
		t.Errorf("HEAD: %d", head.status)
	}
}

// Nobody records without the token, and it is told nowhere.
func TestTokenIsNeededAndNotTold(t *testing.T) {
	var log strings.Builder
	s, dir := recorder(t, &log)
	before := runsIn(t, dir)
	var told strings.Builder
	for _, field := range []string{
		"Authorization: ", bearer + "s", strings.TrimSuffix(bearer, "n"), "Authorization: Bearer", "Authorization: Basic " + secret, "Authorization: " + secret,
	} {
		r := ask(s, "POST", runsPath, measured(""), field)
		want := `"detail":"the request does not bear the token that this takes: send it as Authorization: Bearer TOKEN","kind":"unauthorized"`
		if r.status != 401 || !strings.Contains(r.body, want) || r.header.Get("Www-Authenticate") != "Bearer" || r.header.Get("Content-Type") != problemType {
			t.Errorf("%s: %d %v %s", field, r.status, r.header, r.body)
		}
		told.WriteString(r.body)
	}
	if runsIn(t, dir) != before {
		t.Error("the file was changed")
	}
	for _, body := range []string{measured(""), "{", measured(`,"id":"one"`), measured(`,"id":"one"`)} {
		told.WriteString(ask(s, "POST", runsPath, body, bearer).body)
	}
	if err := os.Remove(filepath.Join(dir, "runs.csv")); err != nil {
		t.Fatal(err)
	}
	if err := os.Mkdir(filepath.Join(dir, "runs.csv"), 0o700); err != nil {
		t.Fatal(err)
	}
	if r := ask(s, "POST", runsPath, measured(""), bearer); r.status != 503 || strings.Contains(r.body, dir) {
		t.Errorf("a folder that cannot be written: %d %s", r.status, r.body)
	}
	told.WriteString(ask(s, "GET", "/metrics", "").body + ask(s, "GET", "/openapi.json", "").body + ask(s, "GET", "/readyz", "").body)
	s.journal.flush()
	if !strings.Contains(log.String(), `"route":"/v1/runs","status":401`) || !strings.Contains(log.String(), `"msg":"the run was not recorded","id":"`) {
		t.Errorf("the log says\n%s", log.String())
	}
	if strings.Contains(log.String()+told.String(), secret[:8]) {
		t.Errorf("it is told in\n%s%s", log.String(), told.String())
	}
}

func TestRefusedRunsAreNotRecorded(t *testing.T) {
	s, dir := recorder(t, nil)
	if r := ask(s, "POST", runsPath, measured(`,"id":"one"`), bearer); r.status != 201 {
		t.Fatal(r)
	}
	before := runsIn(t, dir)
	for _, tt := range []struct {
		body   string
		status int
		want   string
	}{
		{measured(`,"id":"one"`), 409, `"detail":"there is a run \"one\" already: give another id, or none to have one made","kind":"exists","field":"id"`},
		{measured(`,"id":" one "`), 409, `"kind":"exists"`},
		{strings.Replace(measured(""), `"slate"`, `"slat"`, 1), 422, `there is no board \"slat\": did you mean \"slate\"?`},
		{strings.Replace(measured(""), "22.4", "80", 1), 422, `room_c is 80`},
		{strings.Replace(measured(""), "warm", `two\nlines`, 1), 422, `"detail":"the run was not recorded: note holds a line break or another control character: a run is one line","kind":"bad-value","field":null,"candidates":[],"problems":["note holds a line break`},
		{strings.Replace(measured(""), "22.4", "null", 1), 422, `"problems":["the run has no room_c: give the mean room temperature under load, °C"]`},
		{measured(`,"rooms_c":3`), 400, `there is no key \"rooms_c\" here`},
		{measured(`,"rooms_c":3`), 400, `did you mean \"room_c\"?","kind":"unknown-key","field":"rooms_c","candidates":["room_c"]`},
		{measured(`,"board":"slate"`), 400, `"kind":"duplicate-key"`},
		{strings.Replace(measured(""), "22.4", `"22.4"`, 1), 400, `"detail":"\"room_c\" holds a text: give a number or null","kind":"wrong-type","field":"room_c"`},
		{strings.Replace(measured(""), `"slate"`, "5", 1), 400, `"detail":"\"board\" holds a number: give a text or null","kind":"wrong-type","field":"board"`},
		{"[" + measured("") + "]", 400, `an object is wanted here`},
		{measured(`,"id":"` + strings.Repeat("x", mostRunBytes) + `"`), 413, `"detail":"the body is longer than 65536 bytes: send less at once","kind":"body-too-large"`},
		{measured(strings.Repeat(" ", mostBodyBytes)), 413, `"kind":"body-too-large"`},
	} {
		r := ask(s, "POST", runsPath, tt.body, bearer)
		if r.status != tt.status || !strings.Contains(r.body, tt.want) {
			t.Errorf("%.300s\ngot  %d %s\nwant %d %s", tt.body, r.status, r.body, tt.status, tt.want)
		}
		var problem Problem
		if err := json.Unmarshal([]byte(r.body), &problem); err != nil || (len(problem.Problems) > 0) != (tt.status == 422) {
			t.Errorf("%d: problems %q (%v)", r.status, problem.Problems, err)
		}
		if runsIn(t, dir) != before {
			t.Fatal("the file was changed")
		}
	}
}

// Those who record at once are all recorded.
func TestRunsAreRecordedAtOnce(t *testing.T) {
	s, _ := recorder(t, nil)
	const most = 4
	at := make([]string, most)
	var posts sync.WaitGroup
	for i := range most {
		posts.Go(func() { at[i] = ask(s, "POST", runsPath, measured(""), bearer).header.Get("Location") })
	}
	posts.Wait()
	for _, path := range at {
		if path == "" || ask(s, "GET", path, "").status != 200 {
			t.Errorf("not recorded: %q", path)
		}
	}
	slices.Sort(at)
	if len(slices.Compact(at)) != most {
		t.Errorf("recorded at %v", at)
	}
}

// What records is described, with what it needs, and answers as described.
func TestRecordingIsDescribed(t *testing.T) {
	s, _ := recorder(t, nil)
	doc, router := described(t, s)
	post := doc.Paths.Find(runsPath).Post
	if post == nil || post.Security == nil || doc.Components.SecuritySchemes["token"].Value.Scheme != "bearer" {
		t.Fatalf("described as %+v", post)
	}
	for i, body := range []string{measured(""), measured(`,"id":"one"`), measured(`,"id":"one"`), `{"room_c":20}`, `{"rooms":1}`} {
		r := httptest.NewRequest("POST", runsPath, strings.NewReader(body))
		r.Header.Set("Content-Type", jsonType)
		route, params, err := router.FindRoute(r)
		if err != nil {
			t.Fatal(err)
		}
		options := &openapi3filter.Options{IncludeResponseStatus: true, AuthenticationFunc: openapi3filter.NoopAuthenticationFunc}
		in := &openapi3filter.RequestValidationInput{Request: r, PathParams: params, Route: route, Options: options}
		if err := openapi3filter.ValidateRequest(t.Context(), in); (err == nil) != (i < 4) {
			t.Errorf("%s: the request: %v", body, err)
		}
		got := ask(s, "POST", runsPath, body, bearer)
		if want := []int{201, 201, 409, 422, 400}[i]; got.status != want {
			t.Errorf("%s: %s", body, fmt.Sprint(got))
		}
		err = openapi3filter.ValidateResponse(t.Context(), &openapi3filter.ResponseValidationInput{
			RequestValidationInput: in, Status: got.status, Header: got.header, Body: io.NopCloser(bytes.NewReader([]byte(got.body))), Options: options,
		})
		if err != nil {
			t.Errorf("%s: the answer: %.2000v", body, err)
		}
	}
}
