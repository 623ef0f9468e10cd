package advisor

import (
	"math"

	"hotroom/advisor/ageing"
	"hotroom/knowledge"
	"hotroom/rules/facts"
)

// gather writes a worked-out question in the vocabulary of the rules.
func (a *answer) gather() facts.Facts {
	f := facts.Facts{Board: a.boardFacts(), Chip: a.chipFacts(), Ceiling: a.ceilingFacts()}
	a.gatherCold(&f)
	a.gatherWarm(&f)
	return f
}

// gatherCold writes what is asked, the clock, the runs and the price.
func (a *answer) gatherCold(f *facts.Facts) {
	f.Asked, f.Clock, f.Evidence = a.askedFacts(), a.clockFacts(), a.evidenceFacts()
	f.Value = facts.Value{PricePerGHz: known(a.parts.board.Price) / (a.demand.GHz * float64(a.chip.Cores))}
}

// gatherWarm writes what follows from the heat.
func (a *answer) gatherWarm(f *facts.Facts) {
	f.HotSpot, f.Power, f.Capacitor = a.hotSpotFacts(), a.powerFacts(), a.capacitorFacts()
	f.Limit = facts.Limit{ValueC: a.limitC, Kind: a.limitKind}
	f.Margin = facts.Margin{
		ExpectedC: a.ifSettled(a.limitC - a.hot()), KeptC: a.ifSettled(a.kept()), ExceedProbability: a.exceeds(),
	}
	f.Air = facts.Air{LocalC: a.ifSettled(a.state.LocalC), CaseRiseC: a.ifSettled(a.state.CaseRiseK), AirspeedMS: a.airspeed()}
	f.Time = facts.Time{To95PercentMin: a.minutesTo95, ToLimitMin: a.minutesToLimit}
	f.Board.PhaseA, f.Evidence.UncertaintyRemoved = a.loss.PhaseA, a.record.removedPercent
}

// known gives a number that its source may have left unsaid; NaN when it did.
func known(v *float64) float64 {
	if v == nil {
		return math.NaN()
	}
	return *v
}

func (a *answer) boardFacts() facts.Board {
	b, s := a.parts.board, a.parts.stage
	devices := 1
	if s.Kind == knowledge.StageDiscrete {
		devices = s.HighCount + s.LowCount
	}
	return facts.Board{
		ID: b.ID, Name: b.Name, Maker: b.Maker, Price: known(b.Price), Currency: b.Currency, Tunable: b.Tunable,
		Phases: float64(b.Regulator.Phases), DevicesPerPhase: float64(devices),
		Integrated:    s.Kind == knowledge.StageIntegrated,
		HeatsinkShape: b.Heatsink.Shape, HeatsinkMassG: a.parts.path.MassKg * 1e3, HeatsinkAreaCM2: a.parts.path.SinkAreaM2 * 1e4,
		HotSpotC: known(b.Limit.HotSpotC), LimitPowerW: known(b.Limit.PowerW), LimitCurrentA: known(b.Limit.CurrentA),
		ChipPowerW: known(b.Limit.ChipPowerW), Firmware: b.Firmware,
		EstimatedInputs: float64(len(b.Estimated) + len(s.Estimated)),
	}
}

func (a *answer) chipFacts() facts.Chip {
	k := a.chip
	return facts.Chip{
		ID: k.ID, Name: k.Name, Maker: k.Maker, Cores: float64(k.Cores), RatedPowerW: k.RatedPowerW, BurstPowerW: known(k.BurstPowerW),
		CurrentMaxA: k.CurrentMaxA, AllCoreGHz: k.AllCoreGHz, TempMaxC: known(k.TempMaxC), Tunable: k.Tunable, Price: known(k.Price),
	}
}

func (a *answer) askedFacts() facts.Asked {
	return facts.Asked{
		RoomC: a.roomC, AltitudeM: a.altitudeM, GraphicsW: a.graphicsW, Enclosure: a.enclosure.ID, OpenBench: a.enclosure.FlowM3H == nil,
		Cooler: a.cooler.ID, Load: a.load.ID, Activity: a.load.Activity, Setup: a.setup,
		PowerW: known(a.caps.PowerW), CurrentA: known(a.caps.CurrentA), Tuned: a.targetGHz > a.chip.AllCoreGHz,
	}
}

