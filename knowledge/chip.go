package knowledge

import "go/token"

// Chip is a processor: its ratings and its measured operating points under a
// heavy all-core load.
type Chip struct {
	ID          string   `toml:"id" need:"yes"`
	Name        string   `toml:"name" need:"yes"`
	Maker       string   `toml:"maker"`
	Socket      string   `toml:"socket" need:"yes"`
	Cores       int      `toml:"cores"`
	Threads     int      `toml:"threads"`
	RatedPowerW float64  `toml:"rated_power_w" need:"yes"`  // sustained power the chip maker rates, W
	BurstPowerW *float64 `toml:"burst_power_w"`             // short-time power limit, W
	BurstS      *float64 `toml:"burst_s"`                   // how long the burst lasts, s
	CurrentMaxA float64  `toml:"current_max_a" need:"yes"`  // chip maker's maximum core current, A
	AllCoreGHz  float64  `toml:"all_core_ghz" need:"yes"`   // stock all-core clock, GHz
	IdleW       float64  `toml:"idle_w" need:"yes"`         // package power at idle, W
	CoreShare   float64  `toml:"core_share" default:"0.92"` // share of package power drawn by the core rail
	TempMaxC    *float64 `toml:"temp_max_c"`                // chip maker's maximum temperature, °C
	Tunable     bool     `toml:"tunable"`
	Price       *float64 `toml:"price"`
	Currency    string   `toml:"currency"`
	Source      string   `toml:"source"`
	Points      []Point  `toml:"point" need:"yes"`

	At        token.Position `toml:"-"` // where the record starts
	Defaulted []string       `toml:"-"` // keys filled with the model's default
}

// Point is one operating point of a chip under a heavy all-core load.
type Point struct {
	GHz   float64 `toml:"ghz" need:"yes"`   // all-core clock, GHz
	Volts float64 `toml:"volts" need:"yes"` // core voltage, V
	Watts float64 `toml:"watts" need:"yes"` // package power, W
}
