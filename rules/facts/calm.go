package facts

import "math"

// Calm gives facts that trouble nobody: an invented board, measured with an
// invented chip, cool, with every figure known that a maker could state.
// Examples in rules start from it and change what they are about. The figures
// fit together roughly; nothing is predicted from them.
func Calm() Facts {
	return Facts{
		Board: Board{
			ID: "calm-board", Name: "Calm Board", Maker: "Calm", Price: 200, Currency: "EUR", Tunable: true,
			Phases: 12, DevicesPerPhase: 2, HeatsinkShape: "finned", HeatsinkMassG: 300, HeatsinkAreaCM2: 600,
			HotSpotC: 105, LimitPowerW: 180, LimitCurrentA: 200, ChipPowerW: 230, Firmware: "1.0", PhaseA: 10,
		},
		Chip: Chip{
			ID: "calm-chip", Name: "Calm Chip", Maker: "Calm", Cores: 8, RatedPowerW: 125, BurstPowerW: 180,
			CurrentMaxA: 200, AllCoreGHz: 4.5, TempMaxC: 95, Tunable: true, Price: 300,
		},
		Asked: Asked{
			RoomC: 21, Enclosure: "calm-case", Cooler: "calm-cooler", Load: "render", Activity: 1,
			Setup: "rated", PowerW: 125, CurrentA: 200,
		},
		HotSpot: HotSpot{
			Settles: true, ExpectedC: 65, LowC: 61, HighC: 69, UncertaintyC: 2.5, UnthrottledC: 65,
			OverLocalC: 35, LoopGain: 0.05, ThrottleKnown: true,
		},
		Limit:  Limit{ValueC: 105, Kind: "board"},
		Margin: Margin{ExpectedC: 40, KeptC: 36, ExceedProbability: 0},
		Ceiling: Ceiling{
			RoomC: 55, PackageW: 200, RoomHeadroomC: 34, PackageSpareW: 80,
		},
		Clock: Clock{
			SustainedGHz: 4.5, TargetGHz: 4.5, UnthrottledGHz: 4.5, LimitedBy: "chip", HeldPercent: 100,
		},
		Power: Power{
			PackageW: 120, CoreA: 100, Volts: 1.1, RegulatorLossW: 12, RegulatorEfficiency: 0.9,
			LossPerPhaseW: 1, LossDensity: 2,
		},
		Air:       Air{LocalC: 30, CaseRiseC: 9, AirspeedMS: 1},
		Time:      Time{To95PercentMin: 20, ToLimitMin: math.NaN()},
		Capacitor: Capacitor{Kind: "polymer", TemperatureC: 48, RatedC: 105, LifeH: 131400, LifeYears: 15},
		Evidence: Evidence{
			Word: "measured", Runs: 3, Settled: 3, Firmwares: 1, NearestRun: "calm-run",
			PackageGapPercent: 2, RoomGapC: 1, UncertaintyRemoved: 80,
		},
		Value: Value{PricePerGHz: 5.6},
	}
}
