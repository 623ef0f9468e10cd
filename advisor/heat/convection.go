// Package heat knows how the regulator's heat leaves: by convection and
// radiation from the heatsink and from the bare board, in parallel.
package heat

import (
	"math"

	"hotroom/advisor/air"
)

const (
	gravityMS2 = 9.80665        // standard gravity, m/s² (ISO 80000-3)
	stefan     = 5.670374419e-8 // Stefan–Boltzmann constant, W/(m²·K⁴), exact in the SI of 2019
)

// NusseltNatural gives the mean Nusselt number of a vertical plate in still
// air from the Rayleigh number and the wall factor of the air: Churchill and
// Chu's laminar correlation (1975), for Ra up to 1e9.
func NusseltNatural(rayleigh, wallFactor float64) float64 {
	return 0.68 + 0.670*math.Sqrt(math.Sqrt(rayleigh))/wallFactor
}

// WallFactor gives the part of Churchill and Chu's correlation that depends on
// the Prandtl number alone: [1 + (0.492/Pr)^(9/16)]^(4/9).
func WallFactor(prandtl float64) float64 {
	inner := math.Exp(9.0 / 16 * math.Log(0.492/prandtl)) // a power; the library's is slower
	return math.Exp(4.0 / 9 * math.Log1p(inner))
}

// NusseltForced gives the mean Nusselt number of a flat plate in a laminar
// stream from the Reynolds and Prandtl numbers: Pohlhausen's solution, for Re
// up to 5e5 and Pr from 0.6.
func NusseltForced(reynolds, prandtl float64) float64 {
	return nusseltForced(reynolds, math.Cbrt(prandtl))
}

// nusseltForced is NusseltForced with the cube root of the Prandtl number at
// hand.
func nusseltForced(reynolds, rootPrandtl float64) float64 {
	return 0.664 * math.Sqrt(reynolds) * rootPrandtl
}

// Rayleigh gives the Rayleigh number of a surface of a height in m, warmer
// than the air by riseK; 0 when it is not warmer.
func Rayleigh(f air.Film, riseK, heightM float64) float64 {
	if riseK <= 0 {
		return 0
	}
	return gravityMS2 * f.ExpansionPerK * riseK * heightM * heightM * heightM / (f.KinematicM2S * f.DiffusivityM2S)
}

// Convection gives the mean convective coefficient in W/(m²·K) of a surface of
// a height in m that is riseK warmer than air moving at a speed in m/s. Natural
// and forced convection add as cubes, the usual exponent for assisting flow
// (Incropera, section 9.9).
func Convection(f air.Film, riseK, heightM, speedMS float64) float64 {
	return film{f, WallFactor(f.Prandtl), math.Cbrt(f.Prandtl)}.convection(riseK, heightM, speedMS)
}

// convection is Convection with the powers of the Prandtl number at hand.
func (f film) convection(riseK, heightM, speedMS float64) float64 {
	natural := NusseltNatural(Rayleigh(f.Film, riseK, heightM), f.wall)
	forced := nusseltForced(speedMS*heightM/f.KinematicM2S, f.rootPrandtl)
	nusselt := math.Cbrt(natural*natural*natural + forced*forced*forced)
	return nusselt * f.ConductWPerMK / heightM
}

// Radiation gives the radiative coefficient in W/(m²·K) between a small grey
// surface of an emissivity and large surroundings, both in °C.
func Radiation(emissivity, surfaceC, surroundingsC float64) float64 {
	ts, ta := surfaceC+air.ZeroCelsiusK, surroundingsC+air.ZeroCelsiusK
	return emissivity * stefan * (ts*ts + ta*ta) * (ts + ta)
}
