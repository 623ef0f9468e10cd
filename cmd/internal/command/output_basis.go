package command

import (
	"fmt"
	"strings"

	"hotroom/advisor"
)

// basis says what an answer rests on: measurements, assumptions, estimates.
func (st style) basis(a advisor.Advice) string {
	return st.heading("Rests on: "+evidenceWord(a.Evidence)) +
		st.paragraphs(evidence(a)) +
		st.list("Assumed, because it was not said", a.Defaults) +
		st.list("Estimated, not stated by anybody", a.Estimated)
}

func (st style) paragraphs(texts []string) string {
	var b strings.Builder
	for _, text := range texts {
		b.WriteString(st.hanging(st.bullet(), text, 4))
	}
	return b.String()
}

func evidenceWord(word string) string {
	switch word {
	case advisor.Measured:
		return "measurements of this case"
	case advisor.Projected:
		return "measurements of this board, projected to this case"
	case advisor.Estimated:
		return "the board's parts alone"
	}
	return safe(word)
}

func evidence(a advisor.Advice) []string {
	if len(a.Runs) == 0 {
		return []string{"no run of this board was measured"}
	}
	list := []string{count(len(a.Runs), "run") + ": " + strings.Join(safely(a.Runs), ", ")}
	d := a.EvidenceDetail
	if d.NearestRun != nil {
		text := "nearest is " + safe(*d.NearestRun)
		if d.PackageGapPercent != nil {
			text += fmt.Sprintf(", %s %% away in package power", whole(*d.PackageGapPercent))
		}
		if d.RoomGapC != nil {
			text += fmt.Sprintf(", %s away in the room", celsius(*d.RoomGapC))
		}
		list = append(list, text)
	}
	if d.UncertaintyRemovedPercent != nil {
		list = append(list, fmt.Sprintf("measuring removed %s %% of the uncertainty", whole(*d.UncertaintyRemovedPercent)))
	}
	return list
}
