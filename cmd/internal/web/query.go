package web

import (
	"fmt"
	"net/http"
	"net/url"
	"slices"
	"strings"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
	"hotroom/knowledge/nearest"
)

// param is one parameter of a query.
type param struct {
	name    string
	meaning string
	example string
	many    bool     // may be given several times
	number  bool     // is a plain number
	words   []string // the only words it takes; empty: any
}

// asked is a query that was taken apart: every parameter is known, and given
// once unless it may be given several times. What is read of it wrongly is kept
// as the error.
type asked struct {
	*call
	given []given
	err   error
}

// given is a parameter with its text.
type given struct{ name, text string }

// usuallyGiven is room for the parameters of most queries.
const usuallyGiven = 4

// asked takes the query apart.
func (c *call) asked(params []param) (*asked, error) {
	a := &asked{call: c, given: make([]given, 0, usuallyGiven)}
	for part := range strings.SplitSeq(c.query, "&") {
		if part == "" {
			continue
		}
		name, value, err := unescape(part)
		if err != nil {
			return nil, err
		}
		if err := a.take(params, name, value); err != nil {
			return nil, err
		}
	}
	return a, nil
}

func unescape(part string) (name, value string, err error) {
	before, after, _ := strings.Cut(part, "=")
	if name, err = url.QueryUnescape(before); err == nil {
		value, err = url.QueryUnescape(after)
	}
	if err != nil || strings.Contains(part, ";") {
		return "", "", &fault{
			status: http.StatusBadRequest, kind: "bad-query", what: fmt.Sprintf("the query has a part that cannot be read, %s", quoted(part)),
			mend: "write parameters as name=value joined by &, with anything unusual percent-encoded",
		}
	}
	return name, value, nil
}

// take puts a parameter in its place.
func (a *asked) take(params []param, name, value string) error {
	i := 0
	for i < len(params) && params[i].name != name {
		i++
	}
	if i == len(params) {
		return unknownName("unknown-parameter", "parameter", name, paramNames(params))
	}
	if _, before := a.first(name); before && !params[i].many {
		return &fault{
			status: http.StatusBadRequest, kind: "duplicate-parameter", field: name,
			what: fmt.Sprintf("the parameter %q is given more than once", name), mend: "give it once",
		}
	}
	a.given = append(a.given, given{name, value})
	return nil
}

func paramNames(params []param) []string {
	names := make([]string, len(params))
	for i, p := range params {
		names[i] = p.name
	}
	return names
}

// unknownName refuses a parameter or a key that is not known, and says which
// may have been meant.
func unknownName(kind, thing, name string, known []string) *fault {
	f := &fault{status: http.StatusBadRequest, kind: kind, field: cut(name), what: fmt.Sprintf("there is no %s %s here", thing, quoted(name))}
	meant, ok := nearest.Word(cut(name), known)
	if !ok { // "room_c" for "room", and the other way round
		i := slices.IndexFunc(known, func(k string) bool { return strings.HasPrefix(name, k+"_") || strings.HasPrefix(k, name+"_") })
		if ok = i >= 0; ok {
			meant = known[i]
		}
	}
	switch {
	case ok:
		f.mend, f.candidates = fmt.Sprintf("did you mean %q?", meant), []string{meant}
	case len(known) > 0:
		f.mend = "known are " + strings.Join(known, ", ")
	default:
		f.mend = "leave it out: none is taken"
	}
	return f
}

// longestQuoted bounds what a message repeats of a request, in characters.
const longestQuoted = 40

func cut(text string) string {
	if r := []rune(strings.ToValidUTF8(text, "\uFFFD")); len(r) > longestQuoted {
		return string(r[:longestQuoted-1]) + "…"
	}
	return strings.ToValidUTF8(text, "\uFFFD")
}

func quoted(text string) string { return fmt.Sprintf("%q", cut(text)) }

// first gives the text of a parameter, the first of those that are given several
// times; false where it is not given.
func (a *asked) first(name string) (text string, ok bool) {
	for i := range a.given {
		if a.given[i].name == name {
			return a.given[i].text, true
		}
	}
	return "", false
}

// value gives a parameter's text, or "".
func (a *asked) value(name string) string {
	text, _ := a.first(name)
	return text
}

// all gives the texts of a parameter that may be given several times.
func (a *asked) all(name string) []string {
	var texts []string
	for _, g := range a.given {
		if g.name == name {
			texts = append(texts, g.text)
		}
	}
	return texts
}

// refuse keeps the first thing that is wrong.
func (a *asked) refuse(err error) {
	if a.err == nil && err != nil {
		a.err = err
	}
}

// question reads a question out of the parameters that bear its values' names.
func (a *asked) question() advisor.Question { return a.resolve(a.said()) }

// said gives the texts of these parameters.
func (a *asked) said() sentence.Spoken {
	var said sentence.Spoken
	for _, g := range a.given {
		if field := said.Field(g.name); field != nil {
			*field = g.text
		}
	}
	return said
}

func (a *asked) resolve(said sentence.Spoken) advisor.Question {
	question, err := a.state.resolve(said)
	a.refuse(err)
	return question
}

// resolve turns texts into a question.
func (s *state) resolve(said sentence.Spoken) (advisor.Question, error) {
	if err := bounded(&said); err != nil {
		return advisor.Question{}, err
	}
	r := s.names.Resolve(said, advisor.Question{})
	if r.Ask != nil {
		return advisor.Question{}, r.Ask
	}
	return r.Question, nil
}

// longestValue bounds a name or a number, bytes: finding what a name may have
// meant takes time with its length.
const longestValue = 100

func bounded(said *sentence.Spoken) error {
	for _, name := range sentence.Settings() {
		if text := *said.Field(name); len(text) > longestValue {
			return &fault{
				status: http.StatusUnprocessableEntity, kind: string(advisor.BadValue), field: name,
				what: fmt.Sprintf("the %s is %d bytes long", name, len(text)), mend: fmt.Sprintf("give at most %d", longestValue),
			}
		}
	}
	return nil
}
