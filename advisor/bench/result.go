package bench

import (
	"errors"
	"math"

	"hotroom/knowledge"
)

// Result is a run with its quality, as JSON has it: every key always present,
// null where there is no value.
type Result struct {
	Run     Row     `json:"run"`
	Quality Quality `json:"quality"`
}

// Row is a run with a key for every column of runs.csv.
type Row struct {
	ID            *string  `json:"id"`
	Date          *string  `json:"date"`
	Board         *string  `json:"board"`
	Chip          *string  `json:"chip"`
	Firmware      *string  `json:"firmware"`
	Enclosure     *string  `json:"enclosure"`
	Cooler        *string  `json:"cooler"`
	Thermometer   *string  `json:"thermometer"`
	Load          *string  `json:"load"`
	Setup         *string  `json:"setup"`
	PowerLimitW   *float64 `json:"power_limit_w"`   // W
	CurrentLimitA *float64 `json:"current_limit_a"` // A
	RoomC         *float64 `json:"room_c"`          // mean under load, °C
	GraphicsW     *float64 `json:"graphics_w"`      // W
	AltitudeM     *float64 `json:"altitude_m"`      // m
	Minutes       *float64 `json:"minutes"`         // under load
	GHz           *float64 `json:"ghz"`             // median of the last 10 minutes
	Volts         *float64 `json:"volts"`           // median of the last 10 minutes, V
	PackageW      *float64 `json:"package_w"`       // median of the last 10 minutes, W
	HotC          *float64 `json:"hot_c"`           // °C
	Outcome       *string  `json:"outcome"`
	By            *string  `json:"by"`
	Note          *string  `json:"note"`
}

// NewRow gives a run as JSON has it.
func NewRow(r *knowledge.Run) Row {
	return Row{
		ID: word(r.ID), Date: word(r.Date), Board: word(r.Board), Chip: word(r.Chip), Firmware: word(r.Firmware),
		Enclosure: word(r.Enclosure), Cooler: word(r.Cooler), Thermometer: word(r.Thermometer), Load: word(r.Load), Setup: word(r.Setup),
		PowerLimitW: r.PowerLimitW, CurrentLimitA: r.CurrentLimitA, RoomC: &r.RoomC, GraphicsW: &r.GraphicsW, AltitudeM: &r.AltitudeM,
		Minutes: r.Minutes, GHz: r.GHz, Volts: r.Volts, PackageW: r.PackageW, HotC: r.HotC,
		Outcome: word(r.Outcome), By: word(r.By), Note: word(r.Note),
	}
}

// Run gives the run that the columns say. It fails where the room is missing,
// the one number that every run has.
func (r *Row) Run() (knowledge.Run, error) {
	if r.RoomC == nil {
		return knowledge.Run{}, errors.New("the run has no room_c: give the mean room temperature under load, °C")
	}
	run := knowledge.Run{
		ID: text(r.ID), Date: text(r.Date), Board: text(r.Board), Chip: text(r.Chip), Firmware: text(r.Firmware),
		Enclosure: text(r.Enclosure), Cooler: text(r.Cooler), Thermometer: text(r.Thermometer), Load: text(r.Load), Setup: text(r.Setup),
		PowerLimitW: r.PowerLimitW, CurrentLimitA: r.CurrentLimitA, RoomC: *r.RoomC,
		Minutes: r.Minutes, GHz: r.GHz, Volts: r.Volts, PackageW: r.PackageW, HotC: r.HotC,
		Outcome: text(r.Outcome), By: text(r.By), Note: text(r.Note),
	}
	if r.GraphicsW != nil {
		run.GraphicsW = *r.GraphicsW
	}
	if r.AltitudeM != nil {
		run.AltitudeM = *r.AltitudeM
	}
	return run, nil
}

func text(word *string) string {
	if word == nil {
		return ""
	}
	return *word
}

// Quality says how good a run is and why.
type Quality struct {
	Grade           string        `json:"grade"`   // A, B, C or D
	Settled         bool          `json:"settled"` // the last stretch drifts by less than 1 K
	SettleC         *float64      `json:"settle_c"`
	SettleLowC      *float64      `json:"settle_low_c"`  // lower end of the 95 % interval, °C
	SettleHighC     *float64      `json:"settle_high_c"` // upper end, °C
	TimeConstantMin *float64      `json:"time_constant_min"`
	PeakC           *float64      `json:"peak_c"`       // largest 60-second median, °C
	RoomMeanC       *float64      `json:"room_mean_c"`  // under load, °C
	RoomDriftC      *float64      `json:"room_drift_c"` // K, negative where the room cooled
	Throttled       *bool         `json:"throttled"`    // null: neither power nor clock was logged
	ThrottleEvents  []Event       `json:"throttle_events"`
	Samples         int           `json:"samples"` // rows of the log
	Used            int           `json:"used"`    // good samples under load
	Spikes          int           `json:"spikes"`
	Gaps            int           `json:"gaps"`
	UncertaintyC    *float64      `json:"uncertainty_c"` // combined standard uncertainty, K
	Budget          []BudgetEntry `json:"budget"`
	Reasons         []string      `json:"reasons"`
}

// Event is one stretch of throttling, in s after the start of the load.
type Event struct {
	StartS       float64 `json:"start_s"`
	EndS         float64 `json:"end_s"`
	DepthPercent float64 `json:"depth_percent"` // below the plateau
}

// BudgetEntry is a line of the uncertainty budget, K.
type BudgetEntry struct {
	Source    string  `json:"source"`
	ValueC    float64 `json:"value_c"`
	Divisor   float64 `json:"divisor"`
	StandardC float64 `json:"standard_c"`
}

// value rounds for whoever reads it, and gives nil for what is no number.
func value(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v = rounded(v)
	return &v
}

func rounded(v float64) float64 { return math.Round(v*1000)/1000 + 0 }

func word(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}
