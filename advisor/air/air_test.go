package air_test

import (
	"math"
	"testing"

	"hotroom/advisor/air"
)

// near fails the test unless got is within a relative tolerance of want.
func near(t *testing.T, what string, got, want, relative float64) {
	t.Helper()
	if math.Abs(got-want) > relative*math.Abs(want) {
		t.Errorf("%s: got %.6g, want %.6g within %g", what, got, want, relative)
	}
}

// Source: ISO 2533 standard atmosphere, density at 0, 1500 and 3000 m in the
// standard's own temperatures.
func TestDensityISO2533(t *testing.T) {
	for _, c := range []struct{ altitudeM, density float64 }{
		{0, 1.2250}, {1500, 1.0581}, {3000, 0.9092},
	} {
		standardC := 15 - 0.0065*c.altitudeM
		near(t, "density", air.Density(air.Pressure(c.altitudeM), standardC), c.density, 3e-4)
	}
}

// Source: Incropera, Fundamentals of Heat and Mass Transfer, table A.4, at 300
// and 350 K.
func TestPropertiesIncroperaA4(t *testing.T) {
	for _, c := range []struct{ kelvin, viscosity, conductivity float64 }{
		{300, 184.6e-7, 0.0263}, {350, 208.2e-7, 0.0300},
	} {
		near(t, "viscosity", air.Viscosity(c.kelvin-273.15), c.viscosity, 0.005)
		near(t, "conductivity", air.Conductivity(c.kelvin-273.15), c.conductivity, 0.005)
	}
}

// Common practice, a fan maker's rule of thumb: 3160·kW/ΔT(°F) cubic feet a
// minute, so 1 kW that warms the air by 20 °F needs 158 CFM.
func TestCaseRiseFanRule(t *testing.T) {
	const m3hPerCFM = 1.699011
	rise := 1000 * air.CaseRisePerW(158*m3hPerCFM, 20, air.Pressure(0))
	near(t, "rise", rise, 20/1.8, 0.02)
}

func TestFilmIsThinnerAirAtAltitude(t *testing.T) {
	low := air.FilmAt(air.Pressure(0), 90, 30)
	high := air.FilmAt(air.Pressure(3000), 90, 30)
	if high.KinematicM2S <= low.KinematicM2S || high.DiffusivityM2S <= low.DiffusivityM2S {
		t.Errorf("film at 3000 m %+v should diffuse more than at sea level %+v", high, low)
	}
	near(t, "Prandtl", high.Prandtl, low.Prandtl, 1e-12)
}
