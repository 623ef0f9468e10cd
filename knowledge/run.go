package knowledge

import "go/token"

// The outcomes of a run.
const (
	Settled   = "settled"
	Throttled = "throttled"
	Crashed   = "crashed"
	Unsettled = "unsettled"
)

// Run is one measured run on the bench, a row of runs.csv. Nil numbers were
// left empty.
type Run struct {
	ID            string
	Date          string // YYYY-MM-DD
	Board         string
	Chip          string
	Firmware      string
	Enclosure     string
	Cooler        string
	Thermometer   string // empty: IEC 60584-1 class 2 is assumed
	Load          string
	Setup         string // rated, shipped, open or custom
	PowerLimitW   *float64
	CurrentLimitA *float64
	RoomC         float64  // °C
	GraphicsW     float64  // W
	AltitudeM     float64  // m
	Minutes       *float64 // under load
	GHz           *float64 // sustained clock
	Volts         *float64 // V
	PackageW      *float64 // average, W
	HotC          *float64 // hot spot, °C
	Outcome       string
	By            string
	Note          string

	At token.Position
}

// Counts reports whether the run's temperature is a value that the estimate
// may learn from: settled runs, and throttled ones at their measured average.
func (r *Run) Counts() bool {
	return (r.Outcome == Settled || r.Outcome == Throttled) &&
		r.PackageW != nil && r.Volts != nil && r.HotC != nil
}
