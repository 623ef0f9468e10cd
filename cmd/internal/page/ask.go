package page

import (
	"context"
	"errors"
	"net/url"
	"strconv"
	"strings"

	"hotroom/advisor"
	"hotroom/advisor/comparison"
	"hotroom/advisor/ranking"
	"hotroom/advisor/sentence"
	"hotroom/advisor/sweep"
	"hotroom/knowledge/quantity"
)

// Kind is what a page shows.
type Kind string

// The kinds of page, each at its own path.
const (
	Answer  Kind = ""
	Ranking Kind = "ranking"
	Compare Kind = "compare"
	Sweep   Kind = "sweep"
)

// Asked is what a page is asked for: texts, as they were typed.
type Asked struct {
	Kind     Kind
	Text     string // a sentence; it goes before the single values
	Said     sentence.Spoken
	Boards   []string // of a comparison
	Budget   string
	Over     string // of a sweep: room or power
	From, To string
	// Wrong is what the request itself has wrong; nothing else is then read.
	Wrong string
}

// Source is what pages are made from.
type Source struct {
	Snapshot *advisor.Snapshot
	Names    *sentence.Names
	Site     Site
}

// asking is a page being made.
type asking struct {
	Source
	asked    Asked
	question advisor.Question
	budget   *float64
	view     *view
}

// Page answers a request with a page. What cannot be answered is said on the
// page, and the refusal comes with it; the error is that of the context or of
// the program.
func (s Source) Page(ctx context.Context, asked Asked) ([]byte, *advisor.Refusal, error) {
	a := &asking{Source: s, asked: asked, view: &view{Site: s.Site}}
	err := a.work(ctx)
	refusal, refused := errors.AsType[*advisor.Refusal](err)
	if err != nil && !refused {
		return nil, nil, err
	}
	if refused {
		a.refuse(refusal)
	}
	a.finish()
	body, err := render("page.html", a.view)
	return body, refusal, err
}

func (a *asking) work(ctx context.Context) error {
	if a.asked.Wrong != "" {
		return &advisor.Refusal{Kind: advisor.BadValue, What: a.asked.Wrong}
	}
	if err := a.read(); err != nil {
		return err
	}
	switch {
	case a.asked.Kind == Ranking:
		return a.rank(ctx)
	case a.asked.Kind == Compare:
		return a.compare(ctx)
	case a.asked.Kind == Sweep:
		return a.sweep(ctx)
	case a.asked.empty():
		return nil
	}
	return a.answer(ctx)
}

// empty reports whether nothing was asked at all.
func (a Asked) empty() bool {
	return a.Text == "" && a.Said == sentence.Spoken{} && len(a.Boards) == 0
}

// read turns the texts into a question.
func (a *asking) read() error {
	if strings.TrimSpace(a.asked.Text) != "" {
		return a.readSentence()
	}
	r := a.Names.Resolve(a.asked.Said, advisor.Question{})
	a.question, a.view.Taken = r.Question, r.Taken
	if r.Ask != nil {
		return r.Ask
	}
	var err error
	a.budget, err = typed("budget", a.asked.Budget, plainNumber)
	if err != nil {
		return err
	}
	return a.readBoards()
}

// readBoards finds the boards of a comparison, each as a question would.
func (a *asking) readBoards() error {
	for i, name := range a.asked.Boards {
		if i == mostCompared { // the comparison itself refuses so many
			break
		}
		r := a.Names.Resolve(sentence.Spoken{Board: name}, advisor.Question{})
		if r.Ask != nil {
			return r.Ask
		}
		a.asked.Boards[i] = r.Question.Board
	}
	return nil
}

const mostCompared = 6

// readSentence reads a sentence and what kind of answer it wants.
func (a *asking) readSentence() error {
	r := a.Names.Read(a.asked.Text, advisor.Question{})
	a.question, a.view.Taken, a.view.Unplaced, a.budget = r.Question, r.Taken, r.Unplaced, r.Budget
	switch r.Kind {
	case sentence.Which:
		a.asked.Kind = Ranking
	case sentence.Compare:
		a.asked.Kind, a.asked.Boards = Compare, r.Boards
	}
	if r.Ask != nil {
		return r.Ask
	}
	if len(r.Taken) == 0 {
		return &advisor.Refusal{
			Kind: advisor.Missing, What: "the sentence names nothing that is known here",
			Mend: "name a board and a chip, and say how warm the room is",
		}
	}
	return nil
}

func (a *asking) answer(ctx context.Context) error {
	advice, err := advisor.Advise(ctx, a.Snapshot, a.question)
	if err == nil {
		a.view.Answer = a.answered(advice)
	}
	return err
}

