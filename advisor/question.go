package advisor

// The power setups that a question may name.
const (
	SetupRated   = "rated"   // the chip maker's rated sustained power and maximum current
	SetupShipped = "shipped" // the board's limits as it leaves the factory
	SetupOpen    = "open"    // no cap
	SetupCustom  = "custom"  // the caps in PowerW and CurrentA; the one not given has no cap
)

// Question is what somebody asks. Empty words and nil numbers were not asked
// for and take their defaults, which the answer states.
type Question struct {
	Board     string   `json:"board"`      // id
	Chip      string   `json:"chip"`       // id
	RoomC     *float64 `json:"room_c"`     // room temperature, °C, -20 to 60
	Enclosure string   `json:"enclosure"`  // id
	Cooler    string   `json:"cooler"`     // id
	Load      string   `json:"load"`       // id
	Setup     string   `json:"setup"`      // rated, shipped, open or custom
	PowerW    *float64 `json:"power_w"`    // custom power cap, W, above 0
	CurrentA  *float64 `json:"current_a"`  // custom current cap, A, above 0
	GHz       *float64 `json:"ghz"`        // target clock, GHz
	GraphicsW *float64 `json:"graphics_w"` // graphics load, W, 0 to 2000
	AltitudeM *float64 `json:"altitude_m"` // altitude, m, 0 to 5000
}
