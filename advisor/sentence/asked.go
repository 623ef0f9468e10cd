package sentence

import (
	"fmt"
	"slices"

	"hotroom/advisor"
)

// Kind is which kind of answer a sentence wants.
type Kind string

// The kinds of answer.
const (
	YesNo   Kind = "yes-no"  // will it hold?
	Which   Kind = "which"   // which board?
	Compare Kind = "compare" // these boards side by side
	HowHot  Kind = "how-hot" // what temperature?
	HowFar  Kind = "how-far" // up to which room or power?
	Why     Kind = "why"     // what led to the last answer?
	Changes Kind = "changes" // what would change the last answer?
)

// What a question of how far goes over.
const (
	OverRoom  = "room"  // room temperature
	OverPower = "power" // package power
)

// Asked is a question with the kind of answer that is wanted.
type Asked struct {
	Question advisor.Question
	// Boards are the boards to compare, in the order named; otherwise nil.
	Boards []string
	// Kind is empty where nothing was said of it.
	Kind Kind
	// Over is what "how far" goes over: OverRoom, OverPower, or empty for both.
	Over string
	// Budget is the highest price for a board, in the knowledge's currency.
	Budget *float64
}

// Carry lays what is asked now over what was asked before, as a conversation
// goes: "and at 35?" keeps the boards and the kind of answer, another chip
// drops a board that does not take it. The notes say what was dropped.
func (n *Names) Carry(before, now Asked) (Asked, []string) {
	known, notes := n.fitting(before.Question, now.Question)
	out := now
	out.Question, _ = Over(now.Question, known)
	if !before.about(now) {
		out.Kind = orYesNo(now.Kind)
		if out.Kind == Compare || out.Kind == Which {
			out.Question.Board = ""
		}
		return out, notes
	}
	out.Boards = n.taking(before.Boards, out.Question.Chip)
	out.carryKind(before)
	return out, notes
}

// about reports whether a sentence goes on about the boards of the one before:
// it names none and does not ask for another kind of choice.
func (a Asked) about(now Asked) bool {
	return len(now.Boards) == 0 && now.Question.Board == "" && now.Kind != Compare && now.Kind != Which
}

func (a *Asked) carryKind(before Asked) {
	if a.Kind == Why || a.Kind == Changes {
		return
	}
	if len(a.Boards) > 1 && a.Question.Board == "" {
		a.Kind = Compare
		return
	}
	a.Boards = nil
	if a.Kind == "" {
		a.Kind, a.Over = orYesNo(before.Kind), before.Over
	}
	if a.Kind == Which {
		a.Question.Board = ""
		if a.Budget == nil {
			a.Budget = before.Budget
		}
	}
	if a.Kind == Compare {
		a.Kind = YesNo
	}
}

func orYesNo(k Kind) Kind {
	if k == "" {
		return YesNo
	}
	return k
}

// taking keeps the boards that take a chip.
func (n *Names) taking(boards []string, chipID string) []string {
	return slices.DeleteFunc(slices.Clone(boards), func(id string) bool {
		return chipID != "" && !n.Fit(id, chipID)
	})
}

// fitting gives what is known, without the board or chip that the other half
// of a new question leaves no place for, and without another chip's clock.
func (n *Names) fitting(known, now advisor.Question) (advisor.Question, []string) {
	var notes []string
	was := known.Chip
	switch {
	case now.Board != "" && now.Chip == "" && known.Chip != "" && !n.Fit(now.Board, known.Chip):
		notes = append(notes, fmt.Sprintf("the %s does not fit the %s and was forgotten", known.Chip, now.Board))
		known.Chip = ""
	case now.Chip != "" && now.Board == "" && known.Board != "" && !n.Fit(known.Board, now.Chip):
		notes = append(notes, fmt.Sprintf("the %s does not take the %s and was forgotten", known.Board, now.Chip))
		known.Board = ""
	}
	if now.Chip != "" && now.Chip != was && known.GHz != nil && now.GHz == nil {
		notes = append(notes, fmt.Sprintf("the target of %s was the %s's and was forgotten", Value(ghz, *known.GHz), was))
		known.GHz = nil
	}
	return known, notes
}
