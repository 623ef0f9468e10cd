package web

import (
	"bytes"
	"context"
	"net/http"
	"reflect"
	"strconv"

	"hotroom/advisor"
	"hotroom/cmd/internal/page"
	"hotroom/cmd/internal/picture"
)

const htmlType = "text/html; charset=utf-8"

// site is where the pages of this server stand.
var site = page.Site{Home: "/", Assets: "/"}

// pages are the routes for people: pages, cards, pictures, and what they load.
func pages() []*route {
	return append(
		[]*route{
			pageRoute("/", "page", "the page: ask, and read the answer", page.Answer, append(questionParams(), sentenceParam())),
			pageRoute("/ranking", "rankingPage", "every board that takes the chip, as a page", page.Ranking, append(questionParams(), param{name: "budget", meaning: "highest price shown"})),
			pageRoute("/compare", "comparisonPage", "two to six boards side by side, as a page", page.Compare, comparisonParams()),
			pageRoute("/sweep", "sweepPage", "one board over rooms or powers, as a page", page.Sweep, append(questionParams(),
				param{name: "over", meaning: "what is swept over: room or power"}, param{name: "from", meaning: "where it begins"}, param{name: "to", meaning: "where it ends"})),
			of(htmlType, get("/card", "card", "an answer as a card for an iframe", questionParams(), readQuestion, card)),
			of("image/svg+xml", get("/chart.svg", "chart", "an answer as a picture", pictureParams(), readPicture, pictured)),
		},
		assets()...,
	)
}

func sentenceParam() param {
	return param{name: "q", meaning: "the question as a sentence; it goes before the other parameters"}
}

// of gives a route the media type of its answer.
func of(media string, rt *route) *route {
	rt.media = media
	return rt
}

// pageRoute makes a route whose answer is a page, also where the question
// cannot be answered: the page then says so.
func pageRoute(path, name, summary string, kind page.Kind, params []param) *route {
	return &route{
		method: http.MethodGet, path: path, name: name, summary: summary, params: params, gives: reflect.TypeFor[text](), media: htmlType,
		read: func(c *call) (any, work, error) {
			asked := readPage(c, kind, params)
			return asked, func(ctx context.Context) (any, error) { return shown(ctx, c.state, asked) }, nil
		},
	}
}

func readPage(c *call, kind page.Kind, params []param) page.Asked {
	a, err := c.asked(params)
	if err != nil {
		return page.Asked{Kind: kind, Wrong: faultOf(err).Error()}
	}
	asked := page.Asked{Kind: kind, Text: a.value("q"), Budget: a.value("budget"), Over: a.value("over"), From: a.value("from"), To: a.value("to")}
	asked.Said = a.said()
	if kind == page.Compare {
		asked.Boards, asked.Said.Board = a.all("board"), ""
	}
	if err := a.short(); err != nil {
		return page.Asked{Kind: kind, Wrong: faultOf(err).Error()}
	}
	return asked
}

// short holds every text of a page but the sentence, which has its own bound,
// to the length of a name.
func (a *asked) short() error {
	for _, g := range a.given {
		if g.name != "q" && len(g.text) > longestValue {
			return badValue(g.name, g.text, "give a shorter text")
		}
	}
	return nil
}

func shown(ctx context.Context, s *state, asked page.Asked) (text, error) {
	body, refusal, err := page.Source{Snapshot: s.snapshot, Names: s.names, Site: site}.Page(ctx, asked)
	switch {
	case err != nil:
		return nil, err
	case asked.Wrong != "":
		return nil, &pageFault{http.StatusBadRequest, body}
	case refusal != nil:
		return nil, &pageFault{statuses(refusal.Kind), body}
	}
	return body, nil
}

// pageFault is a page that says why it cannot answer. Nobody keeps it.
type pageFault struct {
	status int
	body   []byte
}

func (p *pageFault) Error() string { return http.StatusText(p.status) }

func (p *pageFault) write(v *visit) {
	h := v.Header()
	h["Content-Security-Policy"] = v.route.policy
	h.Set("X-Request-Id", v.id())
	h.Set("Content-Type", htmlType)
	h.Set("Cache-Control", "no-store")
	h.Set("Content-Length", strconv.Itoa(len(p.body)))
	v.WriteHeader(p.status)
	_, _ = v.Write(p.body) // a client that is gone cannot be told
}

func card(ctx context.Context, s *state, q advisor.Question) (text, error) {
	advice, err := advisor.Advise(ctx, s.snapshot, q)
	if err != nil {
		return nil, err
	}
	return page.Card(s.snapshot.Base(), advice, page.Link(site, q))
}

// pictureQuestion is what a picture depends on.
type pictureQuestion struct {
	Question      advisor.Question
	Width, Height float64 // px; 0: as usual
}

// The sizes that a picture may be asked for in, px.
const (
	leastPicture = 280
	mostPicture  = 2000
)

func pictureParams() []param {
	return append(questionParams(),
		param{name: "width", meaning: "px, 280 to 2000", number: true}, param{name: "height", meaning: "px, up to 2000; the picture grows when its words need more", number: true})
}

func readPicture(a *asked) pictureQuestion {
	q := pictureQuestion{Question: a.question()}
	for _, side := range []struct {
		name  string
		least float64
		into  *float64
	}{{"width", leastPicture, &q.Width}, {"height", 1, &q.Height}} {
		v := a.number(side.name)
		if v == nil {
			continue
		}
		*side.into = *v
		if *v < side.least || *v > mostPicture {
			a.refuse(badValue(side.name, a.value(side.name), "give px within the bounds that /openapi.json states"))
		}
	}
	return q
}

func pictured(ctx context.Context, s *state, q pictureQuestion) (text, error) {
	advice, err := advisor.Advise(ctx, s.snapshot, q.Question)
	if err != nil {
		return nil, err
	}
	m := picture.Margin(s.snapshot.Base(), advice)
	m.Width, m.Height = q.Width, q.Height
	var b bytes.Buffer
	err = m.SVG(&b)
	return b.Bytes(), err
}

// assets are what pages load.
func assets() []*route {
	var list []*route
	for _, a := range page.Assets() {
		rt := get("/"+a.Name, a.Kind+"Asset", "what pages load, under a name of its own for each version", nil, readNone,
			func(context.Context, *state, none) (text, error) { return text(a.Body), nil })
		rt.life = []string{"public, max-age=31536000, immutable"}
		list = append(list, of(a.Media, rt))
	}
	return list
}
