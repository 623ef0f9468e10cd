// Package facts is the vocabulary of the rules: everything that a rule may
// talk about, in one documented struct. It is a leaf and imports nothing of
// the project.
//
// A number that nobody knows is NaN (the maker states no limit, the board
// cannot settle …); rules ask known(x) before they rely on one. Words are
// empty where there is nothing to say.
package facts

// Facts is everything that is known when one question has been worked out.
// Every field carries its name in rules (expr), its unit and its meaning.
type Facts struct {
	Board     Board     `expr:"board" doc:"the board, as its maker states and builds it"`
	Chip      Chip      `expr:"chip" doc:"the chip, as its maker rates it"`
	Asked     Asked     `expr:"asked" doc:"the question, defaults filled in"`
	HotSpot   HotSpot   `expr:"hot_spot" doc:"the hottest place on the back of the board behind the regulator"`
	Limit     Limit     `expr:"limit" doc:"the lowest of the limits that apply"`
	Margin    Margin    `expr:"margin" doc:"the distance from the hot spot to the limit"`
	Ceiling   Ceiling   `expr:"ceiling" doc:"how far the room or the power can go"`
	Clock     Clock     `expr:"clock" doc:"the clock the chip holds"`
	Power     Power     `expr:"power" doc:"what the chip draws and the regulator loses"`
	Air       Air       `expr:"air" doc:"the air at the regulator"`
	Time      Time      `expr:"time" doc:"how fast it warms up"`
	Capacitor Capacitor `expr:"capacitor" doc:"the output capacitors"`
	Evidence  Evidence  `expr:"evidence" doc:"what has been measured"`
	Value     Value     `expr:"value" doc:"what the money buys"`
}

// Board holds what is known of the board.
type Board struct {
	ID              string  `expr:"id" unit:"word" doc:"the board's id in the knowledge"`
	Name            string  `expr:"name" unit:"word" doc:"the board's name"`
	Maker           string  `expr:"maker" unit:"word" doc:"the board's maker"`
	Price           float64 `expr:"price" unit:"money" doc:"price, unknown when the file gives none"`
	Currency        string  `expr:"currency" unit:"word" doc:"currency of the price"`
	Tunable         bool    `expr:"tunable" unit:"yes/no" doc:"the maker allows manual tuning"`
	Phases          float64 `expr:"phases" unit:"count" doc:"phases that feed the core rail"`
	DevicesPerPhase float64 `expr:"devices_per_phase" unit:"count" doc:"transistors in one phase; 1 for an integrated stage"`
	Integrated      bool    `expr:"integrated" unit:"yes/no" doc:"the phases use integrated stages"`
	HeatsinkShape   string  `expr:"heatsink_shape" unit:"word" doc:"none, block, finned or fin-stack"`
	HeatsinkMassG   float64 `expr:"heatsink_mass_g" unit:"g" doc:"mass of the heatsink, worked out from the area where only that is known"`
	HeatsinkAreaCM2 float64 `expr:"heatsink_area_cm2" unit:"cm²" doc:"surface of the heatsink, estimated from the mass where only that is known"`
	HotSpotC        float64 `expr:"hot_spot_c" unit:"°C" doc:"throttle or maximum hot-spot temperature that the board maker states; unknown when none is stated"`
	LimitPowerW     float64 `expr:"limit_power_w" unit:"W" doc:"power limit as shipped; unknown when the maker does not say"`
	LimitCurrentA   float64 `expr:"limit_current_a" unit:"A" doc:"current limit as shipped; unknown when the maker does not say"`
	ChipPowerW      float64 `expr:"chip_power_w" unit:"W" doc:"the board maker's own ceiling for chips; unknown when none is stated"`
	Firmware        string  `expr:"firmware" unit:"word" doc:"firmware that the board's figures belong to"`
	EstimatedInputs float64 `expr:"estimated_inputs" unit:"count" doc:"inputs of board and stage that are marked as estimates"`
	PhaseA          float64 `expr:"phase_a" unit:"A" doc:"core current carried by one phase"`
}

// Chip holds what is known of the chip.
type Chip struct {
	ID          string  `expr:"id" unit:"word" doc:"the chip's id in the knowledge"`
	Name        string  `expr:"name" unit:"word" doc:"the chip's name"`
	Maker       string  `expr:"maker" unit:"word" doc:"the chip's maker"`
	Cores       float64 `expr:"cores" unit:"count" doc:"cores"`
	RatedPowerW float64 `expr:"rated_power_w" unit:"W" doc:"sustained power that the chip maker rates"`
	BurstPowerW float64 `expr:"burst_power_w" unit:"W" doc:"short-time power that the chip maker rates; unknown when the file gives none"`
	CurrentMaxA float64 `expr:"current_max_a" unit:"A" doc:"the chip maker's maximum core current"`
	AllCoreGHz  float64 `expr:"all_core_ghz" unit:"GHz" doc:"stock all-core clock"`
	TempMaxC    float64 `expr:"temp_max_c" unit:"°C" doc:"the chip maker's maximum temperature; unknown when the file gives none"`
	Tunable     bool    `expr:"tunable" unit:"yes/no" doc:"the chip maker allows manual tuning"`
	Price       float64 `expr:"price" unit:"money" doc:"price, unknown when the file gives none"`
}

