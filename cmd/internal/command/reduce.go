package command

import (
	"context"
	"errors"
	"fmt"
	"time"

	"github.com/spf13/pflag"

	"hotroom/advisor"
	"hotroom/advisor/bearing"
	"hotroom/advisor/bench"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge"
	"hotroom/knowledge/journal"
)

func reduce() Verb {
	return Verb{
		Name:    "reduce",
		Args:    "LOG…",
		Summary: "a data logger's file in, one judged run out",
		Help: "Reads logs of one load each (CSV with commas, semicolons or tabs, or .xlsx; a folder " +
			"of them; - for the standard input), with the columns time_s or time, hot_c (or hot_mv " +
			"and junction_c of a bare type K thermocouple), room_c, and where known package_w, ghz, " +
			"volts and vrm_c. It finds the load, removes spikes, fits the warming, and says what the " +
			"board settles at, how sure that is and why, whether it throttled, and what the run " +
			"changes in the board's prediction. Data that cannot carry a value get none. With " +
			"--record the run is added to the knowledge.",
		Example: `  hotroom reduce evening.csv --board slate --chip v10 --enclosure bench --cooler liquid --thermometer k1 --setup shipped
  hotroom reduce logs/ --board slate --chip v10 --enclosure bench --cooler liquid --json
  hotroom reduce evening.xlsx --board slate --chip v10 --knowledge my-bench --record --chart warming.svg`,
		Bind: bindReduce,
	}
}

// reducing is everything that reduce was told besides the logs.
type reducing struct {
	circumstances circumstances
	record        bool
	chart         *string
	now           func() time.Time
}

func bindReduce(flags *pflag.FlagSet) Run {
	r := reducing{now: time.Now}
	r.circumstances.bind(flags)
	r.circumstances.bindMeasured(flags)
	flags.StringVar(&r.circumstances.said.Room, "room", "", "`TEMPERATURE` of the room, for a log without room_c")
	flags.BoolVar(&r.record, "record", false, "add the run to the knowledge")
	r.chart = bindChart(flags)
	return func(ctx context.Context, s *Session, args []string) error { return s.reduce(ctx, r, args) }
}

// reduced is one log worked up.
type reduced struct {
	log       string
	reduction *bench.Reduction
	run       knowledge.Run
	bearing   *bearing.Bearing // nil: the run does not count as a value
	unasked   error            // why there is no bearing, where one was to be had
	recorded  *journal.Entry
	failed    error
}

func (s *Session) reduce(ctx context.Context, r reducing, args []string) error {
	if err := r.check(s, args); err != nil {
		return err
	}
	snapshot, names, err := s.Snapshot()
	if err != nil {
		return err
	}
	given, err := s.resolve(snapshot.Base(), names, r.circumstances)
	if err != nil {
		return err
	}
	logs, err := s.logs(args)
	if err != nil {
		return err
	}
	if len(logs) > 1 && (r.circumstances.id != "" || *r.chart != "") {
		return &usage{"--id and --chart go with one log: there are " + count(len(logs), "log")}
	}
	var all []reduced
	taken := takenIDs(snapshot.Base())
	for _, log := range logs {
		one := s.reduceOne(ctx, snapshot, given, log, r)
		if one.run.ID == "" && one.reduction != nil {
			one.run.ID = journal.ID(&one.run, func(id string) bool { return taken[id] })
		}
		taken[one.run.ID] = true
		if ctx.Err() != nil {
			return ctx.Err()
		}
		all = append(all, one)
	}
	return s.showReduced(snapshot, all)
}

// takenIDs are the ids of the runs that the knowledge holds.
func takenIDs(base *knowledge.Base) map[string]bool {
	taken := make(map[string]bool, len(base.Runs))
	for i := range base.Runs {
		taken[base.Runs[i].ID] = true
	}
	return taken
}

