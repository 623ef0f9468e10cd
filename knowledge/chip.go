package knowledge

import "go/token"

// Chip is a processor: its ratings and its measured operating points under a
// heavy all-core load.
type Chip struct {
	ID          string   `toml:"id" need:"yes"`
	Name        string   `toml:"name" need:"yes"`
	Maker       string   `toml:"maker"`
	Socket      string   `toml:"socket" need:"yes"`
	Cores       int      `toml:"cores" range:"[0,4096]"`
	Threads     int      `toml:"threads" range:"[0,8192]"`
	RatedPowerW float64  `toml:"rated_power_w" need:"yes" range:"(0,5000]"` // sustained power the chip maker rates, W
	BurstPowerW *float64 `toml:"burst_power_w" range:"(0,10000]"`           // short-time power limit, W
	BurstS      *float64 `toml:"burst_s" range:"(0,86400]"`                 // how long the burst lasts, s
	CurrentMaxA float64  `toml:"current_max_a" need:"yes" range:"(0,5000]"` // chip maker's maximum core current, A
	AllCoreGHz  float64  `toml:"all_core_ghz" need:"yes" range:"(0,20]"`    // stock all-core clock, GHz
	IdleW       float64  `toml:"idle_w" need:"yes" range:"[0,2000]"`        // package power at idle, W
	CoreShare   float64  `toml:"core_share" default:"0.92" range:"(0,1]"`   // share of package power drawn by the core rail
	TempMaxC    *float64 `toml:"temp_max_c" range:"[40,250]"`               // chip maker's maximum temperature, °C
	Tunable     bool     `toml:"tunable"`
	Price       *float64 `toml:"price" range:"[0,1e9]"`
	Currency    string   `toml:"currency"`
	Source      string   `toml:"source"`
	Points      []Point  `toml:"point" need:"yes"`

	At        token.Position `toml:"-"` // where the record starts
	Defaulted []string       `toml:"-"` // keys filled with the model's default
}

// Point is one operating point of a chip under a heavy all-core load.
type Point struct {
	GHz   float64 `toml:"ghz" need:"yes" range:"(0,20]"`      // all-core clock, GHz
	Volts float64 `toml:"volts" need:"yes" range:"(0,5]"`     // core voltage, V
	Watts float64 `toml:"watts" need:"yes" range:"(0,10000]"` // package power, W
}
