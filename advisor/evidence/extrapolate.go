package evidence

import "math"

// point is a Belief with a diagonal covariance as a point of a space without
// bounds: means, logarithms of variances, logarithm of the discrepancy.
type point [7]float64

// least stands for a variance of zero, whose logarithm has no value.
const least = 1e-300

func pack(b Belief) point {
	var p point
	for i := range b.Mean {
		p[i] = b.Mean[i]
		p[3+i] = math.Log(max(b.Cov[i][i], least))
	}
	p[6] = math.Log(max(b.DiscrepancyK, least))
	return p
}

func (p point) belief() Belief {
	b := Belief{DiscrepancyK: math.Exp(p[6])}
	for i := range b.Mean {
		b.Mean[i] = p[i]
		b.Cov[i][i] = math.Exp(p[3+i])
	}
	return b
}

// stillChange is the relative change of a round that counts as none.
const stillChange = 1e-7

// near reports whether two points are the same for every purpose.
func (p point) near(q point) bool {
	for i := range p {
		scale := 1.0 // logarithms are relative already
		if i < 3 {
			scale = math.Abs(p[i]) + math.Abs(q[i])
		}
		if math.Abs(p[i]-q[i]) > stillChange*scale {
			return false
		}
	}
	return true
}

// finite reports whether every number of the point is one; a step too long can
// leave what numbers hold.
func (p point) finite() bool {
	for _, x := range p {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}

// longest bounds an extrapolation, in steps of EM.
const longest = 1e5

// extrapolate goes on from three points of a sequence that closes in on its
// end: with r the first step and v the change from it to the second, to
// p − 2αr + α²v at α = −|r|/|v|. Where the steps do not shrink, it stays at the
// third point.
func extrapolate(p, once, twice point) point {
	var rr, vv float64
	for i := range p {
		r := once[i] - p[i]
		v := twice[i] - 2*once[i] + p[i]
		rr += r * r
		vv += v * v
	}
	length := math.Sqrt(rr / vv)
	if !(length > 1) || length > longest {
		return twice
	}
	var far point
	for i := range p {
		r := once[i] - p[i]
		v := twice[i] - 2*once[i] + p[i]
		far[i] = p[i] + 2*length*r + length*length*v
	}
	return far
}
