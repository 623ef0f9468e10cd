package command

import (
	"strings"

	"hotroom/advisor"
)

// advice lays an answer out for people: the answer first, then the numbers,
// why, what it rests on, and what to mind.
func (st style) advice(a advisor.Advice) string {
	var b strings.Builder
	b.WriteString(st.headline(a))
	b.WriteString("\n")
	if scale := st.scale(a); scale != "" {
		b.WriteString(scale + "\n")
	}
	b.WriteString(st.figures(a))
	b.WriteString(st.why(a))
	b.WriteString(st.changes(a.Changes))
	b.WriteString(st.basis(a))
	b.WriteString(st.list("Keep in mind", a.Cautions))
	b.WriteString("\n" + st.paint(strings.TrimSuffix(st.paragraph(versions(a.Versions), 2), "\n"), dim) + "\n")
	return b.String()
}

// verdictWord says a verdict in words.
func verdictWord(verdict string) string {
	switch verdict {
	case advisor.Yes:
		return "Yes"
	case advisor.WithCare:
		return "With care"
	case advisor.No:
		return "No"
	case advisor.Unknown:
		return "Unknown"
	}
	return verdict
}

func verdictColour(verdict string) string {
	switch verdict {
	case advisor.Yes:
		return green
	case advisor.No:
		return red
	}
	return yellow
}

// headline puts the verdict in front of the sentence, unless the sentence
// begins with it.
func (st style) headline(a advisor.Advice) string {
	word, text := safe(verdictWord(a.Verdict)), safe(a.Headline)
	if rest, ok := cutWord(text, word); ok {
		text = rest
	} else {
		word += ":"
	}
	wrapped := st.paragraph(word+spaceBefore(text), 0)
	return st.paint(word, bold, verdictColour(a.Verdict)) + strings.TrimPrefix(wrapped, word)
}

func spaceBefore(text string) string {
	if text == "" || strings.HasPrefix(text, ":") || strings.HasPrefix(text, ",") || strings.HasPrefix(text, ".") {
		return text
	}
	return " " + text
}

// cutWord cuts a word off the front of a text, if it is a word there.
func cutWord(text, word string) (rest string, ok bool) {
	if len(text) < len(word) || !strings.EqualFold(text[:len(word)], word) {
		return text, false
	}
	rest = text[len(word):]
	if rest != "" && !strings.ContainsAny(rest[:1], " :,.;") {
		return text, false
	}
	return rest, true
}

// heading starts a section.
func (st style) heading(text string) string {
	if st.plain {
		return "\n" + text + ".\n"
	}
	return "\n" + st.paint(strings.TrimSuffix(st.paragraph(text, 2), "\n"), bold) + "\n"
}

// list writes a section with an item for each text, or nothing.
func (st style) list(title string, items []string) string {
	if len(items) == 0 {
		return ""
	}
	var b strings.Builder
	b.WriteString(st.heading(title))
	for _, item := range safely(items) {
		b.WriteString(st.hanging(st.bullet(), item, 4))
	}
	return b.String()
}

func (st style) bullet() string {
	if st.plain {
		return ""
	}
	return "  - "
}

func (st style) why(a advisor.Advice) string {
	var b strings.Builder
	b.WriteString(st.heading("Why: score " + whole(a.Score) + " of 100"))
	if len(a.Findings) == 0 {
		b.WriteString(st.hanging(st.bullet(), "no rule had anything to say", 4))
	}
	for _, f := range a.Findings {
		label := "  " + strings.Repeat(" ", max(0, 4-len(st.points(f)))) + st.points(f) + "  "
		if st.plain {
			label = capital(safe(f.Kind)) + ", " + st.points(f) + " points: "
		}
		b.WriteString(st.hanging(label, safe(f.Text), 8))
	}
	return b.String()
}

func (st style) points(f advisor.Finding) string {
	if f.Kind == "veto" && f.Points == 0 {
		return "veto"
	}
	return sign(f.Points)
}

// changes says what would turn the answer into a yes.
func (st style) changes(changes []advisor.Change) string {
	var items []string
	for _, c := range changes {
		outcome := strings.ToLower(verdictWord(c.Verdict))
		if c.MarginKeptC != nil {
			outcome += ", " + keptMargin(*c.MarginKeptC)
		}
		items = append(items, sentenceOf(c.Text)+" Then: "+outcome+".")
	}
	return st.list("What would make it a yes", items)
}

// sentenceOf ends a text like a sentence.
func sentenceOf(text string) string {
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".!?") {
		return text
	}
	return text + "."
}

func versions(v advisor.Versions) string {
	return safe("hotroom " + v.Program + ", knowledge " + short(v.Knowledge) + ", rules " + short(v.Rules))
}

// short cuts a content hash to what tells two apart by eye.
func short(hash string) string {
	if len(hash) < 40 || strings.ContainsAny(hash, " /.") {
		return hash
	}
	return hash[:12]
}
