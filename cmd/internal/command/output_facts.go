package command

import (
	"strings"

	"github.com/clipperhouse/displaywidth"
)

// facts lists facts in columns, or one sentence each when plain.
func (st style) facts(rows []factRow) string {
	width := 0
	for _, r := range rows {
		width = max(width, displaywidth.String(r.Name))
	}
	var b strings.Builder
	for _, r := range rows {
		kind := r.Unit
		if r.Type != r.Unit {
			kind = r.Type + ", " + r.Unit
		}
		if st.plain {
			b.WriteString(r.Name + ": " + kind + ": " + r.Meaning + "\n")
			continue
		}
		b.WriteString(st.hanging(st.paint(pad(r.Name, width), bold)+"  ", r.Meaning+" ("+kind+")", width+2))
	}
	return b.String()
}
