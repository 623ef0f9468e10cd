package regulator

import (
	"math"

	"hotroom/knowledge"
)

// discrete is a stage of separate transistors, in SI units.
type discrete struct {
	highN, lowN                                       float64
	highOhm, lowOhm                                   float64 // one device at 25 °C, Ω
	riseS, fallS                                      float64
	highGateC, lowGateC, highOutC, lowOutC, recoveryC float64
	driveV, diodeV                                    float64
	deadS                                             float64
	perK                                              float64
}

func newDiscrete(s *knowledge.Stage) *discrete {
	const milli, nano = 1e-3, 1e-9
	return &discrete{
		highN: float64(s.HighCount), lowN: float64(s.LowCount),
		highOhm: s.HighMOhm * milli, lowOhm: s.LowMOhm * milli,
		riseS: s.RiseNS * nano, fallS: s.FallNS * nano, deadS: s.DeadNS * nano,
		highGateC: s.HighGateNC * nano, lowGateC: s.LowGateNC * nano,
		highOutC: s.HighOutNC * nano, lowOutC: s.LowOutNC * nano, recoveryC: s.RecoveryNC * nano,
		driveV: s.DriveV, diodeV: s.DiodeV, perK: s.RdsPerK,
	}
}

func (d *discrete) endA() float64 { return math.Inf(1) }

// loss adds up conduction, which grows with temperature, and the switching
// terms, which do not.
func (d *discrete) loss(r *Regulator, l load) Line {
	conduction := Conduction(l.rmsSquared, l.duty, d.highOhm, d.highN) +
		Conduction(l.rmsSquared, 1-l.duty, d.lowOhm, d.lowN)
	fixed := Switching(r.inV, l.phaseA, d.riseS, d.fallS, r.hertz) +
		GateDrive(d.highN*d.highGateC+d.lowN*d.lowGateC, d.driveV, r.hertz) +
		DeadTime(d.diodeV, l.phaseA, d.deadS, r.hertz) +
		OutputCharge(d.highN*d.highOutC+d.lowN*d.lowOutC, r.inV, r.hertz) +
		Recovery(d.recoveryC, r.inV, r.hertz)
	return Line{}.plus(conduction, d.perK).plus(fixed, 0)
}