func (a *answer) hotSpotFacts() facts.HotSpot {
	return facts.HotSpot{
		Settles: a.settles, ExpectedC: a.ifSettled(a.state.HotC), LowC: a.ifSettled(a.lowC()), HighC: a.ifSettled(a.highC()),
		UncertaintyC: a.ifSettled(a.uncertaintyK), UnthrottledC: a.unthrottledC(), OverLocalC: a.ifSettled(a.state.HotC - a.state.LocalC),
		LoopGain: a.ifSettled(a.state.LoopGain), FirstPoint: a.firstPoint, ThrottleKnown: a.parts.board.Limit.HotSpotC != nil,
	}
}

// unthrottledC gives the hot spot in °C at the clock that the caps allow; NaN
// when that cannot settle.
func (a *answer) unthrottledC() float64 {
	if !a.held.settles {
		return math.NaN()
	}
	return a.held.state.HotC
}

func (a *answer) ceilingFacts() facts.Ceiling {
	return facts.Ceiling{
		RoomC: a.roomCeilingC, PackageW: a.powerCeilingW, PackageAtLeast: a.powerAtLeast,
		RoomHeadroomC: a.roomCeilingC - a.roomC, PackageSpareW: a.powerCeilingW - a.demand.PackageW,
		OutsideSearched: math.IsNaN(a.roomCeilingC),
	}
}

func (a *answer) clockFacts() facts.Clock {
	return facts.Clock{
		SustainedGHz: a.demand.GHz, TargetGHz: a.targetGHz, UnthrottledGHz: a.held.demand.GHz, LimitedBy: a.limitedBy,
		LossPercent: a.lossPercent(), CapLossPercent: 100 * (1 - a.held.demand.GHz/a.targetGHz),
		HeldPercent: 100 * a.demand.GHz / a.targetGHz,
	}
}

func (a *answer) powerFacts() facts.Power {
	loss := a.ifSettled(a.state.LossW)
	density := math.NaN()
	if area := a.parts.path.SinkAreaM2; area > 0 {
		density = loss / (area * 100)
	}
	return facts.Power{
		// Rounded, so that a figure that meets a cap to the last bit does not
		// count as above it.
		PackageW: rounded(a.demand.PackageW), CoreA: rounded(a.demand.CoreA), Volts: a.demand.Volts, RegulatorLossW: loss,
		RegulatorEfficiency: a.efficiency(), LossPerPhaseW: loss / float64(a.parts.board.Regulator.Phases),
		TableExceeded: a.loss.PastTable, LossDensity: density,
	}
}

func (a *answer) capacitorFacts() facts.Capacitor {
	c := a.parts.board.Capacitor
	if c == nil {
		nan := math.NaN()
		return facts.Capacitor{TemperatureC: nan, RatedC: nan, LifeH: nan, LifeYears: nan}
	}
	return facts.Capacitor{
		Kind: c.Kind, TemperatureC: a.capacitorC, RatedC: c.RatedC, LifeH: a.capacitorLifeH, LifeYears: ageing.Years(a.capacitorLifeH),
	}
}

func (a *answer) evidenceFacts() facts.Evidence {
	r := &a.record
	f := facts.Evidence{
		Word: r.word, Runs: float64(len(r.runs)), Settled: float64(r.settled), Throttled: float64(r.throttled), Crashed: float64(r.crashed),
		Unsettled: float64(r.unsettled), CrashedNear: float64(r.crashedNear), ThrottledNear: float64(r.throttledNear),
		Firmwares: float64(r.firmwares), FirmwareDiffers: r.firmwareOther, PackageGapPercent: r.packageGap, RoomGapC: r.roomGapK,
	}
	if r.nearest != nil {
		f.NearestRun = r.nearest.ID
	}
	return f
}
