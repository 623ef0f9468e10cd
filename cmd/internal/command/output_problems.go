package command

import (
	"strings"

	"github.com/clipperhouse/displaywidth"

	"hotroom/advisor"
	"hotroom/knowledge/document"
)

// mostProblems is how many mistakes are shown to people at once; the rest are
// counted.
const mostProblems = 50

// problems lists mistakes and warnings with their places and source lines,
// and counts them.
func (st style) problems(list document.Problems) string {
	var b strings.Builder
	mistakes := 0
	for i, p := range list {
		if !p.Warning {
			mistakes++
		}
		if i < mostProblems {
			b.WriteString(safe(p.String()) + "\n" + st.excerpt(p))
		}
	}
	if len(list) == 0 {
		return ""
	}
	b.WriteString(count(mistakes, "mistake") + " and " + count(len(list)-mistakes, "warning"))
	if len(list) > mostProblems {
		b.WriteString(", of which the first " + whole(mostProblems) + " are shown")
	}
	b.WriteString("\n")
	return b.String()
}

// excerpt shows the source line with a caret under the column. A long line is
// cut so that the caret stays in sight.
func (st style) excerpt(p document.Problem) string {
	if p.Source == "" || p.At.Column < 1 || st.plain {
		return ""
	}
	at := min(p.At.Column-1, len(p.Source))
	before, after := safe(tail(p.Source[:at])), safe(p.Source[at:min(at+mostShown, len(p.Source))])
	room := st.width - 8
	if w := displaywidth.String(before); w > room*2/3 {
		before = "…" + lastColumns(before, room/2)
	}
	line := displaywidth.TruncateString(before+after, room, "…")
	caret := strings.Repeat(" ", displaywidth.String(before)) + st.paint("^", bold, red)
	return "    " + line + "\n    " + caret + "\n"
}

// mostShown is how many bytes of a line are looked at on either side of a
// caret: more than the widest terminal shows.
const mostShown = 1000

// tail keeps the end of a long text.
func tail(text string) string {
	if len(text) <= mostShown {
		return text
	}
	return "…" + text[len(text)-mostShown:]
}

// lastColumns keeps the end of a text.
func lastColumns(text string, columns int) string {
	over := displaywidth.String(text) - columns
	for g := displaywidth.StringGraphemes(text); over > 0 && g.Next(); {
		over -= g.Width()
		text = text[len(g.Value()):]
	}
	return text
}

// sound says what was read when nothing is wrong with it.
func (st style) sound(snapshot *advisor.Snapshot) string {
	base := snapshot.Base()
	return st.paragraph("The knowledge and the rules are sound: "+strings.Join([]string{
		count(len(base.Boards), "board"), count(len(base.Chips), "chip"),
		count(len(base.Stages), "power stage"), count(len(base.Runs), "run"),
	}, ", ")+".", 0)
}
