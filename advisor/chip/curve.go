// Package chip knows what a chip draws at a clock and which clock its power
// and current caps allow.
package chip

import (
	"fmt"

	"gonum.org/v1/gonum/interp"

	"hotroom/knowledge"
)

// Curve is a chip's power and voltage over its clock under a heavy all-core
// load, interpolated through its operating points by a monotone cubic
// (Fritsch and Butland, 1984). Nothing is extrapolated.
type Curve struct {
	watts, volts interp.FritschButland
	idleW        float64
	coreShare    float64
	first, last  float64 // GHz
}

// NewCurve fits the curve of a chip. It fails where there are fewer than two
// points or their clocks do not rise, which a checked knowledge never holds.
func NewCurve(k *knowledge.Chip) (*Curve, error) {
	n := len(k.Points)
	if n < 2 {
		return nil, fmt.Errorf("chip %q has %d operating points: give it at least two", k.ID, n)
	}
	ghz, watts, volts := make([]float64, n), make([]float64, n), make([]float64, n)
	for i, p := range k.Points {
		ghz[i], watts[i], volts[i] = p.GHz, p.Watts, p.Volts
		if i > 0 && ghz[i] <= ghz[i-1] {
			return nil, fmt.Errorf("chip %q: the clock of point %d does not rise: sort its points by ghz", k.ID, i+1)
		}
	}
	c := &Curve{idleW: k.IdleW, coreShare: k.CoreShare, first: ghz[0], last: ghz[n-1]}
	if err := c.watts.Fit(ghz, watts); err != nil {
		return nil, fmt.Errorf("chip %q: %w", k.ID, err)
	}
	if err := c.volts.Fit(ghz, volts); err != nil {
		return nil, fmt.Errorf("chip %q: %w", k.ID, err)
	}
	return c, nil
}

// First gives the clock of the first operating point, GHz.
func (c *Curve) First() float64 { return c.first }

// Last gives the clock of the last operating point, GHz.
func (c *Curve) Last() float64 { return c.last }

// Demand is what a chip draws at a clock.
type Demand struct {
	GHz      float64 // all-core clock, GHz
	Volts    float64 // core voltage, V
	PackageW float64 // package power, W
	CoreA    float64 // core current, A
}

// At gives the demand at a clock in GHz, between the first and the last point,
// under a load that uses a share of the dynamic power:
// P = idle + activity·(watts − idle), I = core_share·P/volts.
func (c *Curve) At(ghz, activity float64) Demand {
	ghz = min(max(ghz, c.first), c.last)
	d := Demand{
		GHz:      ghz,
		Volts:    c.volts.Predict(ghz),
		PackageW: c.power(ghz, activity),
	}
	d.CoreA = CoreCurrent(c.coreShare, d.PackageW, d.Volts)
	return d
}

// power gives the package power in W at a clock in GHz that is in the table.
func (c *Curve) power(ghz, activity float64) float64 {
	return c.idleW + activity*(c.watts.Predict(ghz)-c.idleW)
}

// CoreCurrent gives the core current in A from the core rail's share of the
// package power in W and the core voltage in V.
func CoreCurrent(coreShare, packageW, volts float64) float64 {
	return coreShare * packageW / volts
}
