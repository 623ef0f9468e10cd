package knowledge

import "go/token"

// Enclosure is what the board stands in. A nil FlowM3H is an open bench.
type Enclosure struct {
	ID         string         `toml:"id" need:"yes"`
	Name       string         `toml:"name" need:"yes"`
	FlowM3H    *float64       `toml:"flow_m3h" range:"(0,10000]"` // air through the case, m³/h
	AirspeedMS float64        `toml:"airspeed_ms" range:"[0,50]"` // air over the regulator, m/s
	OtherW     float64        `toml:"other_w" range:"[0,5000]"`   // heat of drives, memory and the rest, W
	Default    bool           `toml:"default"`
	Source     string         `toml:"source"`
	At         token.Position `toml:"-"`
}

// Cooler is what cools the chip; some blow over the regulator, some carry the
// heat out of the case.
type Cooler struct {
	ID                string         `toml:"id" need:"yes"`
	Name              string         `toml:"name" need:"yes"`
	HeatIntoCaseShare float64        `toml:"heat_into_case_share" default:"0.5" range:"[0,1]"` // share of package power left in the case
	AirspeedMS        float64        `toml:"airspeed_ms" range:"[0,50]"`                       // its own air over the regulator, m/s
	Default           bool           `toml:"default"`
	Source            string         `toml:"source"`
	At                token.Position `toml:"-"`
	Defaulted         []string       `toml:"-"`
}

// Load is how hard the chip is worked: 1 is a heavy all-core render.
type Load struct {
	ID       string         `toml:"id" need:"yes"`
	Name     string         `toml:"name" need:"yes"`
	Activity float64        `toml:"activity" need:"yes" range:"(0,1.5]"` // share of the dynamic power
	Default  bool           `toml:"default"`
	Source   string         `toml:"source"`
	At       token.Position `toml:"-"`
}

// Room is a word for a room temperature.
type Room struct {
	Word    string         `toml:"word" need:"yes"`
	Celsius float64        `toml:"celsius" need:"yes" range:"[-20,60]"` // °C
	Default bool           `toml:"default"`
	Source  string         `toml:"source"`
	At      token.Position `toml:"-"`
}

// Thermometer is a tolerance class: the greater of a fixed band and a
// percentage of the reading.
type Thermometer struct {
	ID           string         `toml:"id" need:"yes"`
	ClassC       float64        `toml:"class_c" need:"yes" range:"[0,50]"` // ± K
	ClassPercent float64        `toml:"class_percent" range:"[0,50]"`      // ± percent of the reading in °C
	Note         string         `toml:"note"`
	At           token.Position `toml:"-"`
}
