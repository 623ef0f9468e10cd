// Package thermocouple converts between the millivolts of a bare type K
// thermocouple and temperatures on the International Temperature Scale of 1990.
package thermocouple

import (
	"fmt"
	"math"
)

// The range of the reference function of type K, °C.
const (
	LowestC  = -270.0
	HighestC = 1372.0
)

// The range that the published inverse functions cover, mV: −200 to 1372 °C.
const (
	lowestMV  = -5.891
	highestMV = 54.886
	middleMV  = 20.644 // where the two inverse functions above 0 °C meet, 500 °C
)

// Coefficients of NIST ITS-90 Thermocouple Database, Standard Reference Database
// 60, type K. Those below 0 °C and above 500 °C are from memory; the tests hold
// the functions against each other within the published bounds, which only the
// right digits meet.
var (
	// forwardBelow is mV over °C, −270 to 0 °C.
	forwardBelow = [...]float64{
		0, 0.394501280250e-01, 0.236223735980e-04, -0.328589067840e-06, -0.499048287770e-08, -0.675090591730e-10,
		-0.574103274280e-12, -0.310888728940e-14, -0.104516093650e-16, -0.198892668780e-19, -0.163226974860e-22,
	}
	// forwardAbove is mV over °C, 0 to 1372 °C, without the exponential.
	forwardAbove = [...]float64{
		-0.176004136860e-01, 0.389212049750e-01, 0.185587700320e-04, -0.994575928740e-07, 0.318409457190e-09,
		-0.560728448890e-12, 0.560750590590e-15, -0.320207200030e-18, 0.971511471520e-22, -0.121047212750e-25,
	}
	// inverseBelow is °C over mV, −200 to 0 °C, within −0.02 to 0.04 K.
	inverseBelow = [...]float64{
		0, 2.5173462e+01, -1.1662878e+00, -1.0833638e+00, -8.9773540e-01, -3.7342377e-01,
		-8.6632643e-02, -1.0450598e-02, -5.1920577e-04,
	}
	// inverseAbove is °C over mV, 0 to 500 °C, within −0.05 to 0.04 K.
	inverseAbove = [...]float64{
		0, 2.508355e+01, 7.860106e-02, -2.503131e-01, 8.315270e-02, -1.228034e-02,
		9.804036e-04, -4.413030e-05, 1.057734e-06, -1.052755e-08,
	}
	// inverseHigh is °C over mV, 500 to 1372 °C, within −0.05 to 0.06 K.
	inverseHigh = [...]float64{
		-1.318058e+02, 4.830222e+01, -1.646031e+00, 5.464731e-02, -9.650715e-04, 8.802193e-06, -3.110810e-08,
	}
)

// Millivolts gives the voltage in mV of a type K junction at a temperature in
// °C, −270 to 1372, against one at 0 °C: E = Σ cᵢtⁱ, above 0 °C with
// 0.1185976·exp(−1.183432e-4·(t − 126.9686)²) added (ITS-90).
func Millivolts(celsius float64) (float64, error) {
	switch {
	case !(celsius >= LowestC && celsius <= HighestC):
		return 0, fmt.Errorf("%g °C is outside type K: give %g to %g °C", celsius, LowestC, HighestC)
	case celsius < 0:
		return polynomial(forwardBelow[:], celsius), nil
	}
	away := celsius - 126.9686
	return polynomial(forwardAbove[:], celsius) + 0.1185976*math.Exp(-0.1183432e-3*away*away), nil
}

// Celsius gives the temperature in °C of a type K junction from its voltage in
// mV, −5.891 to 54.886, against one at 0 °C, by the published inverse functions
// (ITS-90).
func Celsius(millivolts float64) (float64, error) {
	switch {
	case !(millivolts >= lowestMV && millivolts <= highestMV):
		return 0, fmt.Errorf("%g mV is outside type K: give %g to %g mV, which are -200 to 1372 °C", millivolts, lowestMV, highestMV)
	case millivolts < 0:
		return polynomial(inverseBelow[:], millivolts), nil
	case millivolts <= middleMV:
		return polynomial(inverseAbove[:], millivolts), nil
	}
	return polynomial(inverseHigh[:], millivolts), nil
}

// Compensated gives the temperature in °C of a type K junction from its voltage
// in mV against a cold junction at a temperature in °C: the cold junction's own
// millivolts are added, and the sum chooses the inverse function.
func Compensated(millivolts, junctionC float64) (float64, error) {
	junction, err := Millivolts(junctionC)
	if err != nil {
		return 0, fmt.Errorf("the cold junction: %w", err)
	}
	return Celsius(millivolts + junction)
}

// polynomial works a polynomial out by Horner's rule, the constant first.
func polynomial(coefficients []float64, x float64) float64 {
	sum := 0.0
	for i := len(coefficients) - 1; i >= 0; i-- {
		sum = sum*x + coefficients[i]
	}
	return sum
}
