// Package regulator knows how much heat a multiphase step-down converter
// makes, from its parts' data-sheet values.
//
// Makers' notes use conventions that differ by up to three times for switching
// (a half against a sixth) and by two times for dead time. This package takes
// a half and two edges a cycle.
package regulator

import "math"

const (
	// refC is the temperature that resistances are given at, °C.
	refC = 25.0
	// copperPerK is copper's temperature coefficient referred to 25 °C, 1/K:
	// 0.00393/K at 20 °C (IEC 60028) referred to 25 °C.
	copperPerK = 0.003854
)

// Ripple gives the peak-to-peak inductor current in A at an input and output
// voltage in V, an inductance in H and a frequency in Hz: (Vin−V)·D/(L·f).
func Ripple(inV, outV, henry, hertz float64) float64 {
	return (inV - outV) * (outV / inV) / (henry * hertz)
}

// RMSSquared gives the square of the effective current in A² of a mean current
// in A with a triangular ripple in A peak to peak: i² + ΔI²/12.
func RMSSquared(meanA, rippleA float64) float64 {
	return meanA*meanA + rippleA*rippleA/12
}

// Conduction gives the loss in W of parallel devices that carry an effective
// current squared in A² for a share of the cycle, each of a resistance in Ω;
// parallel devices share the current.
func Conduction(rmsSquaredA2, share, ohm, devices float64) float64 {
	return rmsSquaredA2 * share * ohm / devices
}

// Switching gives the overlap loss in W of the high side at an input voltage in
// V, a phase current in A, rise and fall times in s and a frequency in Hz:
// ½·Vin·i·(tr+tf)·f.
func Switching(inV, phaseA, riseS, fallS, hertz float64) float64 {
	return 0.5 * inV * phaseA * (riseS + fallS) * hertz
}

// GateDrive gives the loss in W of charging gates of a total charge in C to a
// drive voltage in V at a frequency in Hz: Q·V·f.
func GateDrive(coulomb, driveV, hertz float64) float64 {
	return coulomb * driveV * hertz
}

// DeadTime gives the body-diode loss in W at a forward voltage in V, a phase
// current in A, a dead time in s and a frequency in Hz; two edges a cycle.
func DeadTime(diodeV, phaseA, deadS, hertz float64) float64 {
	return diodeV * phaseA * 2 * deadS * hertz
}

// OutputCharge gives the loss in W of charging output capacitances of a total
// charge in C from an input voltage in V at a frequency in Hz: ½·Q·Vin·f.
func OutputCharge(coulomb, inV, hertz float64) float64 {
	return 0.5 * coulomb * inV * hertz
}

// Recovery gives the reverse-recovery loss in W of a charge in C at an input
// voltage in V and a frequency in Hz: Q·Vin·f.
func Recovery(coulomb, inV, hertz float64) float64 {
	return coulomb * inV * hertz
}

// WarmFactor gives the resistance at a temperature in °C as a multiple of that
// at 25 °C, for a coefficient in 1/K. Linear: good from -40 to 175 °C.
func WarmFactor(perK, tempC float64) float64 {
	return 1 + perK*(tempC-refC)
}

// PhaseCurrent shares a current in A among phases.
func PhaseCurrent(coreA float64, phases int) float64 {
	return coreA / float64(phases)
}

// Efficiency gives the share that arrives of a converter that delivers a power in W and
// loses a heat in W.
func Efficiency(deliveredW, lossW float64) float64 {
	if delivered := deliveredW + lossW; delivered > 0 {
		return deliveredW / delivered
	}
	return math.NaN()
}
