package page

import (
	"html/template"
	"net/url"
	"slices"

	"hotroom/advisor"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge"
)

// view is all that a page shows.
type view struct {
	Site     Site
	Title    string
	Kind     Kind
	Text     string
	Form     []field
	More     bool    // the lesser fields are filled in
	Chips    []group // every chip there is, for the script
	Carried  []pair  // the question beside the boards, for the form that compares
	Choices  []choice
	Budget   string
	Over     string
	Nav      []tab
	Problem  *problem
	Taken    []string
	Unplaced []string
	Examples []link

	Answer     *answerView
	Ranking    *rankingView
	Comparison *comparisonView
	Sweep      *sweepView
}

type problem struct {
	Text, Field string
	Links       []link
}

type link struct{ Text, Address string }

type pair struct{ Name, Value string }

type tab struct {
	Text, Address string
	Here          bool
}

// finish fills in what every page has.
func (a *asking) finish() {
	v := a.view
	v.Kind, v.Text, v.Form, v.Choices, v.Over, v.Budget = a.asked.Kind, a.asked.Text, a.form(), a.choices(), a.asked.Over, a.asked.Budget
	values := Query(a.question)
	v.Nav = a.nav(values)
	for _, name := range slices.Sorted(mapKeys(values)) {
		if name != "board" {
			v.Carried = append(v.Carried, pair{name, values.Get(name)})
		}
	}
	q := a.question
	v.More = q.Setup != "" || q.PowerW != nil || q.CurrentA != nil || q.GHz != nil || q.GraphicsW != nil || q.AltitudeM != nil
	v.Chips = chipGroups(a.Snapshot.Base(), advisor.Question{})
	v.Examples = a.examples()
	v.Title = a.title()
}

func mapKeys(values url.Values) func(func(string) bool) {
	return func(yield func(string) bool) {
		for name := range values {
			if !yield(name) {
				return
			}
		}
	}
}

func (a *asking) title() string {
	switch {
	case a.view.Problem != nil:
		return "Not answered yet"
	case a.view.Answer != nil:
		return a.view.Answer.Headline
	case a.view.Ranking != nil:
		return "Boards for " + picture.ChipName(a.Snapshot.Base(), a.question.Chip)
	case a.view.Comparison != nil:
		return "Boards side by side"
	case a.view.Sweep != nil:
		return a.view.Sweep.Title
	}
	return "Will this board feed that chip in my room?"
}

// nav leads to the other pages with the question as it stands.
func (a *asking) nav(values url.Values) []tab {
	boardless := url.Values{}
	for name := range values {
		if name != "board" {
			boardless.Set(name, values.Get(name))
		}
	}
	compared := url.Values{}
	for name := range boardless {
		compared.Set(name, boardless.Get(name))
	}
	for _, id := range a.asked.Boards {
		compared.Add("board", id)
	}
	kind := a.asked.Kind
	return []tab{
		{"One board", a.address(Answer, values), kind == Answer},
		{"Which board?", a.address(Ranking, boardless), kind == Ranking},
		{"Compare", a.address(Compare, compared), kind == Compare},
		{"Rooms and powers", a.address(Sweep, values), kind == Sweep},
	}
}

// nameOf gives the name of a thing that an id stands for.
func (a *asking) nameOf(kind, id string) string {
	base := a.Snapshot.Base()
	switch kind {
	case "board":
		if b, ok := base.Board(id); ok {
			return b.Name
		}
	case "chip":
		if c, ok := base.Chip(id); ok {
			return c.Name
		}
	case "enclosure":
		if e, ok := base.Enclosure(id); ok {
			return e.Name
		}
	case "cooler":
		if c, ok := base.Cooler(id); ok {
			return c.Name
		}
	}
	return id
}

// scale is an answer's scale in two widths, for wide and for narrow windows.
type scale struct{ Wide, Narrow template.HTML }

// narrow is the width of a scale that fits a window of 320 px, px.
const narrow = 280

func (a *asking) scale(advice advisor.Advice) scale {
	m := picture.Margin(a.Snapshot.Base(), advice)
	return scale{inset(m, 720), inset(m, narrow)}
}

// examples are sentences to try, with names out of the knowledge.
func (a *asking) examples() []link {
	base := a.Snapshot.Base()
	room := base.DefaultRoom()
	if len(base.Boards) == 0 || room == nil {
		return nil
	}
	b := &base.Boards[len(base.Boards)/2]
	i := slices.IndexFunc(base.Chips, func(c knowledge.Chip) bool { return c.Socket == b.Socket })
	if i < 0 {
		return nil
	}
	c := &base.Chips[i]
	var list []link
	for _, text := range []string{
		"Will the " + b.Name + " feed the " + c.Name + " in a room of " + whole(room.Celsius+7) + " °C?",
		"How hot does the " + b.Name + " get with a " + c.Name + "?",
		"Which board for the " + c.Name + "?",
	} {
		list = append(list, link{text, a.address(Answer, url.Values{"q": {text}})})
	}
	return list
}
