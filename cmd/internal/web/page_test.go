package web

import (
	"fmt"
	"strings"
	"testing"
)

func TestPagesSayWhatIsWrong(t *testing.T) {
	s := server(t, Options{})
	for target, want := range map[string]struct {
		status int
		text   string
	}{
		"/":                                                 {200, "To begin with"},
		"/?board=brook&chip=v10":                            {200, `<article class="answer `},
		"/?board=&chip=&room=":                              {200, "To begin with"},
		"/?board=brook":                                     {422, `<a href="/?board=brook&amp;chip=v10">Varnholt V10</a>`},
		"/?board=slate&chip=q16":                            {422, `<a href="/?board=marl&amp;chip=q16">Gorsebank Marl</a>`},
		"/?board=xyzzy&chip=v10":                            {404, "No board is called &#34;xyzzy&#34;"},
		"/?bord=slate":                                      {400, "There is no parameter &#34;bord&#34; here: did you mean &#34;board&#34;?<"},
		"/?board=slate&board=kiln":                          {400, "given more than once"},
		"/?q=lovely+weather":                                {422, "names nothing that is known here"},
		"/?q=" + strings.Repeat("a", 2000):                  {422, "ask in at most 1000 bytes"},
		"/?board=" + strings.Repeat("a", 300):               {400, "give a shorter text"},
		"/?q=which+board+for+the+v10+under+150":             {200, "Which board, best first"},
		"/?q=brook+or+kiln+for+the+v10":                     {200, "Boards side by side"},
		"/compare?board=brook&chip=v10":                     {422, "one board alone cannot be compared"},
		"/sweep?board=brook&chip=v10&over=power&from=x":     {422, "from"},
		"/ranking?chip=v10&budget=cheap":                    {422, "give a plain number such as 200"},
		"/?board=%22%3E%3Cscript%3Ealert(1)%3C%2Fscript%3E": {404, "&lt;script&gt;alert(1)"},
	} {
		r := ask(s, "GET", target, "")
		if r.status != want.status || !strings.Contains(strings.ToLower(r.body), strings.ToLower(want.text)) || r.header.Get("Content-Type") != htmlType {
			t.Errorf("%.60s: %d %s, want %d with %q\n%s", target, r.status, r.header.Get("Content-Type"), want.status, want.text, r.body)
		}
		if policy := r.header.Get("Content-Security-Policy"); strings.Contains(policy, "unsafe") || !strings.Contains(policy, "script-src 'self';") {
			t.Errorf("%.60s: its policy is %s", target, policy)
		}
		if strings.Contains(r.body, " style=") || strings.Contains(r.body, "<script>") {
			t.Errorf("%.60s holds an inline style or script", target)
		}
	}
}

func TestPictures(t *testing.T) {
	s := server(t, Options{})
	for query, want := range map[string]string{"": `width="640"`, "&width=300": `width="300"`, "&width=2000&height=900": `height="900"`} {
		r := ask(s, "GET", "/chart.svg?board=brook&chip=v10"+query, "")
		if r.status != 200 || r.header.Get("Content-Type") != "image/svg+xml" || !strings.Contains(r.body, want) {
			t.Errorf("%q: %d %s\n%.300s", query, r.status, r.header.Get("Content-Type"), r.body)
		}
	}
	for _, query := range []string{"width=279", "width=2001", "height=2001", "width=x", "width=NaN"} {
		if r := ask(s, "GET", "/chart.svg?board=brook&chip=v10&"+query, ""); r.status != 422 {
			t.Errorf("%s: %d\n%s", query, r.status, r.body)
		}
	}
}

// The date on a card is that of the newest run, so that what has not changed
// keeps its bytes and its tag.
func TestCardsKeep(t *testing.T) {
	const target = "/card?board=kiln&chip=v10&room=hot"
	a, b := ask(server(t, Options{}), "GET", target, ""), ask(server(t, Options{}), "GET", target, "")
	if a.body != b.body || a.header.Get("ETag") == "" || a.header.Get("ETag") != b.header.Get("ETag") {
		t.Errorf("two servers of the same knowledge give two cards, %s and %s", a.header.Get("ETag"), b.header.Get("ETag"))
	}
	if want := "newest run of 2025-"; !strings.Contains(a.body, want) {
		t.Errorf("the card does not say %q\n%s", want, a.body)
	}
	again := ask(server(t, Options{}), "GET", target, "", "If-None-Match: "+a.header.Get("ETag"))
	if again.status != 304 {
		t.Errorf("a card that the client has is given again: %d", again.status)
	}
}

func TestFramesAreClosedByDefault(t *testing.T) {
	for want, frames := range map[string][]string{"'none'": nil, "https://guide.example": {"https://guide.example"}} {
		r := ask(server(t, Options{Frames: frames}), "GET", "/card?board=brook&chip=v10", "")
		if got := r.header.Get("Content-Security-Policy"); !strings.HasSuffix(got, fmt.Sprintf("frame-ancestors %s", want)) {
			t.Errorf("with %v the policy is %s", frames, got)
		}
	}
}

// What pages load has a name for each version, so that it may be kept for good.
func TestAssetsAreKeptForGood(t *testing.T) {
	s := server(t, Options{})
	body := ask(s, "GET", "/", "").body
	for _, attribute := range []string{`href="/style-`, `href="/icon-`, `src="/page-`} {
		_, rest, ok := strings.Cut(body, attribute)
		name, _, _ := strings.Cut(rest, `"`)
		_, prefix, _ := strings.Cut(attribute, `"`)
		r := ask(s, "GET", prefix+name, "")
		if !ok || r.status != 200 || r.header.Get("Cache-Control") != "public, max-age=31536000, immutable" || len(r.body) < 100 {
			t.Errorf("%s%s: %d, %s, %d bytes", prefix, name, r.status, r.header.Get("Cache-Control"), len(r.body))
		}
	}
}
