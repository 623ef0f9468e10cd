package advisor

import (
	"strings"
	"testing"

	"hotroom/rules/facts"
)

// What the rules may be asked of before the heat is balanced (see rules.Barred)
// is the same afterwards, wherever the clock is not lowered for heat.
func TestColdFactsNeedNoHeat(t *testing.T) {
	s, problems, err := Open(Source{}, "test")
	if s == nil {
		t.Fatal(problems, err)
	}
	warm := map[string]bool{"board.phase_a": true, "evidence.uncertainty_removed_percent": true}
	compared := 0
	for _, b := range s.base.Boards {
		for _, k := range s.base.Chips {
			room := 21.0
			sc, err := s.resolve(Question{Board: b.ID, Chip: k.ID, RoomC: &room})
			if err != nil {
				continue
			}
			after := work(sc)
			if !after.settles || after.throttled(sc.parts.board) {
				continue
			}
			compared++
			var before answer
			drawn := estimate{demand: sc.allowed.Demand}
			before.begin(sc, sustained{estimate: drawn, limitedBy: sc.allowed.LimitedBy, firstPoint: sc.allowed.FirstPoint, held: drawn})
			cold := facts.Facts{Board: before.boardFacts(), Chip: before.chipFacts()}
			before.gatherCold(&cold)
			all := after.gather()
			for _, f := range facts.List() {
				group, _, _ := strings.Cut(f.Name, ".")
				if !strings.Contains("board chip asked clock evidence value", group) || warm[f.Name] || f.Unknown(&cold) && f.Unknown(&all) {
					continue
				}
				if got, want := f.Value(&cold), f.Value(&all); got != want {
					t.Errorf("%s with %s: %s is %v before the heat and %v after it", b.ID, k.ID, f.Name, got, want)
				}
			}
		}
	}
	if compared < 20 {
		t.Errorf("%d answers were compared", compared)
	}
}