// Asked holds the question with its defaults filled in.
type Asked struct {
	RoomC     float64 `expr:"room_c" unit:"°C" doc:"room temperature"`
	AltitudeM float64 `expr:"altitude_m" unit:"m" doc:"altitude"`
	GraphicsW float64 `expr:"graphics_w" unit:"W" doc:"heat of the graphics card into the case"`
	Enclosure string  `expr:"enclosure" unit:"word" doc:"id of the enclosure"`
	OpenBench bool    `expr:"open_bench" unit:"yes/no" doc:"the enclosure is an open bench"`
	Cooler    string  `expr:"cooler" unit:"word" doc:"id of the cooler"`
	Load      string  `expr:"load" unit:"word" doc:"id of the load"`
	Activity  float64 `expr:"activity" unit:"share" doc:"share of the chip's dynamic power that the load uses"`
	Setup     string  `expr:"setup" unit:"word" doc:"rated, shipped, open or custom"`
	PowerW    float64 `expr:"power_w" unit:"W" doc:"power cap in force; unknown when there is none"`
	CurrentA  float64 `expr:"current_a" unit:"A" doc:"current cap in force; unknown when there is none"`
	Tuned     bool    `expr:"tuned" unit:"yes/no" doc:"the target clock is above the chip's stock all-core clock"`
}

// HotSpot holds the temperature at the back of the board.
type HotSpot struct {
	Settles       bool    `expr:"settles" unit:"yes/no" doc:"the board finds a steady temperature below 250 °C"`
	ExpectedC     float64 `expr:"expected_c" unit:"°C" doc:"expected temperature; unknown when the board cannot settle"`
	LowC          float64 `expr:"low_c" unit:"°C" doc:"lower end of the 90 % interval"`
	HighC         float64 `expr:"high_c" unit:"°C" doc:"upper end of the 90 % interval (one-sided 95 %)"`
	UncertaintyC  float64 `expr:"uncertainty_c" unit:"K" doc:"standard uncertainty"`
	UnthrottledC  float64 `expr:"unthrottled_c" unit:"°C" doc:"temperature that the clock before any lowering for heat would need; unknown when that cannot settle"`
	OverLocalC    float64 `expr:"over_local_c" unit:"K" doc:"expected temperature above the air at the regulator"`
	LoopGain      float64 `expr:"loop_gain" unit:"share" doc:"electro-thermal loop gain: 0 none, 1 thermal runaway"`
	FirstPoint    bool    `expr:"first_point" unit:"yes/no" doc:"even the first point of the chip's table breaks a cap or the throttle temperature"`
	ThrottleKnown bool    `expr:"throttle_known" unit:"yes/no" doc:"the board maker states a throttle temperature"`
}

// Limit holds the limit that governs.
type Limit struct {
	ValueC float64 `expr:"value_c" unit:"°C" doc:"the lowest limit"`
	Kind   string  `expr:"kind" unit:"word" doc:"board, stage or laminate"`
}

// Margin holds the distance to the limit.
type Margin struct {
	ExpectedC         float64 `expr:"expected_c" unit:"K" doc:"limit minus expected temperature"`
	KeptC             float64 `expr:"kept_c" unit:"K" doc:"limit minus the upper end of the interval: kept with 95 % confidence"`
	ExceedProbability float64 `expr:"exceed_probability" unit:"share" doc:"probability that the hot spot is above the limit"`
}

// Ceiling holds how far room and power can go.
type Ceiling struct {
	RoomC           float64 `expr:"room_c" unit:"°C" doc:"room temperature at which the kept margin is used up; unknown outside -50 to 100 °C"`
	PackageW        float64 `expr:"package_w" unit:"W" doc:"package power at which the kept margin is used up; unknown when even the first point is above it"`
	PackageAtLeast  bool    `expr:"package_at_least" unit:"yes/no" doc:"the chip's table ends before the margin is used up"`
	RoomHeadroomC   float64 `expr:"room_headroom_c" unit:"K" doc:"ceiling on the room minus the room asked for"`
	PackageSpareW   float64 `expr:"package_spare_w" unit:"W" doc:"ceiling on package power minus the power drawn"`
	OutsideSearched bool    `expr:"outside_searched" unit:"yes/no" doc:"the ceiling on the room lies outside -50 to 100 °C"`
}

