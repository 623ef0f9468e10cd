package web

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"strings"
	"testing"

	"hotroom/advisor"
)

// problems are requests that cannot be answered, each with its whole answer
// but for type, title and request id.
var problems = []struct {
	name, method, target, body string
	fields                     []string
	status                     int
	want                       string
}{
	{
		name: "unknown parameter", target: "/v1/advice?bord=slate",
		status: 400, want: `"detail":"there is no parameter \"bord\" here: did you mean \"board\"?","kind":"unknown-parameter","field":"bord","candidates":["board"]`,
	},
	{
		name: "a body's key in a query", target: "/v1/advice?room_c=32",
		status: 400, want: `"detail":"there is no parameter \"room_c\" here: did you mean \"room\"?","kind":"unknown-parameter","field":"room_c","candidates":["room"]`,
	},
	{
		name: "a parameter unlike any", target: "/v1/boards?zzzz=1",
		status: 400, want: `"detail":"there is no parameter \"zzzz\" here: leave it out: none is taken","kind":"unknown-parameter","field":"zzzz","candidates":[]`,
	},
	{
		name: "markup in a parameter", target: "/v1/advice?%3Cscript%3E=1",
		status: 400, want: `"detail":"there is no parameter \"\u003cscript\u003e\" here: known are board, chip, room, enclosure, cooler, load, setup, power, current, ghz, graphics, altitude","kind":"unknown-parameter","field":"\u003cscript\u003e","candidates":[]`,
	},
	{
		name: "duplicate parameter", target: "/v1/advice?board=slate&chip=v10&board=flint",
		status: 400, want: `"detail":"the parameter \"board\" is given more than once: give it once","kind":"duplicate-parameter","field":"board","candidates":[]`,
	},
	{
		name: "a name unlike any", target: "/v1/advice?board=%25zz",
		status: 404, want: `"detail":"no board is called \"%zz\": nearest are fen, kiln, marl, anvil, brook, chalk","kind":"not-found","field":"board","candidates":["fen","kiln","marl","anvil","brook","chalk"]`,
	},
	{
		name: "broken encoding", target: "/v1/advice?board=sl%zzate",
		status: 400, want: `"detail":"the query has a part that cannot be read, \"board=sl%zzate\": write parameters as name=value joined by \u0026, with anything unusual percent-encoded","kind":"bad-query","field":null,"candidates":[]`,
	},
	{
		name: "semicolons", target: "/v1/advice?board=slate;chip=v10",
		status: 400, want: `"detail":"the query has a part that cannot be read, \"board=slate;chip=v10\": write parameters as name=value joined by \u0026, with anything unusual percent-encoded","kind":"bad-query","field":null,"candidates":[]`,
	},
	{
		name: "no board", target: "/v1/advice?chip=v10",
		status: 422, want: `"detail":"the question names no board: name one: slate, flint, basalt, gneiss, quarry, kiln, anvil, tongs, brook","kind":"missing","field":"board","candidates":["slate","flint","basalt","gneiss","quarry","kiln","anvil","tongs","brook"]`,
	},
	{
		name: "a room too hot", target: "/v1/advice?board=slate&chip=v10&room=400",
		status: 422, want: `"detail":"a room of 400 °C is not possible here: give one from -20 to 60 °C","kind":"bad-value","field":"room_c","candidates":[]`,
	},
	{
		name: "a room of no number", target: "/v1/advice?board=slate&chip=v10&room=3x",
		status: 422, want: `"detail":"room: the temperature \"3x\" has no unit that is known here: write it as 32, 32C, 90F or 305K","kind":"bad-value","field":"room_c","candidates":[]`,
	},
	{
		name: "a chip that does not fit", target: "/v1/advice?board=slate&chip=q12",
		status: 422, want: `"kind":"unfit","field":"chip"`,
	},
	{
		name: "a value too long", target: "/v1/advice?board=" + strings.Repeat("x", 300),
		status: 422, want: `"detail":"the board is 300 bytes long: give at most 100","kind":"bad-value","field":"board","candidates":[]`,
	},
	{
		name: "a ranking of the best 0.5", target: "/v1/ranking?chip=v10&top=0.5",
		status: 422, want: `"detail":"top cannot be \"0.5\": give a whole number from 1 on","kind":"bad-value","field":"top","candidates":[]`,
	},
	{
		name: "a budget in words", target: "/v1/ranking?chip=v10&budget=lots",
		status: 422, want: `"detail":"budget cannot be \"lots\": give a plain number such as 200","kind":"bad-value","field":"budget","candidates":[]`,
	},
	{
		name: "a budget that is no number", target: "/v1/ranking?chip=v10&budget=NaN",
		status: 422, want: `"detail":"budget cannot be \"NaN\": give a plain number such as 200","kind":"bad-value","field":"budget","candidates":[]`,
	},
	{
		name: "a verdict that is none", target: "/v1/ranking?chip=v10&only=maybe",
		status: 422, want: `"detail":"there is no verdict \"maybe\": give one or more of yes, with-care, unknown and no","kind":"bad-value","field":"only","candidates":["yes","with-care","unknown","no"]`,
	},
	{
		name: "one board to compare", target: "/v1/comparison?chip=v10&board=slate",
		status: 422, want: `"detail":"one board alone cannot be compared: name 2 to 6 boards","kind":"bad-value","field":"board","candidates":[]`,
	},
	{
		name: "a sweep backwards", target: "/v1/sweep?board=slate&chip=v10&from=40&to=20",
		status: 422, want: `"detail":"a sweep from 40 to 20 °C is not possible: let it end above where it begins","kind":"bad-value","field":"to","candidates":[]`,
	},
	{
		name: "a sweep over nothing", target: "/v1/sweep?board=slate&chip=v10&over=time",
		status: 422, want: `"detail":"a sweep over \"time\" is not possible: sweep over room or power","kind":"bad-value","field":"over","candidates":["room","power"]`,
	},
	{
		name: "no such board", target: "/v1/boards/slat",
		status: 404, want: `"detail":"no board has the id \"slat\": /v1/boards lists them: slate","kind":"not-found","field":"board","candidates":["slate"]`,
	},
	{
		name: "no such run", target: "/v1/runs/x",
		status: 404, want: `"detail":"no run has the id \"x\": /v1/runs lists them","kind":"not-found","field":"run","candidates":[]`,
	},
	{
		name: "a path that climbs", target: "/v1/boards/..%2f..%2fetc%2fpasswd",
		status: 404, want: `"detail":"no board has the id \"../../etc/passwd\": /v1/boards lists them`,
	},
	{
		name: "no such path", target: "/v1/advise",
		status: 404, want: `"detail":"there is nothing at \"/v1/advise\": did you mean /v1/advice?","kind":"no-such-path","field":null,"candidates":["/v1/advice"]`,
	},
	{
		name: "a slash too many", target: "/v1/boards/",
		status: 404, want: `"detail":"there is nothing at \"/v1/boards/\": did you mean /v1/boards?","kind":"no-such-path","field":null,"candidates":["/v1/boards"]`,
	},
	{
		name: "a method too many", method: "DELETE", target: "/v1/question",
		status: 405, want: `"detail":"\"/v1/question\" does not take the method \"DELETE\": use OPTIONS, POST","kind":"no-such-method","field":null,"candidates":[]`,
	},
	{
		name: "a target too long", target: "/v1/advice?board=" + strings.Repeat("x", 9000),
		status: 414, want: `"detail":"the path and query are 9017 bytes long: send at most 8192, or ask with POST /v1/advice","kind":"target-too-long","field":null,"candidates":[]`,
	},
	{
		name: "header fields too long", target: "/v1/advice", fields: []string{"X-A: " + strings.Repeat("x", 17000)},
		status: 431, want: `"detail":"the request has 1 header fields in 17007 bytes: send at most 64 fields in 16384 bytes","kind":"headers-too-large","field":null,"candidates":[]`,
	},
	{
		name: "no JSON", method: "POST", target: "/v1/advice", body: `{"board":}`,
		status: 400, want: `"detail":"the body is no JSON (line 1, column 10): `, // what follows is worded by encoding/json, and otherwise in each version of Go
	},
	{
		name: "too little JSON", method: "POST", target: "/v1/advice", body: `{"board":"slate"`,
		status: 400, want: `"detail":"the body ends too early (line 1, column 17): send whole JSON","kind":"bad-json","field":null,"candidates":[]`,
	},
	{
		name: "too much JSON", method: "POST", target: "/v1/advice", body: `{"board":"slate","chip":"v10"} {}`,
		status: 400, want: `"detail":"something follows the end of the JSON (line 1, column 33): send one value","kind":"bad-json","field":null,"candidates":[]`,
	},
	{
		name: "a text for a question", method: "POST", target: "/v1/advice", body: `"slate"`,
		status: 400, want: `"detail":"an object is wanted here (line 1, column 8): openapi.json shows the form","kind":"bad-json","field":null,"candidates":[]`,
	},
	{
		name: "unknown key", method: "POST", target: "/v1/advice", body: "{\n \"board\":\"slate\",\n \"room\":32}",
		status: 400, want: `"detail":"there is no key \"room\" here (line 3, column 8): did you mean \"room_c\"?","kind":"unknown-key","field":"room","candidates":["room_c"]`,
	},
	{
		name: "duplicate key", method: "POST", target: "/v1/advice", body: `{"board":"slate","board":"flint"}`,
		status: 400, want: `"detail":"the key \"board\" is given twice (line 1, column 33): give it once","kind":"duplicate-key","field":"board","candidates":[]`,
	},
	{
		name: "a number for a name", method: "POST", target: "/v1/advice", body: `{"board":5}`,
		status: 400, want: `"detail":"\"board\" holds the number 5 (line 1, column 9): give a text","kind":"wrong-type","field":"board","candidates":[]`,
	},
	{
		name: "a truth for a number", method: "POST", target: "/v1/advice", body: `{"room_c":true}`,
		status: 400, want: `"detail":"\"room_c\" holds true (line 1, column 15): give a text or a number","kind":"wrong-type","field":"room_c","candidates":[]`,
	},
	{
		name: "a number past all", method: "POST", target: "/v1/advice", body: `{"room_c":1e999}`,
		status: 400, want: `"detail":"\"room_c\" holds a number that is too large (line 1, column 16): give one that a machine can hold","kind":"wrong-type","field":"room_c","candidates":[]`,
	},
	{
		name: "deep JSON", method: "POST", target: "/v1/advice", body: `{"board":` + strings.Repeat("[", 1_000_000),
		status: 400, want: `"detail":"\"board\" holds an array or an object (line 1, column 11): give a text or a number","kind":"bad-json","field":"board","candidates":[]`,
	},
	{
		name: "deep arrays", method: "POST", target: "/v1/advice", body: strings.Repeat("[", 1_000_000),
		status: 400, want: `"detail":"an object is wanted here (line 1, column 3): openapi.json shows the form","kind":"bad-json","field":null,"candidates":[]`,
	},
	{
		name: "too many questions", method: "POST", target: "/v1/advice", body: "[" + strings.Repeat(`{"board":5},`, 1000) + `{}]`,
		status: 413, want: `"detail":"the array holds more than 1000 questions: send the rest in another request","kind":"too-many-questions","field":null,"candidates":[]`,
	},
	{
		name: "a body too long", method: "POST", target: "/v1/advice", body: strings.Repeat(" ", 4<<20+1),
		status: 413, want: `"detail":"the body is longer than 4194304 bytes: send less at once","kind":"body-too-large","field":null,"candidates":[]`,
	},
	{
		name: "a form", method: "POST", target: "/v1/advice", body: "board=slate", fields: []string{"Content-Type: application/x-www-form-urlencoded"},
		status: 415, want: `"detail":"the body comes as \"application/x-www-form-urlencoded\": send JSON with Content-Type: application/json","kind":"unsupported-media-type","field":null,"candidates":[]`,
	},
	{
		name: "a compressed body", method: "POST", target: "/v1/advice", body: "x", fields: []string{"Content-Encoding: gzip"},
		status: 415, want: `"detail":"the body comes in the coding \"gzip\": send it as it is","kind":"unsupported-media-type","field":null,"candidates":[]`,
	},
	{
		name: "a query beside a body", method: "POST", target: "/v1/advice?board=slate", body: "{}",
		status: 400, want: `"detail":"there is no parameter \"board\" here: leave it out: none is taken","kind":"unknown-parameter","field":"board","candidates":[]`,
	},
	{
		name: "a sentence of nothing", method: "POST", target: "/v1/question", body: `{"text":""}`,
		status: 422, want: `"detail":"the sentence names nothing that is known here: name a board and a chip, and say how warm the room is","kind":"missing","field":"board","candidates":[]`,
	},
	{
		name: "a sentence that is a number", method: "POST", target: "/v1/question", body: `{"text":5}`,
		status: 400, want: `"detail":"\"text\" holds a number (line 1, column 8): give a text","kind":"wrong-type","field":"text","candidates":[]`,
	},
	{
		name: "a sentence of all boards and no chip", method: "POST", target: "/v1/question", body: `{"text":"which board for a hot room?"}`,
		status: 422, want: `"detail":"the question names no chip: name one: v4, v6, v10, q8, q12, q16","kind":"missing","field":"chip","candidates":["v4","v6","v10","q8","q12","q16"]`,
	},
	{
		name: "a sentence of two boards and no chip", method: "POST", target: "/v1/question", body: `{"text":"compare the Quarry and the Flint"}`,
		status: 422, want: `"detail":"the question names no chip: name one: v4, v6, v10, q8, q12, q16","kind":"missing","field":"chip","candidates":["v4","v6","v10","q8","q12","q16"]`,
	},
	{
		name: "half a sentence", method: "POST", target: "/v1/question", body: `{"text":"will the Slate do?"}`,
		status: 422, want: `"detail":"the question names no chip: name one: v4, v6, v10","kind":"missing","field":"chip","candidates":["v4","v6","v10"]`,
	},
}

