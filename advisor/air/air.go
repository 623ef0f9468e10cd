// Package air knows dry air: its pressure at an altitude, its properties at a
// temperature, and how much a case warms it.
package air

import "math"

// Constants of the formulas in this package.
const (
	// ZeroCelsiusK is 0 °C in kelvin (ITS-90).
	ZeroCelsiusK = 273.15

	seaLevelPa = 101325.0  // ISO 2533 sea-level pressure, Pa
	seaLevelK  = 288.15    // ISO 2533 sea-level temperature, K
	lapseKPerM = 0.0065    // ISO 2533 temperature gradient, K/m
	pressExp   = 5.25588   // g/(R·lapse), ISO 2533
	gasJPerKgK = 287.05287 // specific gas constant of dry air, J/(kg·K), ISO 2533
	cpJPerKgK  = 1006.0    // isobaric heat capacity, J/(kg·K); within 0.3 % from -20 to 150 °C
)

// Pressure gives the air pressure in Pa at an altitude in m (0 to 11,000), by
// the troposphere of the International Standard Atmosphere (ISO 2533).
func Pressure(altitudeM float64) float64 {
	if altitudeM == 0 { // where most questions are asked
		return seaLevelPa
	}
	return seaLevelPa * math.Pow(1-lapseKPerM*altitudeM/seaLevelK, pressExp)
}

// Density gives the density in kg/m³ of air at a pressure in Pa and a
// temperature in °C: the ideal gas law, within 0.1 % at room conditions.
func Density(pressurePa, tempC float64) float64 {
	return pressurePa / (gasJPerKgK * (tempC + ZeroCelsiusK))
}

// Viscosity gives the dynamic viscosity in Pa·s at a temperature in °C, by
// Sutherland's formula as in the US Standard Atmosphere 1976, eq. 51.
func Viscosity(tempC float64) float64 {
	t := tempC + ZeroCelsiusK
	return 1.458e-6 * t * math.Sqrt(t) / (t + 110.4)
}

// Conductivity gives the thermal conductivity in W/(m·K) at a temperature in
// °C, by the US Standard Atmosphere 1976, eq. 53.
func Conductivity(tempC float64) float64 {
	t := tempC + ZeroCelsiusK
	return 2.64638e-3 * t * math.Sqrt(t) / (t + 245.4*math.Exp(-12*math.Ln10/t))
}

// Film is air at the mean of surface and air temperature, where heat-transfer
// properties are taken.
type Film struct {
	KinematicM2S   float64 // kinematic viscosity, m²/s
	DiffusivityM2S float64 // thermal diffusivity, m²/s
	ConductWPerMK  float64 // thermal conductivity, W/(m·K)
	Prandtl        float64 // dimensionless
	ExpansionPerK  float64 // 1/T of an ideal gas, 1/K
}

// FilmAt gives the film at a pressure in Pa between a surface and the air,
// both in °C.
func FilmAt(pressurePa, surfaceC, airC float64) Film {
	filmC := FilmC(surfaceC, airC)
	return FilmOf(pressurePa, filmC, Viscosity(filmC), Conductivity(filmC))
}

// FilmC gives the temperature in °C that a film between a surface and the air,
// both in °C, is taken at.
func FilmC(surfaceC, airC float64) float64 { return (surfaceC + airC) / 2 }

// FilmOf gives the film at a pressure in Pa and a temperature in °C whose
// viscosity in Pa·s and conductivity in W/(m·K) are at hand.
func FilmOf(pressurePa, filmC, viscosity, conductivity float64) Film {
	rho := Density(pressurePa, filmC)
	return Film{
		KinematicM2S:   viscosity / rho,
		DiffusivityM2S: conductivity / (rho * cpJPerKgK),
		ConductWPerMK:  conductivity,
		Prandtl:        viscosity * cpJPerKgK / conductivity,
		ExpansionPerK:  1 / (filmC + ZeroCelsiusK),
	}
}

// CaseRisePerW gives how much 1 W of heat warms the air that flows through a
// case, K/W, from the flow in m³/h, the room in °C and the pressure in Pa: the
// energy balance 1/(ρ·cp·Q) with the density at room temperature.
func CaseRisePerW(flowM3H, roomC, pressurePa float64) float64 {
	const secondsPerHour = 3600
	return secondsPerHour / (Density(pressurePa, roomC) * cpJPerKgK * flowM3H)
}