// Clock holds the clock the chip keeps.
type Clock struct {
	SustainedGHz   float64 `expr:"sustained_ghz" unit:"GHz" doc:"clock that is held"`
	TargetGHz      float64 `expr:"target_ghz" unit:"GHz" doc:"clock that was wanted"`
	UnthrottledGHz float64 `expr:"unthrottled_ghz" unit:"GHz" doc:"clock that the caps allow, before any lowering for heat"`
	LimitedBy      string  `expr:"limited_by" unit:"word" doc:"chip, power, current or temperature"`
	LossPercent    float64 `expr:"loss_percent" unit:"%" doc:"clock lost to heat, against the unthrottled clock"`
	CapLossPercent float64 `expr:"cap_loss_percent" unit:"%" doc:"clock lost to the power or current cap, against the target"`
	HeldPercent    float64 `expr:"held_percent" unit:"%" doc:"sustained clock against the target"`
}

// Power holds the electrical figures at the sustained clock.
type Power struct {
	PackageW            float64 `expr:"package_w" unit:"W" doc:"package power"`
	CoreA               float64 `expr:"core_a" unit:"A" doc:"core current"`
	Volts               float64 `expr:"volts" unit:"V" doc:"core voltage"`
	RegulatorLossW      float64 `expr:"regulator_loss_w" unit:"W" doc:"heat made in the regulator; unknown when the board cannot settle"`
	RegulatorEfficiency float64 `expr:"regulator_efficiency" unit:"share" doc:"core power over core power plus loss"`
	LossPerPhaseW       float64 `expr:"loss_per_phase_w" unit:"W" doc:"regulator loss shared among the phases"`
	TableExceeded       bool    `expr:"table_exceeded" unit:"yes/no" doc:"the phase current is past the end of the stage maker's table"`
	LossDensity         float64 `expr:"loss_per_100cm2_w" unit:"W/100 cm²" doc:"regulator loss per 100 cm² of heatsink; unknown without a heatsink"`
}

// Air holds the air at the regulator.
type Air struct {
	LocalC     float64 `expr:"local_c" unit:"°C" doc:"air at the regulator; unknown when the board cannot settle in an enclosure"`
	CaseRiseC  float64 `expr:"case_rise_c" unit:"K" doc:"air in the case above the room"`
	AirspeedMS float64 `expr:"airspeed_ms" unit:"m/s" doc:"air speed at the heatsink"`
}

// Time holds how fast the board warms.
type Time struct {
	To95PercentMin float64 `expr:"to_95_percent_min" unit:"min" doc:"minutes to 95 % of the rise"`
	ToLimitMin     float64 `expr:"to_limit_min" unit:"min" doc:"minutes until the limit is passed; unknown when it is not"`
}

// Capacitor holds the output capacitors' life.
type Capacitor struct {
	Kind         string  `expr:"kind" unit:"word" doc:"polymer, liquid, or empty when the file does not say"`
	TemperatureC float64 `expr:"temperature_c" unit:"°C" doc:"temperature of the capacitors"`
	RatedC       float64 `expr:"rated_c" unit:"°C" doc:"temperature that their rated life belongs to"`
	LifeH        float64 `expr:"life_h" unit:"h" doc:"expected life at this temperature, never more than 15 years"`
	LifeYears    float64 `expr:"life_years" unit:"year" doc:"the same in years of continuous load"`
}

// Evidence holds what has been measured on this board.
type Evidence struct {
	Word               string  `expr:"word" unit:"word" doc:"measured, projected or estimated"`
	Runs               float64 `expr:"runs" unit:"count" doc:"runs of this board, whatever their outcome"`
	Settled            float64 `expr:"settled" unit:"count" doc:"settled runs of this board"`
	Throttled          float64 `expr:"throttled" unit:"count" doc:"throttled runs of this board"`
	Crashed            float64 `expr:"crashed" unit:"count" doc:"crashed runs of this board"`
	Unsettled          float64 `expr:"unsettled" unit:"count" doc:"unsettled runs of this board"`
	CrashedNear        float64 `expr:"crashed_near" unit:"count" doc:"crashed runs of this board with this chip at a power limit no higher than the power asked about plus 10 %, or with none noted"`
	ThrottledNear      float64 `expr:"throttled_near" unit:"count" doc:"throttled runs of this board with this chip in a room no hotter than the one asked about"`
	Firmwares          float64 `expr:"firmwares" unit:"count" doc:"different firmware versions among this board's runs"`
	FirmwareDiffers    bool    `expr:"firmware_differs" unit:"yes/no" doc:"a run of this board used a firmware other than the one in the board's file"`
	NearestRun         string  `expr:"nearest_run" unit:"word" doc:"id of the nearest run with a temperature; empty when there is none"`
	PackageGapPercent  float64 `expr:"package_gap_percent" unit:"%" doc:"how far the nearest run's package power is from the answer's"`
	RoomGapC           float64 `expr:"room_gap_c" unit:"K" doc:"how far the nearest run's room is from the one asked about"`
	UncertaintyRemoved float64 `expr:"uncertainty_removed_percent" unit:"%" doc:"share of the parts-only uncertainty that runs removed"`
}

// Value holds what the money buys.
type Value struct {
	PricePerGHz float64 `expr:"price_per_core_ghz" unit:"money/GHz" doc:"board price per held clock times cores; unknown without a price"`
}
