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
	TempMaxC       float64  `toml:"temp_max_c" need:"yes" range:"[60,300]"`       // junction maximum, °C
	RdsPerK        float64  `toml:"rds_per_k" default:"0.005" range:"[0,0.05]"`   // rise of on-resistance (or of the table's loss) per kelvin, 1/K
	JunctionKPerW  float64  `toml:"junction_k_per_w" default:"4" range:"[0,100]"` // junction over hot spot, K/W
	DeratingC      float64  `toml:"derating_c" default:"25" range:"[0,150]"`      // kept below the junction maximum, K
	SwitchingShare float64  `toml:"switching_share" default:"0.5" range:"[0,1]"`  // share of an integrated stage's loss that grows with frequency
	Source         string   `toml:"source" need:"yes"`
	Estimated      []string `toml:"estimated"`

	// Discrete stages; resistances are of one device at 25 °C.
	HighCount  int     `toml:"high_count" for:"discrete" range:"[1,16]"`
	LowCount   int     `toml:"low_count" for:"discrete" range:"[1,16]"`
	HighMOhm   float64 `toml:"high_mohm" for:"discrete" range:"(0,1000]"`     // mΩ
	LowMOhm    float64 `toml:"low_mohm" for:"discrete" range:"(0,1000]"`      // mΩ
	RiseNS     float64 `toml:"rise_ns" for:"discrete" range:"[0,1000]"`       // ns
	FallNS     float64 `toml:"fall_ns" for:"discrete" range:"[0,1000]"`       // ns
	HighGateNC float64 `toml:"high_gate_nc" for:"discrete" range:"[0,10000]"` // nC
	LowGateNC  float64 `toml:"low_gate_nc" for:"discrete" range:"[0,10000]"`  // nC
	DriveV     float64 `toml:"drive_v" for:"discrete" range:"(0,30]"`         // V
	DeadNS     float64 `toml:"dead_ns" for:"discrete" range:"[0,1000]"`       // ns
	DiodeV     float64 `toml:"diode_v" for:"discrete" range:"[0,5]"`          // V
	HighOutNC  float64 `toml:"high_out_nc" for:"discrete" range:"[0,10000]"`  // nC
	LowOutNC   float64 `toml:"low_out_nc" for:"discrete" range:"[0,10000]"`   // nC
	RecoveryNC float64 `toml:"recovery_nc" for:"discrete" range:"[0,10000]"`  // nC

	// Integrated stages; the conditions of the table and the table.
	VinV   float64     `toml:"vin_v" for:"integrated" range:"(0,60]"`     // V
	VoutV  float64     `toml:"vout_v" for:"integrated" range:"(0,20]"`    // V
	KHz    float64     `toml:"khz" for:"integrated" range:"(0,10000]"`    // kHz
	TempC  float64     `toml:"temp_c" for:"integrated" range:"[-55,250]"` // °C
	Losses []StageLoss `toml:"loss" for:"integrated"`

	At        token.Position `toml:"-"`
	Defaulted []string       `toml:"-"`
}

// StageLoss is one row of an integrated stage's loss table.
type StageLoss struct {
	Amps  float64 `toml:"amps" need:"yes" range:"[0,1000]"`  // output current of one phase, A
	Watts float64 `toml:"watts" need:"yes" range:"[0,1000]"` // loss of one phase, W
}