func TestProblems(t *testing.T) {
	s := server(t, Options{})
	for _, tt := range problems {
		t.Run(tt.name, func(t *testing.T) {
			if tt.method == "" {
				tt.method = http.MethodGet
			}
			r := ask(s, tt.method, tt.target, tt.body, tt.fields...)
			if r.status != tt.status {
				t.Errorf("status %d, want %d", r.status, tt.status)
			}
			begin := fmt.Sprintf(`{"type":"about:blank","title":"%s","status":%d,`, http.StatusText(tt.status), tt.status)
			if !strings.HasPrefix(r.body, begin) || !strings.Contains(r.body, tt.want) {
				t.Errorf("got  %s\nwant %s…%s", r.body, begin, tt.want)
			}
			if len(tt.want) > 60 && strings.HasPrefix(tt.want, `"detail"`) && strings.HasSuffix(tt.want, "]") && !strings.HasPrefix(r.body, begin+tt.want) {
				t.Errorf("got  %s\nwant %s%s", r.body, begin, tt.want)
			}
			for name, want := range map[string]string{
				"Content-Type": problemType, "Cache-Control": "no-store", "X-Content-Type-Options": "nosniff",
				"Content-Security-Policy": "default-src 'none'; frame-ancestors 'none'", "Etag": "", "Retry-After": "",
			} {
				if got := r.header.Get(name); got != want {
					t.Errorf("%s: %q, want %q", name, got, want)
				}
			}
			if id := r.header.Get("X-Request-Id"); id == "" || !strings.Contains(r.body, `"request_id":"`+id+`"`) {
				t.Errorf("request id %q is not that of %s", id, r.body)
			}
		})
	}
}

