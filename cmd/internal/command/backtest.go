package command

import (
	"context"
	"math"

	"github.com/spf13/pflag"

	"hotroom/advisor"
	"hotroom/cmd/internal/picture"
)

func backtest() Verb {
	return Verb{
		Name:    "backtest",
		Summary: "predict every measured run from the others",
		Help: "Takes each measured run away, predicts it from what is left and holds the two " +
			"against each other: once without that run, once without its whole board. Says how " +
			"far off the predictions are, how often the 90 % interval holds the reading, and " +
			"names the runs that it does not.",
		Example: "  hotroom backtest\n  hotroom backtest --chart backtest.svg\n  hotroom backtest --json",
		Bind:    bindBacktest,
	}
}

func bindBacktest(flags *pflag.FlagSet) Run {
	file := bindChart(flags)
	return func(ctx context.Context, s *Session, args []string) error {
		if len(args) > 0 {
			return &usage{"backtest takes flags only: it goes over every run of the knowledge"}
		}
		if err := checkChart(*file); err != nil {
			return err
		}
		return s.backtest(ctx, *file)
	}
}

func (s *Session) backtest(ctx context.Context, file string) error {
	snapshot, _, err := s.Snapshot()
	if err != nil {
		return err
	}
	predictions, err := advisor.Backtest(ctx, snapshot)
	if err != nil {
		return err
	}
	if len(predictions) == 0 {
		return &advisor.Refusal{
			Kind: advisor.NotFound, Field: "runs", What: "the knowledge holds no run with a temperature to predict",
			Mend: "record some first",
		}
	}
	if err := s.writeChart(file, picture.Backtest(predictions)); err != nil {
		return err
	}
	result := newTrial(predictions, snapshot.Outliers())
	return s.show(result, func(st style) string { return st.trial(result, predictions) })
}

// trial is the outcome of a backtest as --json gives it.
type trial struct {
	Question    *advisor.Question `json:"question"` // always null
	Rows        []scoreRow        `json:"rows"`
	Predictions []predictionRow   `json:"predictions"`
	Outliers    []outlierRow      `json:"outliers"`
	Notes       []string          `json:"notes"`
}

// scoreRow is one advisor.Score; numbers are null where nothing settled.
type scoreRow struct {
	LeftOut      string   `json:"left_out"` // run or board
	Evidence     string   `json:"evidence"` // or all
	Runs         int      `json:"runs"`
	MeanAbsC     *float64 `json:"mean_abs_error_c"`
	BiasC        *float64 `json:"bias_c"` // predicted less measured
	CoverPercent *float64 `json:"within_interval_percent"`
	AbovePercent *float64 `json:"above_bound_percent"`
	WidthC       *float64 `json:"interval_width_c"`
	Unsettled    int      `json:"predicted_not_to_settle"`
}

// predictionRow is one advisor.Prediction; temperatures are null where the
// board was predicted not to settle.
type predictionRow struct {
	Run       string   `json:"run"`
	Board     string   `json:"board"`
	LeftOut   string   `json:"left_out"`
	Evidence  string   `json:"evidence"`
	MeasuredC float64  `json:"measured_c"`
	ExpectedC *float64 `json:"expected_c"`
	LowC      *float64 `json:"low_c"`
	HighC     *float64 `json:"high_c"`
	Within    bool     `json:"within"`
}

// outlierRow is a run that nothing else explains.
type outlierRow struct {
	Run      string  `json:"run"`
	Board    string  `json:"board"`
	Residual float64 `json:"residual"` // standard deviations
}

const forecastNote = "The intervals are those of the reading: they hold the thermometer, the probe's place and the room as well as the board."

func newTrial(predictions []advisor.Prediction, outliers []advisor.Outlier) trial {
	t := trial{Rows: []scoreRow{}, Predictions: []predictionRow{}, Outliers: []outlierRow{}, Notes: []string{forecastNote}}
	for _, s := range advisor.Scores(predictions) {
		t.Rows = append(t.Rows, newScoreRow(s))
	}
	for i := range predictions {
		p := &predictions[i]
		t.Predictions = append(t.Predictions, predictionRow{
			Run: p.Run.ID, Board: p.Run.Board, LeftOut: p.Left, Evidence: p.Evidence, MeasuredC: p.MeasuredC,
			ExpectedC: finite(p.ExpectedC), LowC: finite(p.LowC), HighC: finite(p.HighC), Within: p.Within(),
		})
	}
	for _, o := range outliers {
		t.Outliers = append(t.Outliers, outlierRow{o.Run.ID, o.Run.Board, *finite(o.Residual)})
	}
	return t
}

func newScoreRow(s advisor.Score) scoreRow {
	row := scoreRow{LeftOut: s.Left, Evidence: s.Evidence, Runs: s.Runs, Unsettled: s.Unsettled}
	if s.Runs > 0 {
		row.MeanAbsC, row.BiasC, row.WidthC = finite(s.MeanAbsC), finite(s.BiasC), finite(s.WidthC)
		row.CoverPercent, row.AbovePercent = finite(s.CoverPercent), finite(s.AbovePercent)
	}
	return row
}

// finite rounds to four decimals; nil where there is no value.
func finite(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v = math.Round(v*1e4)/1e4 + 0
	return &v
}
