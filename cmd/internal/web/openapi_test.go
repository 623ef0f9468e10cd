package web

import (
	"bytes"
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"slices"
	"strings"
	"testing"

	"github.com/getkin/kin-openapi/openapi3"
	"github.com/getkin/kin-openapi/openapi3filter"
	"github.com/getkin/kin-openapi/routers"
	"github.com/getkin/kin-openapi/routers/legacy"

	"hotroom/advisor/sentence"
	"hotroom/knowledge"
)

// described loads the served description, as a client would.
func described(t testing.TB, s *Server) (*openapi3.T, routers.Router) {
	t.Helper()
	doc, err := openapi3.NewLoader().LoadFromData([]byte(ask(s, "GET", "/openapi.json", "").body))
	if err != nil {
		t.Fatal(err)
	}
	if err := doc.Validate(t.Context()); err != nil {
		t.Fatal(err)
	}
	router, err := legacy.NewRouter(doc)
	if err != nil {
		t.Fatal(err)
	}
	return doc, router
}

// validate holds an answer to the description; a good request is held to it too.
func validate(t *testing.T, router routers.Router, s *Server, method, target, body string) reply {
	t.Helper()
	r := httptest.NewRequest(method, target, strings.NewReader(body))
	if body != "" {
		r.Header.Set("Content-Type", jsonType)
	}
	route, params, err := router.FindRoute(r)
	if err != nil {
		t.Fatalf("%s %s is not described: %v", method, target, err)
	}
	got := ask(s, method, target, body)
	in := &openapi3filter.RequestValidationInput{Request: r, PathParams: params, Route: route}
	if got.status == http.StatusOK {
		if err := openapi3filter.ValidateRequest(t.Context(), in); err != nil {
			t.Errorf("%s %s: the request: %v", method, target, err)
		}
	}
	err = openapi3filter.ValidateResponse(t.Context(), &openapi3filter.ResponseValidationInput{
		RequestValidationInput: in, Status: got.status, Header: got.header, Body: io.NopCloser(bytes.NewReader([]byte(got.body))),
		Options: &openapi3filter.Options{IncludeResponseStatus: true},
	})
	if err != nil {
		t.Errorf("%s %s: the answer: %.2000v", method, target, err)
	}
	return got
}

// Every route is described, and every answer, good or not, is as described.
func TestDescription(t *testing.T) {
	s := server(t, Options{})
	doc, router := described(t, s)
	if doc.OpenAPI != "3.1.0" {
		t.Errorf("it is of OpenAPI %s", doc.OpenAPI)
	}
	asked := map[string]bool{}
	for _, target := range append([]string{
		"/v1/advice?board=slate&chip=v4&room=hot&setup=open", "/v1/advice?board=anvil&chip=q12&power=150&graphics=300&altitude=1600m", "/v1/sweep?board=kiln&chip=v10&over=power&from=60&step=10",
		"/v1/ranking?chip=q12&budget=300&top=3&only=yes,with-care", "/healthz", "/readyz", "/metrics", "/v1/runs/2025-02-08-slate-v10", "/v1/advice?room=1&nothing=2", "/v1/chips/none",
	}, keepable...) {
		for _, method := range []string{"GET", "HEAD"} {
			validate(t, router, s, method, target, "")
		}
		path, _, _ := strings.Cut(target, "?")
		asked["GET "+path] = true
	}
	for _, board := range s.store.current.Load().snapshot.Base().Boards { // a fanless board, an unmeasured one, one that cannot settle …
		for _, chip := range s.store.current.Load().snapshot.Base().Chips {
			validate(t, router, s, "GET", "/v1/advice?setup=open&board="+board.ID+"&chip="+chip.ID, "")
			validate(t, router, s, "GET", "/v1/boards/"+board.ID, "")
			validate(t, router, s, "GET", "/v1/chips/"+chip.ID, "")
		}
	}
	validate(t, router, s, "POST", "/v1/question", `{"text":"the V10 on a Slate in a hot room"}`)
	validate(t, router, s, "POST", "/v1/question", `{"text":"the Slate"}`)
	validate(t, router, s, "POST", "/v1/advice", `{"board":"slate","chip":"v10","room_c":"90F","power_w":100,"cooler":null}`)
	validate(t, router, s, "POST", "/v1/advice", `[{"board":"slate","chip":"v10"},{"board":"nothing"}]`)
	validate(t, router, s, "POST", "/v1/advice", `{"board":5}`)
	for _, rt := range s.routes {
		path := strings.ReplaceAll(rt.path, ":id", "slate")
		if rt.media == jsonType && rt.method == http.MethodGet && !asked["GET "+path] && !strings.Contains(rt.path, ":id") {
			t.Errorf("%s was not asked", rt.path)
		}
		if doc.Paths.Find(strings.ReplaceAll(rt.path, ":id", "{id}")) == nil {
			t.Errorf("%s is not described", rt.path)
		}
	}
	if err := json.Unmarshal(s.spec, new(any)); err != nil {
		t.Error(err)
	}
}

// The validator bites: an answer that lacks a key is noticed.
func TestDescriptionBites(t *testing.T) {
	s := server(t, Options{})
	_, router := described(t, s)
	r := httptest.NewRequest("GET", "/v1/chips/v10", nil)
	route, params, err := router.FindRoute(r)
	if err != nil {
		t.Fatal(err)
	}
	good := ask(s, "GET", "/v1/chips/v10", "")
	for _, wrong := range []string{
		strings.Replace(good.body, `"socket":`, `"sockets":`, 1), strings.Replace(good.body, `"cores":10`, `"cores":"ten"`, 1), strings.Replace(good.body, `"point":[`, `"point":[5,`, 1),
	} {
		if wrong == good.body {
			t.Fatal("nothing was changed")
		}
		err := openapi3filter.ValidateResponse(t.Context(), &openapi3filter.ResponseValidationInput{
			RequestValidationInput: &openapi3filter.RequestValidationInput{Request: r, PathParams: params, Route: route},
			Status:                 200, Header: good.header, Body: io.NopCloser(strings.NewReader(wrong)),
		})
		if err == nil {
			t.Errorf("not noticed: %.200s", wrong)
		}
	}
}

// Parameters, keys and columns have the names that they have elsewhere.
func TestNames(t *testing.T) {
	if got, want := paramNames(questionParams()), sentence.Settings(); !slices.Equal(got, want) {
		t.Errorf("parameters %v, flags %v", got, want)
	}
	s := server(t, Options{})
	var advice struct{ Question map[string]any }
	if err := json.Unmarshal([]byte(ask(s, "GET", keepable[0], "").body), &advice); err != nil {
		t.Fatal(err)
	}
	for _, key := range questionKeys() {
		if _, ok := advice.Question[key]; !ok {
			t.Errorf("the key %q is not in an answer's question", key)
		}
	}
	if len(advice.Question) != len(questionKeys()) {
		t.Errorf("%d keys, an answer has %d", len(questionKeys()), len(advice.Question))
	}
	var list struct{ Rows []map[string]any }
	if err := json.Unmarshal([]byte(ask(s, "GET", "/v1/runs", "").body), &list); err != nil {
		t.Fatal(err)
	}
	for _, column := range knowledge.RunColumns() {
		if _, ok := list.Rows[0][column]; !ok {
			t.Errorf("the column %q is not in a run", column)
		}
	}
	if len(list.Rows[0]) != len(knowledge.RunColumns()) {
		t.Errorf("a run has %d keys, and there are %d columns", len(list.Rows[0]), len(knowledge.RunColumns()))
	}
}
