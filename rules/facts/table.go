// Code generated from the struct Facts by table_test.go; DO NOT EDIT.

package facts

//go:generate go test -run TestTableIsOfTheStruct -update .

// groups is every fact in the order of the struct.
var groups = [...]group{
	{"board", []Fact{
		{Name: "board.id", Type: Word, Unit: "word", Meaning: "the board's id in the knowledge", place: 0, word: func(f *Facts) *string { return &f.Board.ID }},
		{Name: "board.name", Type: Word, Unit: "word", Meaning: "the board's name", place: 1, word: func(f *Facts) *string { return &f.Board.Name }},
		{Name: "board.maker", Type: Word, Unit: "word", Meaning: "the board's maker", place: 2, word: func(f *Facts) *string { return &f.Board.Maker }},
		{Name: "board.price", Type: Number, Unit: "money", Meaning: "price, unknown when the file gives none", place: 0, number: func(f *Facts) *float64 { return &f.Board.Price }},
		{Name: "board.currency", Type: Word, Unit: "word", Meaning: "currency of the price", place: 3, word: func(f *Facts) *string { return &f.Board.Currency }},
		{Name: "board.tunable", Type: YesNo, Unit: "yes/no", Meaning: "the maker allows manual tuning", place: 1, yesNo: func(f *Facts) *bool { return &f.Board.Tunable }},
		{Name: "board.phases", Type: Number, Unit: "count", Meaning: "phases that feed the core rail", place: 2, number: func(f *Facts) *float64 { return &f.Board.Phases }},
		{Name: "board.devices_per_phase", Type: Number, Unit: "count", Meaning: "transistors in one phase; 1 for an integrated stage", place: 3, number: func(f *Facts) *float64 { return &f.Board.DevicesPerPhase }},
		{Name: "board.integrated", Type: YesNo, Unit: "yes/no", Meaning: "the phases use integrated stages", place: 4, yesNo: func(f *Facts) *bool { return &f.Board.Integrated }},
		{Name: "board.heatsink_shape", Type: Word, Unit: "word", Meaning: "none, block, finned or fin-stack", place: 4, word: func(f *Facts) *string { return &f.Board.HeatsinkShape }},
		{Name: "board.heatsink_mass_g", Type: Number, Unit: "g", Meaning: "mass of the heatsink, worked out from the area where only that is known", place: 5, number: func(f *Facts) *float64 { return &f.Board.HeatsinkMassG }},
		{Name: "board.heatsink_area_cm2", Type: Number, Unit: "cm²", Meaning: "surface of the heatsink, estimated from the mass where only that is known", place: 6, number: func(f *Facts) *float64 { return &f.Board.HeatsinkAreaCM2 }},
		{Name: "board.hot_spot_c", Type: Number, Unit: "°C", Meaning: "throttle or maximum hot-spot temperature that the board maker states; unknown when none is stated", place: 7, number: func(f *Facts) *float64 { return &f.Board.HotSpotC }},
		{Name: "board.limit_power_w", Type: Number, Unit: "W", Meaning: "power limit as shipped; unknown when the maker does not say", place: 8, number: func(f *Facts) *float64 { return &f.Board.LimitPowerW }},
		{Name: "board.limit_current_a", Type: Number, Unit: "A", Meaning: "current limit as shipped; unknown when the maker does not say", place: 9, number: func(f *Facts) *float64 { return &f.Board.LimitCurrentA }},
		{Name: "board.chip_power_w", Type: Number, Unit: "W", Meaning: "the board maker's own ceiling for chips; unknown when none is stated", place: 10, number: func(f *Facts) *float64 { return &f.Board.ChipPowerW }},
		{Name: "board.firmware", Type: Word, Unit: "word", Meaning: "firmware that the board's figures belong to", place: 5, word: func(f *Facts) *string { return &f.Board.Firmware }},
		{Name: "board.estimated_inputs", Type: Number, Unit: "count", Meaning: "inputs of board and stage that are marked as estimates", place: 11, number: func(f *Facts) *float64 { return &f.Board.EstimatedInputs }},
		{Name: "board.phase_a", Type: Number, Unit: "A", Meaning: "core current carried by one phase", place: 12, number: func(f *Facts) *float64 { return &f.Board.PhaseA }},
	}},
	{"chip", []Fact{
		{Name: "chip.id", Type: Word, Unit: "word", Meaning: "the chip's id in the knowledge", place: 6, word: func(f *Facts) *string { return &f.Chip.ID }},
		{Name: "chip.name", Type: Word, Unit: "word", Meaning: "the chip's name", place: 7, word: func(f *Facts) *string { return &f.Chip.Name }},
		{Name: "chip.maker", Type: Word, Unit: "word", Meaning: "the chip's maker", place: 8, word: func(f *Facts) *string { return &f.Chip.Maker }},
		{Name: "chip.cores", Type: Number, Unit: "count", Meaning: "cores", place: 13, number: func(f *Facts) *float64 { return &f.Chip.Cores }},
		{Name: "chip.rated_power_w", Type: Number, Unit: "W", Meaning: "sustained power that the chip maker rates", place: 14, number: func(f *Facts) *float64 { return &f.Chip.RatedPowerW }},
		{Name: "chip.burst_power_w", Type: Number, Unit: "W", Meaning: "short-time power that the chip maker rates; unknown when the file gives none", place: 15, number: func(f *Facts) *float64 { return &f.Chip.BurstPowerW }},
		{Name: "chip.current_max_a", Type: Number, Unit: "A", Meaning: "the chip maker's maximum core current", place: 16, number: func(f *Facts) *float64 { return &f.Chip.CurrentMaxA }},
		{Name: "chip.all_core_ghz", Type: Number, Unit: "GHz", Meaning: "stock all-core clock", place: 17, number: func(f *Facts) *float64 { return &f.Chip.AllCoreGHz }},
		{Name: "chip.temp_max_c", Type: Number, Unit: "°C", Meaning: "the chip maker's maximum temperature; unknown when the file gives none", place: 18, number: func(f *Facts) *float64 { return &f.Chip.TempMaxC }},
		{Name: "chip.tunable", Type: YesNo, Unit: "yes/no", Meaning: "the chip maker allows manual tuning", place: 19, yesNo: func(f *Facts) *bool { return &f.Chip.Tunable }},
		{Name: "chip.price", Type: Number, Unit: "money", Meaning: "price, unknown when the file gives none", place: 20, number: func(f *Facts) *float64 { return &f.Chip.Price }},
	}},
	{"asked", []Fact{
		{Name: "asked.room_c", Type: Number, Unit: "°C", Meaning: "room temperature", place: 21, number: func(f *Facts) *float64 { return &f.Asked.RoomC }},
		{Name: "asked.altitude_m", Type: Number, Unit: "m", Meaning: "altitude", place: 22, number: func(f *Facts) *float64 { return &f.Asked.AltitudeM }},
		{Name: "asked.graphics_w", Type: Number, Unit: "W", Meaning: "heat of the graphics card into the case", place: 23, number: func(f *Facts) *float64 { return &f.Asked.GraphicsW }},
		{Name: "asked.enclosure", Type: Word, Unit: "word", Meaning: "id of the enclosure", place: 9, word: func(f *Facts) *string { return &f.Asked.Enclosure }},
		{Name: "asked.open_bench", Type: YesNo, Unit: "yes/no", Meaning: "the enclosure is an open bench", place: 24, yesNo: func(f *Facts) *bool { return &f.Asked.OpenBench }},
		{Name: "asked.cooler", Type: Word, Unit: "word", Meaning: "id of the cooler", place: 10, word: func(f *Facts) *string { return &f.Asked.Cooler }},
		{Name: "asked.load", Type: Word, Unit: "word", Meaning: "id of the load", place: 11, word: func(f *Facts) *string { return &f.Asked.Load }},
		{Name: "asked.activity", Type: Number, Unit: "share", Meaning: "share of the chip's dynamic power that the load uses", place: 25, number: func(f *Facts) *float64 { return &f.Asked.Activity }},
		{Name: "asked.setup", Type: Word, Unit: "word", Meaning: "rated, shipped, open or custom", place: 12, word: func(f *Facts) *string { return &f.Asked.Setup }},
		{Name: "asked.power_w", Type: Number, Unit: "W", Meaning: "power cap in force; unknown when there is none", place: 26, number: func(f *Facts) *float64 { return &f.Asked.PowerW }},
		{Name: "asked.current_a", Type: Number, Unit: "A", Meaning: "current cap in force; unknown when there is none", place: 27, number: func(f *Facts) *float64 { return &f.Asked.CurrentA }},
		{Name: "asked.tuned", Type: YesNo, Unit: "yes/no", Meaning: "the target clock is above the chip's stock all-core clock", place: 28, yesNo: func(f *Facts) *bool { return &f.Asked.Tuned }},
	}},
	{"hot_spot", []Fact{
		{Name: "hot_spot.settles", Type: YesNo, Unit: "yes/no", Meaning: "the board finds a steady temperature below 250 °C", place: 29, yesNo: func(f *Facts) *bool { return &f.HotSpot.Settles }},
		{Name: "hot_spot.expected_c", Type: Number, Unit: "°C", Meaning: "expected temperature; unknown when the board cannot settle", place: 30, number: func(f *Facts) *float64 { return &f.HotSpot.ExpectedC }},
		{Name: "hot_spot.low_c", Type: Number, Unit: "°C", Meaning: "lower end of the 90 % interval", place: 31, number: func(f *Facts) *float64 { return &f.HotSpot.LowC }},
		{Name: "hot_spot.high_c", Type: Number, Unit: "°C", Meaning: "upper end of the 90 % interval (one-sided 95 %)", place: 32, number: func(f *Facts) *float64 { return &f.HotSpot.HighC }},
		{Name: "hot_spot.uncertainty_c", Type: Number, Unit: "K", Meaning: "standard uncertainty", place: 33, number: func(f *Facts) *float64 { return &f.HotSpot.UncertaintyC }},
		{Name: "hot_spot.unthrottled_c", Type: Number, Unit: "°C", Meaning: "temperature that the clock before any lowering for heat would need; unknown when that cannot settle", place: 34, number: func(f *Facts) *float64 { return &f.HotSpot.UnthrottledC }},
		{Name: "hot_spot.over_local_c", Type: Number, Unit: "K", Meaning: "expected temperature above the air at the regulator", place: 35, number: func(f *Facts) *float64 { return &f.HotSpot.OverLocalC }},
		{Name: "hot_spot.loop_gain", Type: Number, Unit: "share", Meaning: "electro-thermal loop gain: 0 none, 1 thermal runaway", place: 36, number: func(f *Facts) *float64 { return &f.HotSpot.LoopGain }},
		{Name: "hot_spot.first_point", Type: YesNo, Unit: "yes/no", Meaning: "even the first point of the chip's table breaks a cap or the throttle temperature", place: 37, yesNo: func(f *Facts) *bool { return &f.HotSpot.FirstPoint }},
		{Name: "hot_spot.throttle_known", Type: YesNo, Unit: "yes/no", Meaning: "the board maker states a throttle temperature", place: 38, yesNo: func(f *Facts) *bool { return &f.HotSpot.ThrottleKnown }},
	}},
	{"limit", []Fact{
		{Name: "limit.value_c", Type: Number, Unit: "°C", Meaning: "the lowest limit", place: 39, number: func(f *Facts) *float64 { return &f.Limit.ValueC }},
		{Name: "limit.kind", Type: Word, Unit: "word", Meaning: "board, stage or laminate", place: 13, word: func(f *Facts) *string { return &f.Limit.Kind }},
	}},
	{"margin", []Fact{
		{Name: "margin.expected_c", Type: Number, Unit: "K", Meaning: "limit minus expected temperature", place: 40, number: func(f *Facts) *float64 { return &f.Margin.ExpectedC }},
		{Name: "margin.kept_c", Type: Number, Unit: "K", Meaning: "limit minus the upper end of the interval: kept with 95 % confidence", place: 41, number: func(f *Facts) *float64 { return &f.Margin.KeptC }},
		{Name: "margin.exceed_probability", Type: Number, Unit: "share", Meaning: "probability that the hot spot is above the limit", place: 42, number: func(f *Facts) *float64 { return &f.Margin.ExceedProbability }},
	}},
	{"ceiling", []Fact{
		{Name: "ceiling.room_c", Type: Number, Unit: "°C", Meaning: "room temperature at which the kept margin is used up; unknown outside -50 to 100 °C", place: 43, number: func(f *Facts) *float64 { return &f.Ceiling.RoomC }},
		{Name: "ceiling.package_w", Type: Number, Unit: "W", Meaning: "package power at which the kept margin is used up; unknown when even the first point is above it", place: 44, number: func(f *Facts) *float64 { return &f.Ceiling.PackageW }},
		{Name: "ceiling.package_at_least", Type: YesNo, Unit: "yes/no", Meaning: "the chip's table ends before the margin is used up", place: 45, yesNo: func(f *Facts) *bool { return &f.Ceiling.PackageAtLeast }},
		{Name: "ceiling.room_headroom_c", Type: Number, Unit: "K", Meaning: "ceiling on the room minus the room asked for", place: 46, number: func(f *Facts) *float64 { return &f.Ceiling.RoomHeadroomC }},
		{Name: "ceiling.package_spare_w", Type: Number, Unit: "W", Meaning: "ceiling on package power minus the power drawn", place: 47, number: func(f *Facts) *float64 { return &f.Ceiling.PackageSpareW }},
		{Name: "ceiling.outside_searched", Type: YesNo, Unit: "yes/no", Meaning: "the ceiling on the room lies outside -50 to 100 °C", place: 48, yesNo: func(f *Facts) *bool { return &f.Ceiling.OutsideSearched }},
	}},
	{"clock", []Fact{
		{Name: "clock.sustained_ghz", Type: Number, Unit: "GHz", Meaning: "clock that is held", place: 49, number: func(f *Facts) *float64 { return &f.Clock.SustainedGHz }},
		{Name: "clock.target_ghz", Type: Number, Unit: "GHz", Meaning: "clock that was wanted", place: 50, number: func(f *Facts) *float64 { return &f.Clock.TargetGHz }},
		{Name: "clock.unthrottled_ghz", Type: Number, Unit: "GHz", Meaning: "clock that the caps allow, before any lowering for heat", place: 51, number: func(f *Facts) *float64 { return &f.Clock.UnthrottledGHz }},
		{Name: "clock.limited_by", Type: Word, Unit: "word", Meaning: "chip, power, current or temperature", place: 14, word: func(f *Facts) *string { return &f.Clock.LimitedBy }},
		{Name: "clock.loss_percent", Type: Number, Unit: "%", Meaning: "clock lost to heat, against the unthrottled clock", place: 52, number: func(f *Facts) *float64 { return &f.Clock.LossPercent }},
		{Name: "clock.cap_loss_percent", Type: Number, Unit: "%", Meaning: "clock lost to the power or current cap, against the target", place: 53, number: func(f *Facts) *float64 { return &f.Clock.CapLossPercent }},
		{Name: "clock.held_percent", Type: Number, Unit: "%", Meaning: "sustained clock against the target", place: 54, number: func(f *Facts) *float64 { return &f.Clock.HeldPercent }},
	}},
	{"power", []Fact{
		{Name: "power.package_w", Type: Number, Unit: "W", Meaning: "package power", place: 55, number: func(f *Facts) *float64 { return &f.Power.PackageW }},
		{Name: "power.core_a", Type: Number, Unit: "A", Meaning: "core current", place: 56, number: func(f *Facts) *float64 { return &f.Power.CoreA }},
		{Name: "power.volts", Type: Number, Unit: "V", Meaning: "core voltage", place: 57, number: func(f *Facts) *float64 { return &f.Power.Volts }},
		{Name: "power.regulator_loss_w", Type: Number, Unit: "W", Meaning: "heat made in the regulator; unknown when the board cannot settle", place: 58, number: func(f *Facts) *float64 { return &f.Power.RegulatorLossW }},
		{Name: "power.regulator_efficiency", Type: Number, Unit: "share", Meaning: "core power over core power plus loss", place: 59, number: func(f *Facts) *float64 { return &f.Power.RegulatorEfficiency }},
		{Name: "power.loss_per_phase_w", Type: Number, Unit: "W", Meaning: "regulator loss shared among the phases", place: 60, number: func(f *Facts) *float64 { return &f.Power.LossPerPhaseW }},
		{Name: "power.table_exceeded", Type: YesNo, Unit: "yes/no", Meaning: "the phase current is past the end of the stage maker's table", place: 61, yesNo: func(f *Facts) *bool { return &f.Power.TableExceeded }},
		{Name: "power.loss_per_100cm2_w", Type: Number, Unit: "W/100 cm²", Meaning: "regulator loss per 100 cm² of heatsink; unknown without a heatsink", place: 62, number: func(f *Facts) *float64 { return &f.Power.LossDensity }},
	}},
	{"air", []Fact{
		{Name: "air.local_c", Type: Number, Unit: "°C", Meaning: "air at the regulator; unknown when the board cannot settle in an enclosure", place: 63, number: func(f *Facts) *float64 { return &f.Air.LocalC }},
		{Name: "air.case_rise_c", Type: Number, Unit: "K", Meaning: "air in the case above the room", place: 64, number: func(f *Facts) *float64 { return &f.Air.CaseRiseC }},
		{Name: "air.airspeed_ms", Type: Number, Unit: "m/s", Meaning: "air speed at the heatsink", place: 65, number: func(f *Facts) *float64 { return &f.Air.AirspeedMS }},
	}},
	{"time", []Fact{
		{Name: "time.to_95_percent_min", Type: Number, Unit: "min", Meaning: "minutes to 95 % of the rise", place: 66, number: func(f *Facts) *float64 { return &f.Time.To95PercentMin }},
		{Name: "time.to_limit_min", Type: Number, Unit: "min", Meaning: "minutes until the limit is passed; unknown when it is not", place: 67, number: func(f *Facts) *float64 { return &f.Time.ToLimitMin }},
	}},
	{"capacitor", []Fact{
		{Name: "capacitor.kind", Type: Word, Unit: "word", Meaning: "polymer, liquid, or empty when the file does not say", place: 15, word: func(f *Facts) *string { return &f.Capacitor.Kind }},
		{Name: "capacitor.temperature_c", Type: Number, Unit: "°C", Meaning: "temperature of the capacitors", place: 68, number: func(f *Facts) *float64 { return &f.Capacitor.TemperatureC }},
		{Name: "capacitor.rated_c", Type: Number, Unit: "°C", Meaning: "temperature that their rated life belongs to", place: 69, number: func(f *Facts) *float64 { return &f.Capacitor.RatedC }},
		{Name: "capacitor.life_h", Type: Number, Unit: "h", Meaning: "expected life at this temperature, never more than 15 years", place: 70, number: func(f *Facts) *float64 { return &f.Capacitor.LifeH }},
		{Name: "capacitor.life_years", Type: Number, Unit: "year", Meaning: "the same in years of continuous load", place: 71, number: func(f *Facts) *float64 { return &f.Capacitor.LifeYears }},
	}},
	{"evidence", []Fact{
		{Name: "evidence.word", Type: Word, Unit: "word", Meaning: "measured, projected or estimated", place: 16, word: func(f *Facts) *string { return &f.Evidence.Word }},
		{Name: "evidence.runs", Type: Number, Unit: "count", Meaning: "runs of this board, whatever their outcome", place: 72, number: func(f *Facts) *float64 { return &f.Evidence.Runs }},
		{Name: "evidence.settled", Type: Number, Unit: "count", Meaning: "settled runs of this board", place: 73, number: func(f *Facts) *float64 { return &f.Evidence.Settled }},
		{Name: "evidence.throttled", Type: Number, Unit: "count", Meaning: "throttled runs of this board", place: 74, number: func(f *Facts) *float64 { return &f.Evidence.Throttled }},
		{Name: "evidence.crashed", Type: Number, Unit: "count", Meaning: "crashed runs of this board", place: 75, number: func(f *Facts) *float64 { return &f.Evidence.Crashed }},
		{Name: "evidence.unsettled", Type: Number, Unit: "count", Meaning: "unsettled runs of this board", place: 76, number: func(f *Facts) *float64 { return &f.Evidence.Unsettled }},
		{Name: "evidence.crashed_near", Type: Number, Unit: "count", Meaning: "crashed runs of this board with this chip at a power limit no higher than the power asked about plus 10 %, or with none noted", place: 77, number: func(f *Facts) *float64 { return &f.Evidence.CrashedNear }},
		{Name: "evidence.throttled_near", Type: Number, Unit: "count", Meaning: "throttled runs of this board with this chip in a room no hotter than the one asked about", place: 78, number: func(f *Facts) *float64 { return &f.Evidence.ThrottledNear }},
		{Name: "evidence.firmwares", Type: Number, Unit: "count", Meaning: "different firmware versions among this board's runs", place: 79, number: func(f *Facts) *float64 { return &f.Evidence.Firmwares }},
		{Name: "evidence.firmware_differs", Type: YesNo, Unit: "yes/no", Meaning: "a run of this board used a firmware other than the one in the board's file", place: 80, yesNo: func(f *Facts) *bool { return &f.Evidence.FirmwareDiffers }},
		{Name: "evidence.nearest_run", Type: Word, Unit: "word", Meaning: "id of the nearest run with a temperature; empty when there is none", place: 17, word: func(f *Facts) *string { return &f.Evidence.NearestRun }},
		{Name: "evidence.package_gap_percent", Type: Number, Unit: "%", Meaning: "how far the nearest run's package power is from the answer's", place: 81, number: func(f *Facts) *float64 { return &f.Evidence.PackageGapPercent }},
		{Name: "evidence.room_gap_c", Type: Number, Unit: "K", Meaning: "how far the nearest run's room is from the one asked about", place: 82, number: func(f *Facts) *float64 { return &f.Evidence.RoomGapC }},
		{Name: "evidence.uncertainty_removed_percent", Type: Number, Unit: "%", Meaning: "share of the parts-only uncertainty that runs removed", place: 83, number: func(f *Facts) *float64 { return &f.Evidence.UncertaintyRemoved }},
	}},
	{"value", []Fact{
		{Name: "value.price_per_core_ghz", Type: Number, Unit: "money/GHz", Meaning: "board price per held clock times cores; unknown without a price", place: 84, number: func(f *Facts) *float64 { return &f.Value.PricePerGHz }},
	}},
}