func (a *asking) rank(ctx context.Context) error {
	if a.question.Chip == "" {
		return nil // the form asks for it
	}
	r, err := ranking.Rank(ctx, a.Snapshot, a.question, ranking.Options{Budget: a.budget})
	if err == nil {
		a.view.Ranking = a.ranked(r)
	}
	return err
}

func (a *asking) compare(ctx context.Context) error {
	if len(a.asked.Boards) == 0 {
		return nil // the form asks for them
	}
	q := a.question
	q.Board = ""
	c, err := comparison.Compare(ctx, a.Snapshot, q, a.asked.Boards)
	if err == nil {
		a.view.Comparison = a.compared(c)
	}
	return err
}

func (a *asking) sweep(ctx context.Context) error {
	if a.question.Board == "" || a.question.Chip == "" {
		return nil // the form asks for them
	}
	over := sweep.Range{Over: sweep.OverRoom}
	read := quantity.Temperature
	if a.asked.Over == sweep.OverPower {
		over.Over, read = sweep.OverPower, quantity.Power
	}
	var err error
	if over.From, err = typed("from", a.asked.From, read); err != nil {
		return err
	}
	if over.To, err = typed("to", a.asked.To, read); err != nil {
		return err
	}
	w, err := sweep.Over(ctx, a.Snapshot, a.question, over)
	if err == nil {
		a.view.Sweep = a.swept(w)
	}
	return err
}

// typed reads a number with or without its unit; nil where none is given.
func typed(name, text string, read func(string) (float64, error)) (*float64, error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil
	}
	v, err := read(strings.TrimSpace(text))
	if err != nil {
		return nil, &advisor.Refusal{Kind: advisor.BadValue, Field: name, What: name + ": " + err.Error()}
	}
	return &v, nil
}

func plainNumber(text string) (float64, error) {
	v, err := strconv.ParseFloat(text, 64)
	if err != nil || v != v || v > 1e9 || v < -1e9 {
		return 0, errors.New("give a plain number such as 200")
	}
	return v, nil
}

// refuse puts a refusal on the page, with a link for each thing that may have
// been meant.
func (a *asking) refuse(r *advisor.Refusal) {
	p := &problem{Text: sentenceOf(r.Error()), Field: paramOf(r.Field)}
	for _, id := range r.Candidates {
		values := Query(a.question)
		if p.Field == "board" && a.asked.Kind == Compare {
			break // which of the boards it stands for is not said
		}
		if p.Field == "" {
			break
		}
		field := a.kindOf(p.Field, id)
		values.Set(field, id)
		p.Links = append(p.Links, link{a.nameOf(field, id), a.address(a.asked.Kind, values)})
	}
	a.view.Problem = p
}

// kindOf says whether a candidate is a board or a chip, where either could
// settle what does not fit.
func (a *asking) kindOf(field, id string) string {
	base := a.Snapshot.Base()
	_, isBoard := base.Board(id)
	_, isChip := base.Chip(id)
	switch {
	case field == "chip" && isBoard && !isChip:
		return "board"
	case field == "board" && isChip && !isBoard:
		return "chip"
	}
	return field
}

// sentenceOf ends a message as a sentence.
func sentenceOf(text string) string {
	if text == "" {
		return text
	}
	text = strings.ToUpper(text[:1]) + text[1:]
	if strings.HasSuffix(text, "?") {
		return text
	}
	return text + "."
}

// paramOf gives the name of the parameter for a key of a question.
func paramOf(field string) string {
	for _, unit := range []string{"_c", "_w", "_a", "_m"} {
		field = strings.TrimSuffix(field, unit)
	}
	return field
}

// address is where a page of a kind stands.
func (s Source) address(kind Kind, values url.Values) string {
	if len(values) == 0 {
		return s.Site.Home + string(kind)
	}
	return s.Site.Home + string(kind) + "?" + values.Encode()
}

// Query writes a question as the parameters of an address.
func Query(q advisor.Question) url.Values {
	values := url.Values{}
	for name, word := range map[string]string{
		"board": q.Board, "chip": q.Chip, "enclosure": q.Enclosure, "cooler": q.Cooler, "load": q.Load, "setup": q.Setup,
	} {
		if word != "" {
			values.Set(name, word)
		}
	}
	for name, number := range map[string]*float64{
		"room": q.RoomC, "power": q.PowerW, "current": q.CurrentA, "ghz": q.GHz, "graphics": q.GraphicsW, "altitude": q.AltitudeM,
	} {
		if number != nil {
			values.Set(name, strconv.FormatFloat(*number, 'f', -1, 64))
		}
	}
	return values
}