// What broke inside is not told outside.
func TestBrokenIsNotTold(t *testing.T) {
	for err, want := range map[error]int{
		errors.New("dial tcp 10.0.0.7: secret"):                  500,
		context.Canceled:                                         499,
		fmt.Errorf("deep: %w", context.DeadlineExceeded):         503,
		fmt.Errorf("deep: %w", &fault{status: 418, what: "pot"}): 418,
	} {
		f := faultOf(err)
		if f.status != want || strings.Contains(f.Error(), "secret") {
			t.Errorf("%v: %d %s", err, f.status, f.Error())
		}
	}
}

// Every kind of refusal has its status.
func TestStatuses(t *testing.T) {
	for kind, want := range map[advisor.RefusalKind]int{
		advisor.BadValue: 422, advisor.NotFound: 404, advisor.Ambiguous: 422, advisor.Missing: 422, advisor.Unfit: 422, advisor.NotAllowed: 422, "another": 500,
	} {
		if got := faultOf(fmt.Errorf("wrapped: %w", &advisor.Refusal{Kind: kind})).status; got != want {
			t.Errorf("%s: %d, want %d", kind, got, want)
		}
	}
}

// A panic in a handler, or in the front itself, is an answer like any other
// mistake of ours, and is logged with where it happened.
func TestPanicsDoNotLeak(t *testing.T) {
	var log strings.Builder
	s := server(t, Options{Log: &log})
	s.echo.GET("/breaks", func(echoContext) error { panic("the secret") })
	rt := get("/works-not", "x", "", nil, readNone, func(context.Context, *state, none) (none, error) { panic("the secret") })
	s.echo.GET(rt.path, func(c echoContext) error { return s.answer(visitOf(c), rt, c) })
	for _, target := range []string{"/breaks", "/works-not"} {
		r := ask(s, "GET", target, "")
		if r.status != 500 || strings.Contains(r.body, "secret") || !strings.Contains(r.body, `"kind":"internal"`) {
			t.Errorf("%s: %d %s", target, r.status, r.body)
		}
	}
	if strings.Count(log.String(), `"what":"the secret"`) != 2 || !strings.Contains(log.String(), "problem_test.go") {
		t.Errorf("the log says\n%s", log.String())
	}
}