// NumberCount is how many facts are numbers, or a yes or no.
const NumberCount = 85

// Numbers copies all numbers, each in its fact's unit, to their places, and a
// yes or no as 1 or 0.
func (f *Facts) Numbers(into *[NumberCount]float64) {
	into[0] = f.Board.Price
	into[1] = oneIf(f.Board.Tunable)
	into[2] = f.Board.Phases
	into[3] = f.Board.DevicesPerPhase
	into[4] = oneIf(f.Board.Integrated)
	into[5] = f.Board.HeatsinkMassG
	into[6] = f.Board.HeatsinkAreaCM2
	into[7] = f.Board.HotSpotC
	into[8] = f.Board.LimitPowerW
	into[9] = f.Board.LimitCurrentA
	into[10] = f.Board.ChipPowerW
	into[11] = f.Board.EstimatedInputs
	into[12] = f.Board.PhaseA
	into[13] = f.Chip.Cores
	into[14] = f.Chip.RatedPowerW
	into[15] = f.Chip.BurstPowerW
	into[16] = f.Chip.CurrentMaxA
	into[17] = f.Chip.AllCoreGHz
	into[18] = f.Chip.TempMaxC
	into[19] = oneIf(f.Chip.Tunable)
	into[20] = f.Chip.Price
	into[21] = f.Asked.RoomC
	into[22] = f.Asked.AltitudeM
	into[23] = f.Asked.GraphicsW
	into[24] = oneIf(f.Asked.OpenBench)
	into[25] = f.Asked.Activity
	into[26] = f.Asked.PowerW
	into[27] = f.Asked.CurrentA
	into[28] = oneIf(f.Asked.Tuned)
	into[29] = oneIf(f.HotSpot.Settles)
	into[30] = f.HotSpot.ExpectedC
	into[31] = f.HotSpot.LowC
	into[32] = f.HotSpot.HighC
	into[33] = f.HotSpot.UncertaintyC
	into[34] = f.HotSpot.UnthrottledC
	into[35] = f.HotSpot.OverLocalC
	into[36] = f.HotSpot.LoopGain
	into[37] = oneIf(f.HotSpot.FirstPoint)
	into[38] = oneIf(f.HotSpot.ThrottleKnown)
	into[39] = f.Limit.ValueC
	into[40] = f.Margin.ExpectedC
	into[41] = f.Margin.KeptC
	into[42] = f.Margin.ExceedProbability
	into[43] = f.Ceiling.RoomC
	into[44] = f.Ceiling.PackageW
	into[45] = oneIf(f.Ceiling.PackageAtLeast)
	into[46] = f.Ceiling.RoomHeadroomC
	into[47] = f.Ceiling.PackageSpareW
	into[48] = oneIf(f.Ceiling.OutsideSearched)
	into[49] = f.Clock.SustainedGHz
	into[50] = f.Clock.TargetGHz
	into[51] = f.Clock.UnthrottledGHz
	into[52] = f.Clock.LossPercent
	into[53] = f.Clock.CapLossPercent
	into[54] = f.Clock.HeldPercent
	into[55] = f.Power.PackageW
	into[56] = f.Power.CoreA
	into[57] = f.Power.Volts
	into[58] = f.Power.RegulatorLossW
	into[59] = f.Power.RegulatorEfficiency
	into[60] = f.Power.LossPerPhaseW
	into[61] = oneIf(f.Power.TableExceeded)
	into[62] = f.Power.LossDensity
	into[63] = f.Air.LocalC
	into[64] = f.Air.CaseRiseC
	into[65] = f.Air.AirspeedMS
	into[66] = f.Time.To95PercentMin
	into[67] = f.Time.ToLimitMin
	into[68] = f.Capacitor.TemperatureC
	into[69] = f.Capacitor.RatedC
	into[70] = f.Capacitor.LifeH
	into[71] = f.Capacitor.LifeYears
	into[72] = f.Evidence.Runs
	into[73] = f.Evidence.Settled
	into[74] = f.Evidence.Throttled
	into[75] = f.Evidence.Crashed
	into[76] = f.Evidence.Unsettled
	into[77] = f.Evidence.CrashedNear
	into[78] = f.Evidence.ThrottledNear
	into[79] = f.Evidence.Firmwares
	into[80] = oneIf(f.Evidence.FirmwareDiffers)
	into[81] = f.Evidence.PackageGapPercent
	into[82] = f.Evidence.RoomGapC
	into[83] = f.Evidence.UncertaintyRemoved
	into[84] = f.Value.PricePerGHz
}

// WordCount is how many facts are words.
const WordCount = 18

// Words copies all words to their places.
func (f *Facts) Words(into *[WordCount]string) {
	into[0] = f.Board.ID
	into[1] = f.Board.Name
	into[2] = f.Board.Maker
	into[3] = f.Board.Currency
	into[4] = f.Board.HeatsinkShape
	into[5] = f.Board.Firmware
	into[6] = f.Chip.ID
	into[7] = f.Chip.Name
	into[8] = f.Chip.Maker
	into[9] = f.Asked.Enclosure
	into[10] = f.Asked.Cooler
	into[11] = f.Asked.Load
	into[12] = f.Asked.Setup
	into[13] = f.Limit.Kind
	into[14] = f.Clock.LimitedBy
	into[15] = f.Capacitor.Kind
	into[16] = f.Evidence.Word
	into[17] = f.Evidence.NearestRun
}
