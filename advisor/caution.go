package advisor

import (
	"fmt"
	"math"
	"strings"

	"hotroom/advisor/chip"
	"hotroom/knowledge"
	"hotroom/rules"
)

// The cautions that every answer carries.
const (
	makersWin    = "The limits and instructions that the makers of the board, the chip and the other parts state win over this answer, always."
	noGuarantee  = "This is an estimate with a margin, not a guarantee; parts scatter and cases differ. Watch the temperatures of your own build under load."
	unplugFirst  = "Switch off, unplug and wait before working inside mains-powered equipment; leave the power supply closed."
	keepGuardsOn = "Leave every temperature, power and current protection switched on."
)

// cautions lists what the reader must know besides the numbers.
func (a *answer) cautions(judged rules.Judgement) []string {
	list := append(make([]string, 0, 8), makersWin, noGuarantee, unplugFirst, keepGuardsOn)
	for _, c := range [...]string{
		a.throttleCaution(), a.firstPointCaution(), a.tableCaution(), a.conditionsCaution(), a.buildUpCaution(),
	} {
		if c != "" {
			list = append(list, c)
		}
	}
	for _, o := range a.record.outliers {
		list = append(list, fmt.Sprintf("The run %s is %.1f standard deviations away from what the other runs say of this board; it is used all the same: check it.", o.Run.ID, math.Abs(o.Residual)))
	}
	for _, u := range judged.Unjudged {
		list = append(list, fmt.Sprintf("The rule %q was not judged: %s is not known.", u.Rule, strings.Join(u.Facts, ", ")))
	}
	for _, f := range judged.Faults {
		list = append(list, fmt.Sprintf("The rule %q failed (%s: %s), so this answer is not a yes: mend the rule.", f.Rule, f.At, f.What))
	}
	return list
}

// throttleCaution says that nobody knows what the board does when it is hot.
func (a *answer) throttleCaution() string {
	if a.parts.board.Limit.HotSpotC != nil {
		return ""
	}
	return fmt.Sprintf("The maker of the %s states no maximum or throttle temperature: how the board behaves when it is hot is unknown, and no lowering of the clock was assumed.", a.parts.board.Name)
}

func (a *answer) firstPointCaution() string {
	if !a.firstPoint {
		return ""
	}
	return fmt.Sprintf("The figures are at %.2f GHz, the first operating point known of the %s; it must run lower than that, and how much is not known.", a.demand.GHz, a.chip.Name)
}

func (a *answer) tableCaution() string {
	if !a.loss.PastTable {
		return ""
	}
	return fmt.Sprintf("Each phase carries %.0f A, more than the loss table of the stage maker goes to; the loss was continued with the table's end slope.", a.loss.PhaseA)
}

// farPercent is how far the conditions of a loss table may be from the board's
// before the answer says so.
const farPercent = 10

// conditionsCaution compares the voltages of an integrated stage's table with
// the board's. They are only compared: the loss is not scaled to them.
func (a *answer) conditionsCaution() string {
	s := a.parts.stage
	if s.Kind != knowledge.StageIntegrated {
		return ""
	}
	inV := a.parts.board.Regulator.InputV
	if !far(inV, s.VinV) && !far(a.demand.Volts, s.VoutV) {
		return ""
	}
	return fmt.Sprintf("The loss table of the %s was taken at %s V in and %s V out, more than %d %% from this board's %s V and %.2f V; the loss may differ.",
		s.Name, plain(s.VinV), plain(s.VoutV), farPercent, plain(inV), a.demand.Volts)
}

func far(seen, stated float64) bool { return math.Abs(seen/stated-1) > farPercent/100.0 }

// buildUpCaution says how long a test must last to see the limit passed.
func (a *answer) buildUpCaution() string {
	if math.IsNaN(a.minutesToLimit) || a.limitedBy == chip.ByTemperature {
		return ""
	}
	return fmt.Sprintf("From cold the limit is passed after about %.0f minutes of load: a shorter test does not show it.", math.Ceil(a.minutesToLimit))
}
