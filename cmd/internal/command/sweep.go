package command

import (
	"context"
	"strings"

	"github.com/spf13/pflag"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
	"hotroom/advisor/sweep"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge/quantity"
)

func sweepOver() Verb {
	return Verb{
		Name:    "sweep",
		Args:    "[SENTENCE]",
		Takes:   takesSentence,
		Summary: "one board over room temperatures or package powers",
		Help: "Answers one question again and again, over room temperatures or over caps of the " +
			"package power, and shows a table and a chart with the board's measured runs in it. " +
			"Without --from and --to, rooms go from 15 to 45 °C and powers from the chip's first " +
			"operating point to what the wanted clock draws. With --fail-on it exits with 4 when " +
			"no step is better than that verdict.",
		Example: `  hotroom sweep --board quarry --chip v10
  hotroom sweep --board kiln --chip v10 --room 28 --over power
  hotroom sweep "the Slate with a V4" --from 18 --to 40 --step 2 --chart slate.svg`,
		Bind: bindSweep,
	}
}

// reach is the range of a sweep as typed.
type reach struct {
	over, from, to string
	step           float64
}

func bindSweep(flags *pflag.FlagSet) Run {
	var said sentence.Spoken
	var r reach
	bindQuestion(flags, &said)
	flags.StringVar(&r.over, "over", sweep.OverRoom, "go over the `room` or the power")
	completes(flags, "over", "over")
	flags.StringVar(&r.from, "from", "", "first `VALUE`: 15C or 60W")
	flags.StringVar(&r.to, "to", "", "last `VALUE`")
	flags.Float64Var(&r.step, "step", 0, "distance between steps in `K or W` (default: about twenty steps)")
	file := bindChart(flags)
	return func(ctx context.Context, s *Session, args []string) error {
		return s.sweep(ctx, said, strings.Join(args, " "), r, *file)
	}
}

func (s *Session) sweep(ctx context.Context, said sentence.Spoken, text string, typed reach, file string) error {
	if err := checkChart(file); err != nil {
		return err
	}
	over, err := typed.read()
	if err != nil {
		return err
	}
	snapshot, question, err := s.asked(said, text)
	if err != nil {
		return err
	}
	w, err := sweep.Over(ctx, snapshot, question, over)
	if err != nil {
		return err
	}
	s.about(sentence.Asked{Question: question}, question.Board)
	drawn := picture.Sweep(snapshot.Base(), w)
	if err := s.writeChart(file, drawn); err != nil {
		return err
	}
	if err := s.show(w, func(st style) string { return st.sweep(snapshot.Base(), w) }); err != nil {
		return err
	}
	return s.failUnless(len(w.Rows), func(i int) string { return w.Rows[i].Verdict })
}

// read turns the typed range into numbers.
func (r reach) read() (sweep.Range, error) {
	out := sweep.Range{Over: r.over, Step: r.step}
	read := quantity.Temperature
	if r.over == sweep.OverPower {
		read = quantity.Power
	}
	for _, end := range []struct {
		name, text string
		into       **float64
	}{{"from", r.from, &out.From}, {"to", r.to, &out.To}} {
		if end.text == "" {
			continue
		}
		v, err := read(end.text)
		if err != nil {
			return out, &advisor.Refusal{Kind: advisor.BadValue, Field: end.name, What: end.name + ": " + err.Error()}
		}
		*end.into = &v
	}
	return out, nil
}
