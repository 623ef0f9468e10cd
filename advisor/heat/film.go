package heat

import (
	"math"
	"sync"

	"hotroom/advisor/air"
)

// film is what convection needs of the air between a surface and its
// surroundings.
type film struct {
	air.Film
	wall        float64 // WallFactor
	rootPrandtl float64 // cube root of the Prandtl number
}

// byTemperature are the properties of air that no pressure changes; everything
// in them that takes powers and exponentials.
type byTemperature struct{ viscosity, conductivity, wall, rootPrandtl float64 }

func propertiesAt(filmC float64) byTemperature {
	viscosity, conductivity := air.Viscosity(filmC), air.Conductivity(filmC)
	prandtl := air.FilmOf(1, filmC, viscosity, conductivity).Prandtl
	return byTemperature{viscosity, conductivity, WallFactor(prandtl), math.Cbrt(prandtl)}
}

// filmAt gives the film at a pressure in Pa between a surface and the air, both
// in °C.
func filmAt(pressurePa, surfaceC, airC float64) film {
	filmC := air.FilmC(surfaceC, airC)
	p := table().between(filmC)
	return film{air.FilmOf(pressurePa, filmC, p.viscosity, p.conductivity), p.wall, p.rootPrandtl}
}

// The table of properties goes over the films of all usual questions, °C, by
// whole degrees. A cubic between them is right to 11 digits, as a test shows, and
// takes a third of the time of the formulas.
const (
	tableFromC = -40
	tableToC   = 200
)

type properties [tableToC - tableFromC + 1]byTemperature

// table is made when it is first needed.
var table = sync.OnceValue(func() *properties {
	t := new(properties)
	for i := range t {
		t[i] = propertiesAt(float64(tableFromC + i))
	}
	return t
})

// between gives the properties at a film temperature in °C by the cubic through
// the four nearest of the table (Lagrange); outside of it by the formulas.
func (t *properties) between(filmC float64) byTemperature {
	at := math.Floor(filmC)
	if !(at > tableFromC && at < tableToC-1) {
		return propertiesAt(filmC)
	}
	x := filmC - at
	p := t[int(at)-tableFromC-1:][:4]
	a, b, c, d := -x*(x-1)*(x-2)/6, (x+1)*(x-1)*(x-2)/2, -(x+1)*x*(x-2)/2, (x+1)*x*(x-1)/6
	return byTemperature{
		viscosity:    a*p[0].viscosity + b*p[1].viscosity + c*p[2].viscosity + d*p[3].viscosity,
		conductivity: a*p[0].conductivity + b*p[1].conductivity + c*p[2].conductivity + d*p[3].conductivity,
		wall:         a*p[0].wall + b*p[1].wall + c*p[2].wall + d*p[3].wall,
		rootPrandtl:  a*p[0].rootPrandtl + b*p[1].rootPrandtl + c*p[2].rootPrandtl + d*p[3].rootPrandtl,
	}
}
