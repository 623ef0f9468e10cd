package command

import (
	"fmt"
	"math"
	"strings"

	"github.com/spf13/pflag"

	"hotroom/advisor"
	"hotroom/advisor/bench"
	"hotroom/advisor/chip"
	"hotroom/advisor/sentence"
	"hotroom/knowledge"
	"hotroom/knowledge/nearest"
)

// circumstances are what a run was made under, as typed.
type circumstances struct {
	said                                      sentence.Spoken
	thermometer, firmware, id, date, by, note string
	ghz, volts, packageW                      float64
	given                                     func(flag string) bool
}

// bind declares the flags that say what a run was made under.
func (c *circumstances) bind(flags *pflag.FlagSet) {
	bindQuestion(flags, &c.said, "room", "ghz")
	flags.StringVar(&c.thermometer, "thermometer", "", "`ID` of the thermometer at the hot spot")
	flags.StringVar(&c.firmware, "firmware", "", "the board's firmware `VERSION`")
	flags.StringVar(&c.id, "id", "", "`ID` of the run (default: made of date, board and chip)")
	flags.StringVar(&c.date, "date", "", "`DAY` of the run, YYYY-MM-DD")
	flags.StringVar(&c.by, "by", "", "who measured it")
	flags.StringVar(&c.note, "note", "", "a remark")
	c.given = flags.Changed
}

// bindMeasured declares what a log may lack.
func (c *circumstances) bindMeasured(flags *pflag.FlagSet) {
	flags.Float64Var(&c.ghz, "ghz", 0, "sustained clock in `GHz`, for a log without ghz")
	flags.Float64Var(&c.volts, "volts", 0, "core voltage in `V`, for a log without volts")
	flags.Float64Var(&c.packageW, "package", 0, "sustained package power in `W`, for a log without package_w")
}

// known are circumstances with their names found in the knowledge.
type known struct {
	run         knowledge.Run
	board       *knowledge.Board
	chip        *knowledge.Chip
	thermometer *knowledge.Thermometer
	roomC       *float64
}

// resolve finds every name in the knowledge, tells what was made of it, and
// fills in the caps of the power setup.
func (s *Session) resolve(base *knowledge.Base, names *sentence.Names, c circumstances) (known, error) {
	read := names.Resolve(c.said, advisor.Question{})
	if read.Ask != nil {
		return known{}, read.Ask
	}
	q := read.Question
	for _, field := range []struct{ name, value string }{{"board", q.Board}, {"chip", q.Chip}} {
		if field.value == "" {
			return known{}, &advisor.Refusal{Kind: advisor.Missing, Field: field.name, What: "the run names no " + field.name, Mend: "give --" + field.name}
		}
	}
	s.tell(read.Taken, nil, nil)
	k := known{roomC: q.RoomC}
	k.board, _ = base.Board(q.Board)
	k.chip, _ = base.Chip(q.Chip)
	var err error
	if k.thermometer, err = thermometer(base, c.thermometer); err != nil {
		return known{}, err
	}
	k.run = knowledge.Run{
		ID: c.id, Date: c.date, Board: q.Board, Chip: q.Chip, Firmware: c.firmware, Enclosure: q.Enclosure, Cooler: q.Cooler,
		Thermometer: c.thermometer, Load: q.Load, Setup: q.Setup, PowerLimitW: q.PowerW, CurrentLimitA: q.CurrentA,
		GraphicsW: or(q.GraphicsW), AltitudeM: or(q.AltitudeM), By: c.by, Note: c.note,
		GHz: typed(c.ghz), Volts: typed(c.volts), PackageW: typed(c.packageW),
	}
	s.fillIn(base, &k)
	return k, nil
}

// fillIn takes the knowledge's defaults for surroundings that were not named,
// and says so, and the caps that a power setup stands for.
func (s *Session) fillIn(base *knowledge.Base, k *known) {
	if e := base.DefaultEnclosure(); k.run.Enclosure == "" && e != nil {
		k.run.Enclosure = e.ID
		s.Say("no enclosure was named: %s is taken", e.ID)
	}
	if c := base.DefaultCooler(); k.run.Cooler == "" && c != nil {
		k.run.Cooler = c.ID
		s.Say("no cooler was named: %s is taken", c.ID)
	}
	caps := chip.Caps{PowerW: k.run.PowerLimitW, CurrentA: k.run.CurrentLimitA}
	switch k.run.Setup {
	case advisor.SetupRated:
		caps = chip.RatedCaps(k.chip)
	case advisor.SetupShipped:
		caps = chip.ShippedCaps(k.board, k.chip)
	}
	k.run.PowerLimitW, k.run.CurrentLimitA = caps.PowerW, caps.CurrentA
}

// thermometer finds a thermometer by its id; nil where none is named.
func thermometer(base *knowledge.Base, id string) (*knowledge.Thermometer, error) {
	if id == "" {
		return nil, nil
	}
	if t, ok := base.Thermometer(id); ok {
		return t, nil
	}
	var ids []string
	for _, t := range base.Thermometers {
		ids = append(ids, t.ID)
	}
	mend := "the knowledge holds " + strings.Join(ids, ", ")
	if best, ok := nearest.Word(id, ids); ok {
		mend = fmt.Sprintf("did you mean %q?", best)
	}
	return nil, &advisor.Refusal{Kind: advisor.NotFound, Field: "thermometer", What: fmt.Sprintf("no thermometer is called %q", id), Mend: mend, Candidates: ids}
}

// options says what the reduction may know of the run.
func (k *known) options() bench.Options {
	o := bench.Options{Thermometer: k.thermometer, IdleW: &k.chip.IdleW, BurstS: k.chip.BurstS}
	if b := k.board.Limit.BurstS; b != nil {
		o.BurstS = b
	}
	return o
}

// runOf puts what was measured into the run, rounded to what a log can say;
// what was typed fills what the log lacks.
func (k *known) runOf(r *bench.Reduction) knowledge.Run {
	run := k.run
	run.Outcome = r.Outcome
	if room := r.Quality.RoomMeanC; room != nil {
		run.RoomC = *roundedTo(room, 10)
	}
	if r.Quality.Used > 0 {
		run.Minutes = roundedTo(&r.Minutes, 10)
	}
	for _, f := range []struct {
		measured *float64
		scale    float64
		into     **float64
	}{{r.GHz, 1000, &run.GHz}, {r.Volts, 1000, &run.Volts}, {r.PackageW, 10, &run.PackageW}} {
		if f.measured != nil {
			*f.into = roundedTo(f.measured, f.scale)
		}
	}
	run.HotC = roundedTo(r.HotC, 10)
	return run
}

func roundedTo(v *float64, scale float64) *float64 {
	if v == nil {
		return nil
	}
	r := math.Round(*v*scale) / scale
	return &r
}

func or(v *float64) float64 {
	if v == nil {
		return 0
	}
	return *v
}

// typed gives nil for a number that was not given.
func typed(v float64) *float64 {
	if v == 0 {
		return nil
	}
	return &v
}
