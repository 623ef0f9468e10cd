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

// gathered puts the model's defaults into one item for each part they belong
// to, at the end: "area_cm2 of the board: the model's default" becomes "the
// model's defaults for the board: area_cm2".
func gathered(texts []string) []string {
	var list, parts []string
	keys := map[string][]string{}
	for _, text := range texts {
		rest, isDefault := strings.CutSuffix(text, modelDefault)
		key, part, ofPart := strings.Cut(rest, " of ")
		if !isDefault || !ofPart {
			list = append(list, text)
			continue
		}
		if keys[part] == nil {
			parts = append(parts, part)
		}
		keys[part] = append(keys[part], key)
	}
	for _, part := range parts {
		list = append(list, "the model's defaults for "+part+": "+strings.Join(keys[part], ", "))
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
