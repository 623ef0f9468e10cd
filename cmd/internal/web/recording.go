package web

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"reflect"
	"strings"
	"unicode"

	"hotroom/advisor"
	"hotroom/advisor/bench"
	"hotroom/knowledge"
	"hotroom/knowledge/document"
	ledger "hotroom/knowledge/journal"
)

// runsPath is where runs are read and, with a token, recorded.
const runsPath = "/v1/runs"

// mostRunBytes is the longest body of one run, bytes: some hundred times what
// its columns need.
const mostRunBytes = 64 << 10

// records reports whether runs can be recorded here.
func (o *Options) records() bool { return o.Token != nil && o.Source.Folder != "" }

// recording is the route that adds to the knowledge.
func (s *Server) recording() *route {
	rt := post[bench.Row](runsPath, "record", "add one measured run; one that has an id is added once, however often it is sent", readRun, s.record)
	rt.created = func(made any) string { return runsPath + "/" + url.PathEscape(made.(Run).ID) }
	return rt
}

// readRun reads a run by the names of the columns of runs.csv.
func readRun(_ *state, body []byte) (knowledge.Run, error) {
	if len(body) > mostRunBytes {
		return knowledge.Run{}, tooLarge(mostRunBytes)
	}
	o := newObjects(body, knowledge.RunColumns())
	members, err := o.one()
	if err != nil {
		return knowledge.Run{}, err
	}
	var mistakes []string
	for _, m := range members {
		if strings.ContainsFunc(m.text, unicode.IsControl) {
			mistakes = append(mistakes, m.key+" holds a line break or another control character: a run is one line")
		}
	}
	if mistakes != nil {
		return knowledge.Run{}, mistaken(mistakes)
	}
	var row bench.Row
	if err := json.Unmarshal(body, &row); err != nil {
		return knowledge.Run{}, o.mistyped(err)
	}
	run, err := row.Run()
	if err != nil {
		return knowledge.Run{}, mistaken([]string{err.Error()})
	}
	run.ID = strings.TrimSpace(run.ID) // as the file is read
	return run, nil
}

// mistyped says which value is of another type than its column.
func (o *objects) mistyped(err error) error {
	wrong, ok := errors.AsType[*json.UnmarshalTypeError](err)
	if !ok {
		return o.fault(badJSON, "", "the body is no run", "openapi.json shows the form")
	}
	want, held := "text", "number"
	if wrong.Type.Kind() == reflect.Float64 {
		want, held = held, want
	}
	return &fault{
		status: http.StatusBadRequest, kind: wrongType, field: wrong.Field,
		what: fmt.Sprintf("%q holds a %s", wrong.Field, held), mend: fmt.Sprintf("give a %s or null", want),
	}
}

// record adds a run to runs.csv and takes the new state at once. It gives the
// run as it is read from there.
func (s *Server) record(ctx context.Context, _ *state, run knowledge.Run) (Run, error) {
	entry, err := ledger.Append(ctx, s.options.Source.Folder, run)
	problems, mistakes := errors.AsType[document.Problems](err)
	if err != nil && !mistakes {
		return Run{}, unrecorded(ctx, err)
	}
	s.store.reload(ctx)
	now := s.store.current.Load()
	switch {
	case !mistakes:
		if row, err := oneRun(ctx, now, entry.Run.ID); err == nil {
			return row, nil
		}
		return newRun(&entry.Run), nil // something else keeps the new state from being taken
	case run.ID != "" && now.holdsRun(run.ID):
		return Run{}, &fault{
			status: http.StatusConflict, kind: "exists", field: "id", what: fmt.Sprintf("there is a run %s already", quoted(run.ID)),
			mend: "give another id, or none to have one made",
		}
	}
	return Run{}, mistaken(worded(problems, nil))
}

// unrecorded says that the knowledge could not be written to; why is told to
// whoever runs the server, not to its clients.
func unrecorded(ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return err
	}
	return &fault{
		status: http.StatusServiceUnavailable, kind: "not-recorded", because: err, what: "the run was not recorded",
		mend: "whoever runs the server finds the reason in its log; send the run again after that, with an id, so that it is never there twice",
	}
}

func (s *state) holdsRun(id string) bool {
	for i := range s.snapshot.Base().Runs {
		if s.snapshot.Base().Runs[i].ID == id {
			return true
		}
	}
	return false
}

// mistaken refuses a run that reads well and cannot be recorded as it is.
func mistaken(problems []string) *fault {
	return &fault{
		status: http.StatusUnprocessableEntity, kind: string(advisor.BadValue), problems: problems,
		what: "the run was not recorded", mend: strings.Join(problems, "; "),
	}
}