// What a sentence was taken for is in the answer, also when it cannot be
// answered.
func TestSentence(t *testing.T) {
	s := server(t, Options{})
	r := ask(s, "POST", "/v1/question", `{"text":"will the Slate carry a V10 in a hot room blorp"}`)
	for _, want := range []string{`"taken":["board slate`, `"room_c":33`, `"unplaced":["blorp"]`, `"advice":{"question":{"board":"slate","chip":"v10","room_c":33`} {
		if r.status != 200 || !strings.Contains(r.body, want) {
			t.Errorf("%d, without %s: %s", r.status, want, r.body)
		}
	}
	r = ask(s, "POST", "/v1/question", `{"text":"will the Slate do in a hot room?"}`)
	if want := `"understood":{"question":{"board":"slate","chip":"","room_c":33`; r.status != 422 || !strings.Contains(r.body, want) {
		t.Errorf("%d, without %s: %s", r.status, want, r.body)
	}
}

// A sentence that asks for several boards is told where they are answered for,
// and there they are.
func TestSentenceOfSeveralBoards(t *testing.T) {
	s := server(t, Options{})
	for text, want := range map[string]string{
		"which board under 160 for the V10 at 32 °C?":   "/v1/ranking?budget=160&chip=v10&room=32",
		"compare the Quarry and the Flint with the V10": "/v1/comparison?board=quarry&board=flint&chip=v10",
	} {
		r := ask(s, "POST", "/v1/question", fmt.Sprintf(`{"text":%q}`, text))
		var p Problem
		if err := json.Unmarshal([]byte(r.body), &p); err != nil {
			t.Fatal(err)
		}
		_, target, _ := strings.Cut(p.Detail, "GET ")
		if r.status != 422 || target != want || p.Field == nil || *p.Field != "board" || p.Understood == nil {
			t.Errorf("%s: %d %s", text, r.status, r.body)
		}
		if r := ask(s, "GET", target, ""); r.status != 200 {
			t.Errorf("%s: %d %s", target, r.status, r.body)
		}
	}
}

