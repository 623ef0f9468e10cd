package knowledge

import "go/token"

// The two kinds of power stage.
const (
	StageDiscrete   = "discrete"
	StageIntegrated = "integrated"
)

// Stage is the switching stage of one phase: separate transistors described
// by their data-sheet values, or an integrated stage described by its maker's
// loss table.
type Stage struct {
	ID             string   `toml:"id" need:"yes"`
	Name           string   `toml:"name" need:"yes"`
	Kind           string   `toml:"kind" need:"yes" oneof:"discrete|integrated"`
	TempMaxC       float64  `toml:"temp_max_c" need:"yes"`         // junction maximum, °C
	RdsPerK        float64  `toml:"rds_per_k" default:"0.005"`     // rise of on-resistance (or of the table's loss) per kelvin, 1/K
	JunctionKPerW  float64  `toml:"junction_k_per_w" default:"4"`  // junction over hot spot, K/W
	DeratingC      float64  `toml:"derating_c" default:"25"`       // kept below the junction maximum, K
	SwitchingShare float64  `toml:"switching_share" default:"0.5"` // share of an integrated stage's loss that grows with frequency
	Source         string   `toml:"source" need:"yes"`
	Estimated      []string `toml:"estimated"`

	// Discrete stages; resistances are of one device at 25 °C.
	HighCount  int     `toml:"high_count" for:"discrete"`
	LowCount   int     `toml:"low_count" for:"discrete"`
	HighMOhm   float64 `toml:"high_mohm" for:"discrete"`    // mΩ
	LowMOhm    float64 `toml:"low_mohm" for:"discrete"`     // mΩ
	RiseNS     float64 `toml:"rise_ns" for:"discrete"`      // ns
	FallNS     float64 `toml:"fall_ns" for:"discrete"`      // ns
	HighGateNC float64 `toml:"high_gate_nc" for:"discrete"` // nC
	LowGateNC  float64 `toml:"low_gate_nc" for:"discrete"`  // nC
	DriveV     float64 `toml:"drive_v" for:"discrete"`      // V
	DeadNS     float64 `toml:"dead_ns" for:"discrete"`      // ns
	DiodeV     float64 `toml:"diode_v" for:"discrete"`      // V
	HighOutNC  float64 `toml:"high_out_nc" for:"discrete"`  // nC
	LowOutNC   float64 `toml:"low_out_nc" for:"discrete"`   // nC
	RecoveryNC float64 `toml:"recovery_nc" for:"discrete"`  // nC

	// Integrated stages; the conditions of the table and the table.
	VinV   float64     `toml:"vin_v" for:"integrated"`  // V
	VoutV  float64     `toml:"vout_v" for:"integrated"` // V
	KHz    float64     `toml:"khz" for:"integrated"`    // kHz
	TempC  float64     `toml:"temp_c" for:"integrated"` // °C
	Losses []StageLoss `toml:"loss" for:"integrated"`

	At        token.Position `toml:"-"`
	Defaulted []string       `toml:"-"`
}

// StageLoss is one row of an integrated stage's loss table.
type StageLoss struct {
	Amps  float64 `toml:"amps" need:"yes"`  // output current of one phase, A
	Watts float64 `toml:"watts" need:"yes"` // loss of one phase, W
}
