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

// Limits are those of one board, worded once for all its answers.
type Limits struct {
	stage *knowledge.Stage
	each  []Limit // the stage's without its value
}

// Of puts together the limits of a board with a power stage.
func Of(b *knowledge.Board, s *knowledge.Stage) *Limits {
	each := []Limit{
		{math.NaN(), Stage, "the stage maker", fmt.Sprintf("%s: junction maximum of %g °C, less %g °C of derating and the junction's own rise", s.Source, s.TempMaxC, s.DeratingC)},
		laminate(b),
	}
	if b.Limit.HotSpotC != nil {
		each = append(each, Limit{*b.Limit.HotSpotC, Board, "the board maker", b.Source})
	}
	return &Limits{s, each}
}

// at gives one limit where each phase makes a heat of stageW watts.
func (l *Limits) at(i int, stageW float64) Limit {
	one := l.each[i]
	if one.Kind == Stage {
		one.ValueC = StageC(l.stage.TempMaxC, l.stage.DeratingC, l.stage.JunctionKPerW, stageW)
	}
	return one
}

// All gives the limits where each phase makes a heat of stageW watts in the
// switching stage (NaN: unknown), lowest first, unknown last.
func (l *Limits) All(stageW float64) []Limit {
	all := make([]Limit, len(l.each))
	for i := range all {
		all[i] = l.at(i, stageW)
	}
	slices.SortStableFunc(all, func(x, y Limit) int { return cmp.Compare(key(x), key(y)) })
	return all
}

// Lowest gives the value in °C and the kind of the first of All.
func (l *Limits) Lowest(stageW float64) (valueC float64, kind string) {
	lowest := l.at(0, stageW)
	for i := 1; i < len(l.each); i++ {
		if one := l.at(i, stageW); key(one) < key(lowest) {
			lowest = one
		}
	}
	return lowest.ValueC, lowest.Kind
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
