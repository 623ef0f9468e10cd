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
		st.run("Assumed, because it was not said", gathered(a.Defaults)) +
		st.run("Estimated, not stated by anybody", a.Estimated)
}

// modelDefault ends the assumptions that are numbers of the model; there are
// many, and people want them in one place.
const modelDefault = ": the model's default"

// gathered puts all of the model's defaults into one item at the end.
func gathered(texts []string) []string {
	var list, keys []string
	for _, text := range texts {
		if key, ok := strings.CutSuffix(text, modelDefault); ok {
			keys = append(keys, key)
			continue
		}
		list = append(list, text)
	}
	if len(keys) > 0 {
		list = append(list, "the model's defaults: "+strings.Join(keys, ", "))
	}
	return list
}

// run writes a section with its items one after another, or nothing.
func (st style) run(title string, items []string) string {
	if st.plain || len(items) == 0 {
		return st.list(title, items)
	}
	return st.heading(title) + st.hanging("  ", strings.Join(safely(items), "; "), 2)
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
