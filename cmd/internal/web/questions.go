package web

import (
	"errors"
	"fmt"
	"net/http"
	"slices"
	"strconv"
	"strings"

	"hotroom/advisor"
	"hotroom/advisor/ranking"
	"hotroom/advisor/sentence"
	"hotroom/advisor/sweep"
	"hotroom/knowledge/quantity"
)

// questionParams are the parameters of a question, without some of them.
func questionParams(without ...string) []param {
	all := []param{
		{name: "board", meaning: "the board: its id, its name or a part of it", example: "slate"},
		{name: "chip", meaning: "the chip: its id, its name or a part of it", example: "v10"},
		{name: "room", meaning: "the room's temperature: 32, 32C, 90F, or a room word of the knowledge", example: "32C"},
		{name: "enclosure", meaning: "what the board stands in"},
		{name: "cooler", meaning: "the chip's cooler"},
		{name: "load", meaning: "how hard the chip is worked"},
		{name: "setup", meaning: "the power setup: rated, shipped, open or custom", example: "shipped"},
		{name: "power", meaning: "a power cap of one's own: 180, 180W", example: "180W"},
		{name: "current", meaning: "a current cap of one's own: 210, 210A"},
		{name: "ghz", meaning: "the all-core clock that is wanted: 4.7, 4700MHz"},
		{name: "graphics", meaning: "heat of the graphics card: 250, 250W"},
		{name: "altitude", meaning: "height above the sea: 1600, 1600m, 5200ft"},
	}
	return slices.DeleteFunc(all, func(p param) bool { return slices.Contains(without, p.name) })
}

// keyOf gives the JSON key that stands for a value of a question.
func keyOf(name string) string {
	switch name {
	case "room":
		return "room_c"
	case "power", "graphics":
		return name + "_w"
	case "current":
		return "current_a"
	case "altitude":
		return "altitude_m"
	}
	return name
}

// rankingQuestion is what a ranking depends on.
type rankingQuestion struct {
	Question advisor.Question
	Options  ranking.Options
}

func rankingParams() []param {
	return append(
		questionParams("board"),
		param{name: "budget", meaning: "highest price shown, in the boards' currency", number: true},
		param{name: "top", meaning: "most rows shown", number: true},
		param{name: "only", meaning: "verdicts shown, joined by commas", example: "yes,with-care"},
	)
}

func readRanking(a *asked) rankingQuestion {
	o := ranking.Options{Budget: a.number("budget"), Only: a.words("only")}
	if top := a.number("top"); top != nil {
		o.Top = int(*top)
		if *top != float64(o.Top) || o.Top < 1 {
			a.refuse(badValue("top", a.value("top"), "give a whole number from 1 on"))
		}
	}
	return rankingQuestion{a.question(), o}
}

// comparisonQuestion is what a comparison depends on.
type comparisonQuestion struct {
	Question advisor.Question
	Boards   []string
}

func comparisonParams() []param {
	return append([]param{{name: "board", meaning: "a board; two to six are given", many: true}}, questionParams("board")...)
}

// readComparison finds each board as a question would.
func readComparison(a *asked) comparisonQuestion {
	boards, said := a.all("board"), a.said()
	said.Board = ""
	c := comparisonQuestion{Question: a.resolve(said)}
	if len(boards) > mostCompared { // refused by number, without finding them all
		c.Boards = boards
		return c
	}
	for _, name := range boards {
		found := a.resolve(sentence.Spoken{Board: name})
		c.Boards = append(c.Boards, found.Board)
	}
	return c
}

// mostCompared is the most boards that are compared.
const mostCompared = 6

// sweepQuestion is what a sweep depends on.
type sweepQuestion struct {
	Question advisor.Question
	Range    sweep.Range
}

func sweepParams() []param {
	return append(
		questionParams(),
		param{name: "over", meaning: "what is swept over", words: []string{sweep.OverRoom, sweep.OverPower}},
		param{name: "from", meaning: "where it begins: 15, 59F, or 120W"},
		param{name: "to", meaning: "where it ends: 45, 113F, or 240W"},
		param{name: "step", meaning: "K or W from one row to the next", number: true},
	)
}

func readSweep(a *asked) sweepQuestion {
	r := sweep.Range{Over: a.value("over")}
	if r.Over == "" {
		r.Over = sweep.OverRoom
	}
	read := quantity.Temperature
	if r.Over == sweep.OverPower {
		read = quantity.Power
	}
	r.From, r.To = a.quantity("from", read), a.quantity("to", read)
	if step := a.number("step"); step != nil {
		r.Step = *step
		if !(*step > 0) {
			a.refuse(badValue("step", a.value("step"), "give a number above 0"))
		}
	}
	return sweepQuestion{a.question(), r}
}

// number reads a plain number; nil where none is given.
func (a *asked) number(name string) *float64 {
	return a.quantity(name, func(text string) (float64, error) {
		n, err := strconv.ParseFloat(text, 64)
		if err != nil || n != n || n > 1e9 || n < -1e9 {
			return 0, badValue(name, text, "give a plain number such as 200")
		}
		return n, nil
	})
}

// quantity reads a number with or without its unit; nil where none is given.
func (a *asked) quantity(name string, read func(string) (float64, error)) *float64 {
	text := strings.TrimSpace(a.value(name))
	if text == "" {
		return nil
	}
	n, err := read(text)
	if err != nil {
		if _, ours := errors.AsType[*fault](err); !ours {
			err = &advisor.Refusal{Kind: advisor.BadValue, Field: name, What: name + ": " + err.Error()}
		}
		a.refuse(err)
		return nil
	}
	return &n
}

// words reads words joined by commas.
func (a *asked) words(name string) []string {
	var list []string
	for word := range strings.SplitSeq(a.value(name), ",") {
		if word = strings.TrimSpace(word); word != "" {
			list = append(list, word)
		}
	}
	return list
}

func badValue(name, text, mend string) *fault {
	return &fault{
		status: http.StatusUnprocessableEntity, kind: string(advisor.BadValue), field: name,
		what: fmt.Sprintf("%s cannot be %s", name, quoted(text)), mend: mend,
	}
}
