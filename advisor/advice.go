package advisor

// The verdicts.
const (
	Yes      = "yes"
	WithCare = "with-care"
	No       = "no"
	Unknown  = "unknown"
)

// The evidence words.
const (
	Measured  = "measured"  // a settled run on this board with this chip within 10 % of this package power
	Projected = "projected" // this board was measured, otherwise
	Estimated = "estimated" // parts only
)

// Advice is one answer. A nil number has no value (the JSON says null); every
// key is always present.
type Advice struct {
	Question       Question       `json:"question"` // defaults filled in
	Verdict        string         `json:"verdict"`
	Headline       string         `json:"headline"` // one sentence that answers the question
	Score          float64        `json:"score"`    // 0 to 100
	Evidence       string         `json:"evidence"`
	Runs           []string       `json:"runs"` // ids of the runs that bear on the answer
	HotSpot        HotSpot        `json:"hot_spot"`
	Limit          Limit          `json:"limit"`  // the one that governs
	Limits         []Limit        `json:"limits"` // all of them, lowest first
	Margin         Margin         `json:"margin"`
	Ceiling        Ceiling        `json:"ceiling"`
	Clock          Clock          `json:"clock"`
	Power          Power          `json:"power"`
	Air            Air            `json:"air"`
	Time           Time           `json:"time"`
	Capacitor      Capacitor      `json:"capacitor"`
	EvidenceDetail EvidenceDetail `json:"evidence_detail"`
	Changes        []Change       `json:"changes"`
	Findings       []Finding      `json:"findings"`
	Cautions       []string       `json:"cautions"`
	Defaults       []string       `json:"defaults"`  // every assumption made for the asker
	Estimated      []string       `json:"estimated"` // every input that is an estimate
	Versions       Versions       `json:"versions"`
}

// HotSpot is the temperature at the back of the board behind the regulator,
// °C, with its 5 % to 95 % interval.
type HotSpot struct {
	ExpectedC    *float64 `json:"expected_c"` // null: the board cannot settle
	LowC         *float64 `json:"low_c"`
	HighC        *float64 `json:"high_c"`
	UncertaintyC *float64 `json:"uncertainty_c"` // standard uncertainty, K
	UnthrottledC *float64 `json:"unthrottled_c"` // what the clock before any lowering for heat would need
}

// Limit is one temperature that the hot spot must stay below, °C.
type Limit struct {
	ValueC   *float64 `json:"value_c"`
	StatedBy string   `json:"stated_by"`
	Kind     string   `json:"kind"` // board, stage or laminate
	Source   string   `json:"source"`
}

// Margin is the distance from the hot spot to the limit, K.
type Margin struct {
	ExpectedC         *float64 `json:"expected_c"`
	KeptC             *float64 `json:"kept_c"`             // with 95 % confidence
	ExceedProbability *float64 `json:"exceed_probability"` // 0 to 1
}

// Ceiling is how far the room (°C) and the package power (W) can go before
// the kept margin is used up.
type Ceiling struct {
	RoomC          *float64 `json:"room_c"`           // null: outside -50 to 100 °C
	PackageW       *float64 `json:"package_w"`        // null: even the chip's first point is above it
	PackageAtLeast bool     `json:"package_at_least"` // the chip's table ends first
}

// Clock is the clock that the chip holds, GHz.
type Clock struct {
	SustainedGHz float64 `json:"sustained_ghz"`
	TargetGHz    float64 `json:"target_ghz"`
	LimitedBy    string  `json:"limited_by"`   // chip, power, current or temperature
	LossPercent  float64 `json:"loss_percent"` // lost to heat, against the unthrottled clock
}

// Power is what the chip draws and what the regulator loses.
type Power struct {
	PackageW            float64  `json:"package_w"` // W
	CoreA               float64  `json:"core_a"`    // A
	Volts               float64  `json:"volts"`     // V
	RegulatorLossW      *float64 `json:"regulator_loss_w"`
	RegulatorEfficiency *float64 `json:"regulator_efficiency"` // 0 to 1
}

// Air is the air at the regulator.
type Air struct {
	LocalC     *float64 `json:"local_c"`     // °C
	CaseRiseC  *float64 `json:"case_rise_c"` // K
	AirspeedMS float64  `json:"airspeed_ms"` // m/s
}

// Time is how fast the board warms from cold, min.
type Time struct {
	To95PercentMin *float64 `json:"to_95_percent_min"`
	ToLimitMin     *float64 `json:"to_limit_min"` // null: the limit is not passed
}

// Capacitor is the life of the output capacitors under continuous load.
type Capacitor struct {
	Kind         *string  `json:"kind"`
	TemperatureC *float64 `json:"temperature_c"` // °C
	LifeH        *float64 `json:"life_h"`        // h, at most 15 years
	LifeYears    *float64 `json:"life_years"`
}

// EvidenceDetail says how far the measurements are from the question.
type EvidenceDetail struct {
	NearestRun                *string  `json:"nearest_run"`
	PackageGapPercent         *float64 `json:"package_gap_percent"`
	RoomGapC                  *float64 `json:"room_gap_c"`
	UncertaintyRemovedPercent *float64 `json:"uncertainty_removed_percent"`
}

// Change is one thing to alter that would turn the answer into a yes.
type Change struct {
	Text        string   `json:"text"`
	Question    Question `json:"question"`
	Verdict     string   `json:"verdict"`
	MarginKeptC *float64 `json:"margin_kept_c"` // K
}

// Finding is one rule that fired, with its values filled into its text.
type Finding struct {
	Rule   string  `json:"rule"`
	Kind   string  `json:"kind"` // merit, concern, caution or veto
	Points float64 `json:"points"`
	Text   string  `json:"text"`
	Source string  `json:"source"`
}

// Versions says what the answer was made from.
type Versions struct {
	Knowledge string `json:"knowledge"`
	Rules     string `json:"rules"`
	Program   string `json:"program"`
}