// A batch keeps its order; what cannot be answered stands in its place.
func TestBatch(t *testing.T) {
	s := server(t, Options{})
	r := ask(s, "POST", "/v1/advice", `[{"board":"slate","chip":"v10","room_c":"90F"},{"bord":"slate"},{"board":"gneiss","chip":"v10","room_c":"hot","power_w":null},{"board":"slate","chip":"q12"}]`)
	rest := r.body
	for _, want := range []string{
		`[{"question":{"board":"slate","chip":"v10","room_c":32.2222`, `{"type":"about:blank","title":"Bad Request","status":400,"detail":"there is no key \"bord\" here (line 1, column 55): did you mean \"board\"?"`,
		`{"question":{"board":"gneiss","chip":"v10","room_c":33`, `{"type":"about:blank","title":"Unprocessable Entity","status":422`, `"kind":"unfit"`, "]\n",
	} {
		_, after, ok := strings.Cut(rest, want)
		if !ok {
			t.Fatalf("%d, without %s in order: %s", r.status, want, r.body)
		}
		rest = after
	}
	if rest != "" || r.status != 200 {
		t.Errorf("%d, with more: %s", r.status, rest)
	}
	if r = ask(s, "POST", "/v1/advice", "[]"); r.status != 200 || r.body != "[]\n" {
		t.Errorf("an empty batch: %d %s", r.status, r.body)
	}
}

// The same question gives the same answer by every way to ask it.
func TestWaysToAsk(t *testing.T) {
	s := server(t, Options{})
	get := ask(s, "GET", "/v1/advice?board=Gorsebank+Slate&chip=V10&room=90F&power=0.1kW", "").body
	for _, body := range []string{
		`{"board":"slate","chip":"v10","room_c":"90F","setup":"custom","power_w":100}`,
		`{"board":"SLATE","chip":"V10","room_c":"90 °F","power_w":"100W","ghz":null,"cooler":""}`,
	} {
		if post := ask(s, "POST", "/v1/advice", body).body; post != get {
			t.Errorf("%s gives\n%s\nand GET\n%s", body, post, get)
		}
	}
}
