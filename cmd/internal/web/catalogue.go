package web

import (
	"context"
	"fmt"
	"net/http"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
	"hotroom/knowledge"
	"hotroom/rules/facts"
)

// List is a part of the knowledge, in the order of its files.
type List[T any] struct {
	Rows     []T              `json:"rows"`
	Versions advisor.Versions `json:"versions"`
}

// none is the question of a route that takes none.
type none struct{}

func readNone(*asked) none { return none{} }

// readID takes the id that stands in the path.
func readID(a *asked) string { return a.id }

// listOf makes the answer of a route that lists something.
func listOf[T any](rows func(*state) []T) func(context.Context, *state, none) (List[T], error) {
	return func(_ context.Context, s *state, _ none) (List[T], error) {
		return List[T]{append([]T{}, rows(s)...), s.versions}, nil
	}
}

func boards(s *state) []Record[knowledge.Board] { return records(s.snapshot.Base().Boards) }
func chips(s *state) []Record[knowledge.Chip]   { return records(s.snapshot.Base().Chips) }

func oneBoard(_ context.Context, s *state, id string) (Record[knowledge.Board], error) {
	if b, ok := s.snapshot.Base().Board(id); ok {
		return Record[knowledge.Board]{*b}, nil
	}
	return Record[knowledge.Board]{}, s.noSuch("board", id, sentence.Spoken{Board: id})
}

func oneChip(_ context.Context, s *state, id string) (Record[knowledge.Chip], error) {
	if c, ok := s.snapshot.Base().Chip(id); ok {
		return Record[knowledge.Chip]{*c}, nil
	}
	return Record[knowledge.Chip]{}, s.noSuch("chip", id, sentence.Spoken{Chip: id})
}

// noSuch says that a path names nothing, and what it may have meant.
func (s *state) noSuch(kind, id string, said sentence.Spoken) error {
	f := &fault{
		status: http.StatusNotFound, kind: string(advisor.NotFound), field: kind, what: fmt.Sprintf("no %s has the id %s", kind, quoted(id)),
		mend: fmt.Sprintf("/v1/%ss lists them", kind),
	}
	if len(id) > longestValue {
		return f
	}
	r := s.names.Resolve(said, advisor.Question{})
	switch {
	case r.Ask != nil:
		f.candidates = r.Ask.Candidates
	case r.Question.Board+r.Question.Chip != "":
		f.candidates = []string{r.Question.Board + r.Question.Chip}
	}
	return f
}

// Run is a measured run, by the names of the columns of runs.csv.
type Run struct {
	ID            string   `json:"id"`
	Date          string   `json:"date"` // YYYY-MM-DD
	Board         string   `json:"board"`
	Chip          string   `json:"chip"`
	Firmware      string   `json:"firmware"`
	Enclosure     string   `json:"enclosure"`
	Cooler        string   `json:"cooler"`
	Thermometer   string   `json:"thermometer"`
	Load          string   `json:"load"`
	Setup         string   `json:"setup"`
	PowerLimitW   *float64 `json:"power_limit_w"`
	CurrentLimitA *float64 `json:"current_limit_a"`
	RoomC         float64  `json:"room_c"`
	GraphicsW     float64  `json:"graphics_w"`
	AltitudeM     float64  `json:"altitude_m"`
	Minutes       *float64 `json:"minutes"`
	GHz           *float64 `json:"ghz"`
	Volts         *float64 `json:"volts"`
	PackageW      *float64 `json:"package_w"`
	HotC          *float64 `json:"hot_c"`
	Outcome       string   `json:"outcome"`
	By            string   `json:"by"`
	Note          string   `json:"note"`
}

func newRun(r *knowledge.Run) Run {
	return Run{
		ID: r.ID, Date: r.Date, Board: r.Board, Chip: r.Chip, Firmware: r.Firmware, Enclosure: r.Enclosure, Cooler: r.Cooler,
		Thermometer: r.Thermometer, Load: r.Load, Setup: r.Setup, PowerLimitW: r.PowerLimitW, CurrentLimitA: r.CurrentLimitA,
		RoomC: r.RoomC, GraphicsW: r.GraphicsW, AltitudeM: r.AltitudeM, Minutes: r.Minutes, GHz: r.GHz, Volts: r.Volts,
		PackageW: r.PackageW, HotC: r.HotC, Outcome: r.Outcome, By: r.By, Note: r.Note,
	}
}

func runs(s *state) []Run {
	all := s.snapshot.Base().Runs
	rows := make([]Run, len(all))
	for i := range all {
		rows[i] = newRun(&all[i])
	}
	return rows
}

func oneRun(_ context.Context, s *state, id string) (Run, error) {
	for i := range s.snapshot.Base().Runs {
		if r := &s.snapshot.Base().Runs[i]; r.ID == id {
			return newRun(r), nil
		}
	}
	return Run{}, s.noSuch("run", id, sentence.Spoken{})
}

// Rule is one rule as its file states it.
type Rule struct {
	Name   string `json:"name"`
	Kind   string `json:"kind"`
	When   string `json:"when"`
	Points string `json:"points"`
	Say    string `json:"say"`
	Source string `json:"source"`
}

func ruleList(s *state) []Rule {
	var rows []Rule
	for _, r := range s.snapshot.Book().Rules() {
		rows = append(rows, Rule{r.Name, r.Kind, r.When, r.Points, r.Say, r.Source})
	}
	return rows
}

// Fact is one thing that rules can talk about.
type Fact struct {
	Name    string `json:"name"`
	Type    string `json:"type"`
	Unit    string `json:"unit"`
	Meaning string `json:"meaning"`
}

func factList(*state) []Fact {
	var rows []Fact
	for _, f := range facts.List() {
		rows = append(rows, Fact{f.Name, string(f.Type), f.Unit, f.Meaning})
	}
	return rows
}
