// Package ageing knows how long output capacitors last at a temperature.
package ageing

import "math"

// The kinds of capacitor.
const (
	Polymer = "polymer"
	Liquid  = "liquid"
)

const (
	hoursPerYear = 8760.0
	// MostYears is the longest life that is ever credited: makers do not vouch
	// for more, whatever the temperature (capacitor makers' application notes).
	MostYears = 15.0
)

// Life gives the life in h at a temperature in °C of a capacitor rated for
// ratedH hours at ratedC: polymer ten times longer each 20 K below its rating,
// liquid twice each 10 K (the makers' rules). At most 15 years.
func Life(kind string, ratedH, ratedC, tempC float64) float64 {
	below := ratedC - tempC
	life := ratedH
	switch kind {
	case Polymer:
		life *= math.Pow(10, below/20)
	case Liquid:
		life *= math.Exp2(below / 10)
	}
	return min(life, MostYears*hoursPerYear)
}

// Years converts hours of continuous load to years.
func Years(hours float64) float64 { return hours / hoursPerYear }

// Temperature gives the temperature in °C of a capacitor that stands between
// the local air and the hot spot, both in °C: share 0 is at the air, 1 at the
// hot spot.
func Temperature(localC, hotC, share float64) float64 {
	return localC + share*(hotC-localC)
}
