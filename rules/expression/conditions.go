package expression

import "math"

// Conditions are judged together. What they need is looked up once for all,
// and only what is not silent is told.
type Conditions struct {
	all   []condition
	needs []need
}

// condition is kept small, as all of them are gone through for each scene.
type condition struct {
	needs uint64 // the bits of what it needs
	gate  gate
	rest  yesNo
	x     *Expression
}

// need is a number that some condition needs. More than 64 share their bits:
// a bit says that one of those that share it is unknown.
type need struct {
	place int
	bit   uint64
}

// Told is a condition, by its index, that is not silent.
type Told struct {
	Index int
	Truth Truth
}

// NewConditions puts conditions together, in their order.
func NewConditions(all []*Expression) *Conditions {
	c := &Conditions{all: make([]condition, len(all))}
	bits := map[int]uint64{}
	for i, x := range all {
		c.all[i] = condition{gate: x.gate, rest: x.rest, x: x}
		for _, place := range x.needs {
			if bits[place] == 0 {
				bits[place] = 1 << (len(bits) % 64)
				c.needs = append(c.needs, need{place, bits[place]})
			}
			c.all[i].needs |= bits[place]
		}
	}
	return c
}

// unknown gives the bits of what is needed and nobody knows.
func (c *Conditions) unknown(e *Evaluator) uint64 {
	var bits uint64
	for _, need := range c.needs {
		if math.IsNaN(e.numbers[need.place]) {
			bits |= need.bit
		}
	}
	return bits
}

// Tell judges all conditions and appends those that are not silent.
func (e *Evaluator) Tell(c *Conditions, told []Told) []Told {
	unknown := c.unknown(e)
	for i := range c.all {
		one := &c.all[i]
		if unknown&one.needs != 0 {
			if truth := e.Truth(one.x); truth != Silent {
				told = append(told, Told{i, truth})
			}
			continue
		}
		if !one.gate.passes(e) {
			continue
		}
		switch {
		case one.rest == nil || one.rest(e):
			told = append(told, Told{i, e.broken(Holds)})
		case e.dividedByZero:
			told = append(told, Told{i, e.broken(Silent)})
		}
	}
	return told
}

// broken gives a truth, or Broken where the expression just run is.
func (e *Evaluator) broken(truth Truth) Truth {
	if e.broke() {
		return Broken
	}
	return truth
}