// check refuses what cannot be done before any work.
func (r *reducing) check(s *Session, args []string) error {
	switch {
	case len(args) == 0:
		return &usage{"reduce needs a log: `hotroom reduce evening.csv --board … --chip …`, or - for the standard input"}
	case r.record && s.Knowledge == "":
		return &usage{"--record needs a knowledge folder to write to: give it with --knowledge; the embedded demo cannot be written"}
	}
	return checkChart(*r.chart)
}

// reduceOne works one log up, and records it if that was asked for.
func (s *Session) reduceOne(ctx context.Context, snapshot *advisor.Snapshot, given known, log logFile, r reducing) reduced {
	out := reduced{log: log.name}
	l, err := s.readLog(ctx, log, given.roomC)
	if err != nil {
		out.failed = err
		return out
	}
	if out.reduction, out.failed = bench.Reduce(ctx, l, given.options()); out.failed != nil {
		return out
	}
	out.run = given.runOf(out.reduction)
	s.dateRun(&out.run, l.Start, log, r.now)
	if out.reduction.Quality.Used == 0 {
		if r.record {
			out.failed = fmt.Errorf("%s: nothing was measured, so nothing was recorded: %s", log.name, out.reduction.Quality.Reasons[0])
		}
		return out
	}
	if out.run.Counts() {
		out.bear(ctx, snapshot)
	}
	out.failed = errors.Join(s.writeChart(*r.chart, picture.Heating(snapshot.Base(), &out.run, out.reduction)), s.recordReduced(ctx, &out, r.record))
	return out
}

// bear works out what the run changes.
func (r *reduced) bear(ctx context.Context, snapshot *advisor.Snapshot) {
	b, err := bearing.Of(ctx, snapshot, r.run, Version())
	if err != nil {
		r.unasked = err
		return
	}
	r.bearing = &b
}

func (s *Session) recordReduced(ctx context.Context, r *reduced, wanted bool) error {
	if !wanted {
		return nil
	}
	entry, err := s.append(ctx, r.run)
	if err != nil {
		return err
	}
	r.run, r.recorded = entry.Run, &entry
	return nil
}

// namedResult is a result with its log, where there are several.
type namedResult struct {
	Log string `json:"log"`
	*bench.Result
	Error *string `json:"error"`
}

// showReduced prints the results; a log that failed is told apart, and makes
// the exit code 1.
func (s *Session) showReduced(snapshot *advisor.Snapshot, all []reduced) error {
	if err := s.printReduced(snapshot, all); err != nil {
		return err
	}
	failed := error(nil)
	for _, r := range all {
		if r.failed != nil {
			if failed != nil {
				s.say(failed)
			}
			failed = r.failed
		}
	}
	return mistakes(failed)
}

func (s *Session) printReduced(snapshot *advisor.Snapshot, all []reduced) error {
	if s.JSON {
		text, err := reducedInJSON(all)
		if err != nil {
			return err
		}
		return s.Print(text)
	}
	st := s.style(s.OutTerminal, s.Plain)
	for i, r := range all {
		text := ""
		if i > 0 {
			text = "\n"
		}
		if r.reduction == nil {
			continue
		}
		if err := s.Print(text + st.reduced(snapshot.Base(), &r)); err != nil {
			return err
		}
	}
	return nil
}

// reducedInJSON gives the result of one log, or a list for several.
func reducedInJSON(all []reduced) (string, error) {
	if len(all) == 1 {
		if all[0].reduction == nil {
			return "", nil
		}
		return inJSON(all[0].result())
	}
	list := make([]namedResult, len(all))
	for i, r := range all {
		list[i] = namedResult{Log: r.log, Result: r.result()}
		if r.failed != nil {
			text := r.failed.Error()
			list[i].Error = &text
		}
	}
	return inJSON(list)
}

func (r *reduced) result() *bench.Result {
	if r.reduction == nil {
		return nil
	}
	return &bench.Result{Run: bench.NewRow(&r.run), Quality: r.reduction.Quality}
}
