package knowledge

import "go/token"

// Board is a motherboard: what its maker states and what its regulator and
// heatsink are built from. A nil number means that the maker does not say.
type Board struct {
	ID          string     `toml:"id" need:"yes"`
	Name        string     `toml:"name" need:"yes"`
	Maker       string     `toml:"maker"`
	Socket      string     `toml:"socket" need:"yes"`
	Format      string     `toml:"format"`
	Price       *float64   `toml:"price" range:"[0,1e9]"`
	Currency    string     `toml:"currency"`
	Tunable     bool       `toml:"tunable"`
	Firmware    string     `toml:"firmware"`
	Released    string     `toml:"released" kind:"date"` // YYYY-MM-DD
	Source      string     `toml:"source" need:"yes"`
	Estimated   []string   `toml:"estimated"`                                    // keys whose numbers are estimates, "regulator.switching_khz"
	AreaCM2     float64    `toml:"area_cm2" default:"100" range:"(0,100000]"`    // board area that sheds heat, both sides counted, cm²
	LaminateC   float64    `toml:"laminate_c" default:"130" range:"[40,400]"`    // laminate's maximum operating temperature, °C
	SocketKPerW float64    `toml:"socket_k_per_w" default:"0.08" range:"[0,10]"` // rise at the hot spot per watt of package power, K/W
	Limit       BoardLimit `toml:"limit"`
	Regulator   Regulator  `toml:"regulator" need:"yes"`
	Heatsink    Heatsink   `toml:"heatsink" need:"yes"`
	Capacitor   *Capacitor `toml:"capacitor"`

	At        token.Position `toml:"-"` // where the record starts
	Defaulted []string       `toml:"-"` // keys filled with the model's default, "heatsink.height_mm"
}

// BoardLimit is what the board maker states: the limits as shipped, the
// throttle temperature and the ceiling for chips. Nil: the maker does not say.
type BoardLimit struct {
	PowerW      *float64 `toml:"power_w" range:"(0,10000]"`       // sustained power limit as shipped, W
	BurstPowerW *float64 `toml:"burst_power_w" range:"(0,10000]"` // short-time power limit as shipped, W
	BurstS      *float64 `toml:"burst_s" range:"(0,86400]"`       // how long the burst lasts, s
	CurrentA    *float64 `toml:"current_a" range:"(0,10000]"`     // core current limit as shipped, A
	HotSpotC    *float64 `toml:"hot_spot_c" range:"[40,250]"`     // stated maximum or throttle temperature at the hot spot, °C
	ChipPowerW  *float64 `toml:"chip_power_w" range:"(0,5000]"`   // the most powerful chip that the maker allows, W
}

// Regulator is the multiphase step-down converter that feeds the core rail.
type Regulator struct {
	Phases       int     `toml:"phases" need:"yes" range:"[1,64]"`
	Stage        string  `toml:"stage" need:"yes"`                           // id of the power stage in each phase
	SwitchingKHz float64 `toml:"switching_khz" need:"yes" range:"(0,10000]"` // per phase, kHz
	InductorNH   float64 `toml:"inductor_nh" need:"yes" range:"(0,100000]"`  // per phase, nH
	InductorMOhm float64 `toml:"inductor_mohm" need:"yes" range:"(0,100]"`   // winding resistance at 25 °C, mΩ
	CoreLossW    float64 `toml:"core_loss_w" range:"[0,100]"`                // inductor core loss per phase, W
	PlaneMOhm    float64 `toml:"plane_mohm" range:"[0,10]"`                  // copper between regulator and socket, mΩ
	InputV       float64 `toml:"input_v" default:"12" range:"(0,60]"`        // input rail, V
}

// Heatsink is what cools the regulator. One of MassG and AreaCM2 is given
// unless the shape is none.
type Heatsink struct {
	Shape    string   `toml:"shape" need:"yes" oneof:"none|block|finned|fin-stack"`
	MassG    *float64 `toml:"mass_g" range:"(0,20000]"`                  // g
	AreaCM2  *float64 `toml:"area_cm2" range:"(0,100000]"`               // wetted area, cm²
	HeightMM float64  `toml:"height_mm" default:"30" range:"(0,1000]"`   // height of the surface along the rising air, mm
	PadKPerW float64  `toml:"pad_k_per_w" default:"0.25" range:"[0,50]"` // thermal pad, K/W
	Factor   float64  `toml:"factor" default:"0.9" range:"(0,1]"`        // share of the ideal surface that works
}

// Capacitor is the output capacitor's rating.
type Capacitor struct {
	Kind       string  `toml:"kind" need:"yes" oneof:"polymer|liquid"`
	RatedC     float64 `toml:"rated_c" need:"yes" range:"[40,250]"`     // °C
	RatedH     float64 `toml:"rated_h" need:"yes" range:"(0,1e6]"`      // life at rated_c, h
	LocalShare float64 `toml:"local_share" default:"0.5" range:"[0,1]"` // place between local air (0) and hot spot (1)
}
