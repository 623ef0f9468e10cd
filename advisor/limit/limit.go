// Package limit knows the temperatures that the hot spot must stay below, and
// who states each.
package limit

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"hotroom/knowledge"
)

// The kinds of limit.
const (
	Board    = "board"
	Stage    = "stage"
	Laminate = "laminate"
)

// Limit is one temperature with who states it.
type Limit struct {
	ValueC   float64 // °C; NaN where it depends on a temperature that is never reached
	Kind     string
	StatedBy string
	Source   string
}

// StageC gives the hot spot in °C at which the junction, hotter by its
// resistance in K/W times its heat in W, stands a derating in K below its
// maximum in °C.
func StageC(maxC, deratingK, junctionKPerW, stageW float64) float64 {
	return maxC - deratingK - junctionKPerW*stageW
}

// All gives the limits of a board whose phases each make a heat of stageW
// watts in the switching stage (NaN: unknown), lowest first, unknown last.
func All(b *knowledge.Board, s *knowledge.Stage, stageW float64) []Limit {
	limits := []Limit{
		{StageC(s.TempMaxC, s.DeratingC, s.JunctionKPerW, stageW), Stage, "the stage maker", fmt.Sprintf("%s: junction maximum of %g °C, less %g °C of derating and the junction's own rise", s.Source, s.TempMaxC, s.DeratingC)},
		laminate(b),
	}
	if b.Limit.HotSpotC != nil {
		limits = append(limits, Limit{*b.Limit.HotSpotC, Board, "the board maker", b.Source})
	}
	slices.SortStableFunc(limits, func(x, y Limit) int { return cmp.Compare(key(x), key(y)) })
	return limits
}

// key puts unknown limits last.
func key(l Limit) float64 {
	if math.IsNaN(l.ValueC) {
		return math.Inf(1)
	}
	return l.ValueC
}

func laminate(b *knowledge.Board) Limit {
	if slices.Contains(b.Defaulted, "laminate_c") {
		return Limit{b.LaminateC, Laminate, "a default, no maker", "usual maximum operating temperature of FR-4 laminates, common practice, no source"}
	}
	return Limit{b.LaminateC, Laminate, "the board's file", b.Source}
}
