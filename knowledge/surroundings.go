package knowledge

import "go/token"

// Enclosure is what the board stands in. A nil FlowM3H is an open bench.
type Enclosure struct {
	ID         string         `toml:"id" need:"yes"`
	Name       string         `toml:"name" need:"yes"`
	FlowM3H    *float64       `toml:"flow_m3h"`    // air through the case, m³/h
	AirspeedMS float64        `toml:"airspeed_ms"` // air over the regulator, m/s
	OtherW     float64        `toml:"other_w"`     // heat of drives, memory and the rest, W
	Default    bool           `toml:"default"`
	Source     string         `toml:"source"`
	At         token.Position `toml:"-"`
}

// Cooler is what cools the chip; some blow over the regulator, some carry the
// heat out of the case.
type Cooler struct {
	ID                string         `toml:"id" need:"yes"`
	Name              string         `toml:"name" need:"yes"`
	HeatIntoCaseShare float64        `toml:"heat_into_case_share" default:"0.5"` // share of package power left in the case
	AirspeedMS        float64        `toml:"airspeed_ms"`                        // its own air over the regulator, m/s
	Default           bool           `toml:"default"`
	Source            string         `toml:"source"`
	At                token.Position `toml:"-"`
	Defaulted         []string       `toml:"-"`
}

// Load is how hard the chip is worked: 1 is a heavy all-core render.
type Load struct {
	ID       string         `toml:"id" need:"yes"`
	Name     string         `toml:"name" need:"yes"`
	Activity float64        `toml:"activity" need:"yes"` // share of the dynamic power
	Default  bool           `toml:"default"`
	Source   string         `toml:"source"`
	At       token.Position `toml:"-"`
}

// Room is a word for a room temperature.
type Room struct {
	Word    string         `toml:"word" need:"yes"`
	Celsius float64        `toml:"celsius" need:"yes"` // °C
	Default bool           `toml:"default"`
	Source  string         `toml:"source"`
	At      token.Position `toml:"-"`
}

// Thermometer is a tolerance class: the greater of a fixed band and a
// percentage of the reading.
type Thermometer struct {
	ID           string         `toml:"id" need:"yes"`
	ClassC       float64        `toml:"class_c" need:"yes"` // ± K
	ClassPercent float64        `toml:"class_percent"`      // ± percent of the reading in °C
	Note         string         `toml:"note"`
	At           token.Position `toml:"-"`
}
