package command

import (
	"context"
	"errors"
	"strings"
	"time"

	"github.com/spf13/pflag"

	"hotroom/knowledge"
	"hotroom/knowledge/document"
	"hotroom/knowledge/journal"
)

func recordRun() Verb {
	return Verb{
		Name:    "record",
		Summary: "append a run to runs.csv, safely",
		Help: "Adds one measured run to the knowledge folder's runs.csv, after checking it against " +
			"everything that the folder holds. Several may record at once; whatever happens, the old " +
			"file or the new one is there, and its columns, quoting and line endings stay as they " +
			"are. Without --id one is made of date, board and chip. --dry-run shows the line and " +
			"writes nothing.",
		Example: `  hotroom record --knowledge my-bench --date 2025-06-01 --board slate --chip v10 --enclosure bench --cooler liquid --room 22.4 --ghz 3.9 --volts 1.02 --package 131 --hot 81 --outcome settled
  hotroom record --knowledge my-bench --board slate --chip v10 --room 31 --outcome crashed --note "after 12 minutes" --dry-run`,
		Bind: bindRecord,
	}
}

// recording is a run as typed.
type recording struct {
	circumstances circumstances
	hot, minutes  float64
	outcome       string
	dryRun        bool
	given         func(flag string) bool
	now           func() time.Time
}

func bindRecord(flags *pflag.FlagSet) Run {
	r := recording{given: flags.Changed, now: time.Now}
	r.circumstances.bind(flags)
	flags.StringVar(&r.circumstances.said.Room, "room", "", "mean `TEMPERATURE` of the room under load: 22.4, 72F")
	flags.Float64Var(&r.circumstances.ghz, "ghz", 0, "sustained clock, `GHz`")
	flags.Float64Var(&r.circumstances.volts, "volts", 0, "core voltage, `V`")
	flags.Float64Var(&r.circumstances.packageW, "package", 0, "sustained package power, `W`")
	flags.Float64Var(&r.hot, "hot", 0, "hot spot, `°C`")
	flags.Float64Var(&r.minutes, "minutes", 0, "time under load, `min`")
	flags.StringVar(&r.outcome, "outcome", "", "how it ended: "+strings.Join(knowledge.Outcomes(), ", "))
	completes(flags, "outcome", "outcome")
	flags.BoolVar(&r.dryRun, "dry-run", false, "show the line and write nothing")
	return func(ctx context.Context, s *Session, args []string) error { return s.record(ctx, r, args) }
}

func (s *Session) record(ctx context.Context, r recording, args []string) error {
	switch {
	case len(args) > 0:
		return &usage{"record takes no arguments: the run is given by flags, and a log is worked up with `hotroom reduce`"}
	case s.Knowledge == "":
		return &usage{"record needs a knowledge folder to write to: give it with --knowledge; the embedded demo cannot be written"}
	case r.outcome == "":
		return &usage{"record needs --outcome: " + strings.Join(knowledge.Outcomes(), ", ")}
	case !r.given("room"):
		return &usage{"record needs --room, the mean room temperature under load"}
	}
	run, err := s.typedRun(r)
	if err != nil {
		return err
	}
	if r.dryRun {
		entry, err := journal.Preview(s.Knowledge, run)
		if err != nil {
			return mistakes(err)
		}
		return s.showEntry(entry)
	}
	entry, err := s.append(ctx, run)
	if err != nil {
		return mistakes(err)
	}
	return s.showEntry(entry)
}

// typedRun makes a run of what was typed.
func (s *Session) typedRun(r recording) (knowledge.Run, error) {
	snapshot, names, err := s.Snapshot()
	if err != nil {
		return knowledge.Run{}, err
	}
	given, err := s.resolve(snapshot.Base(), names, r.circumstances)
	if err != nil {
		return knowledge.Run{}, err
	}
	run := given.run
	run.Outcome, run.RoomC = r.outcome, *roundedTo(given.roomC, 100)
	for _, f := range []struct {
		flag  string
		value float64
		into  **float64
	}{{"hot", r.hot, &run.HotC}, {"minutes", r.minutes, &run.Minutes}} {
		if r.given(f.flag) {
			*f.into = &f.value
		}
	}
	if run.Date == "" {
		run.Date = r.now().Format(time.DateOnly)
		s.Say("no date was given: today's is taken, %s", run.Date)
	}
	return run, nil
}

// append records a run, and lets what was loaded before be read anew.
func (s *Session) append(ctx context.Context, run knowledge.Run) (journal.Entry, error) {
	entry, err := journal.Append(ctx, s.Knowledge, run)
	if err != nil {
		return entry, err
	}
	s.loaded = nil
	s.Say("recorded as %s", entry.Run.ID)
	if len(entry.Omitted) > 0 {
		s.Say("not written, since runs.csv has no column for it: %s", strings.Join(entry.Omitted, ", "))
	}
	for _, w := range entry.Warnings {
		s.Say("%s", w.String())
	}
	return entry, nil
}

// showEntry prints the line as it stands in the file.
func (s *Session) showEntry(entry journal.Entry) error {
	return s.show(struct {
		ID   string `json:"id"`
		Line string `json:"line"`
	}{entry.Run.ID, entry.Line}, func(style) string { return safe(entry.Line) + "\n" })
}

// mistakes lets the mistakes of a run be shown at their places.
func mistakes(err error) error {
	if problems, ok := errors.AsType[document.Problems](err); ok {
		return &broken{problems}
	}
	return err
}
