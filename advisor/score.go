package advisor

import "math"

// Score sums up predictions.
type Score struct {
	Left         string
	Evidence     string // measured, projected, estimated, or "all"
	Runs         int
	MeanAbsC     float64 // mean absolute error, K
	BiasC        float64 // mean of predicted less measured, K
	CoverPercent float64 // share within the 90 % interval
	AbovePercent float64 // share above the one-sided 95 % bound
	WidthC       float64 // mean width of the 90 % interval, K
	Unsettled    int     // predicted not to settle; not in the figures above
}

// Scores sums up predictions by how they were made and by evidence word, then
// all together; lines without runs are left out.
func Scores(all []Prediction) []Score {
	var list []Score
	for _, left := range []string{LeaveRun, LeaveBoard} {
		for _, word := range []string{Measured, Projected, Estimated, "all"} {
			if s := score(all, left, word); s.Runs+s.Unsettled > 0 {
				list = append(list, s)
			}
		}
	}
	return list
}

func score(all []Prediction, left, word string) Score {
	s := Score{Left: left, Evidence: word}
	for i := range all {
		p := &all[i]
		switch {
		case p.Left != left || (word != "all" && p.Evidence != word):
		case !p.Settles:
			s.Unsettled++
		default:
			s.add(p)
		}
	}
	n := float64(max(s.Runs, 1))
	s.MeanAbsC /= n
	s.BiasC /= n
	s.CoverPercent *= 100 / n
	s.AbovePercent *= 100 / n
	s.WidthC /= n
	return s
}

func (s *Score) add(p *Prediction) {
	s.Runs++
	s.MeanAbsC += math.Abs(p.ErrorC())
	s.BiasC += p.ErrorC()
	s.WidthC += p.HighC - p.LowC
	if p.Within() {
		s.CoverPercent++
	}
	if p.Above() {
		s.AbovePercent++
	}
}
