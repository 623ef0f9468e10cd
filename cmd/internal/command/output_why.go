package command

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/clipperhouse/displaywidth"

	"hotroom/advisor"
)

// reasons lays out everything that led to an answer: the rules that fired, the
// rules that did not, and every fact.
func (st style) reasons(a advisor.Advice, w why) string {
	var b strings.Builder
	b.WriteString(st.headline(a))
	b.WriteString(st.paragraph("Score "+whole(w.Score)+" of 100 from "+count(len(w.Rules), "rule")+" and "+count(len(w.Facts), "fact")+".", 0))
	b.WriteString(st.heading("Rules that fired"))
	b.WriteString(st.rules(w.Rules, true))
	b.WriteString(st.heading("Rules that did not"))
	b.WriteString(st.rules(w.Rules, false))
	b.WriteString(st.heading("Facts"))
	b.WriteString(st.factValues(w.Facts))
	return b.String()
}

func (st style) rules(rules []whyRule, fired bool) string {
	var b strings.Builder
	for _, r := range rules {
		if r.Fired == fired {
			b.WriteString(st.rule(r))
		}
	}
	if b.Len() == 0 {
		return st.hanging(st.bullet(), "none", 4)
	}
	return b.String()
}

// rule shows a rule with its condition and the values that made it fire or
// not.
func (st style) rule(r whyRule) string {
	title := safe(r.Rule) + " (" + safe(r.Kind)
	if r.Fired && r.Points != 0 {
		title += ", " + sign(r.Points)
	}
	title += ")"
	if r.Text != "" {
		title += ": " + safe(r.Text)
	}
	text := st.hanging(st.bullet(), title, 4)
	detail := "when " + safe(r.When)
	if len(r.Values) > 0 {
		detail += "; " + strings.Join(safely(r.Values), ", ")
	}
	if len(r.Unknown) > 0 {
		detail += "; unknown: " + strings.Join(safely(r.Unknown), ", ")
	}
	if r.Fault != "" {
		detail += "; broke: " + safe(r.Fault)
	}
	if st.plain {
		return text + detail + ".\n"
	}
	return text + st.hanging("    ", detail, 4)
}

func (st style) factValues(rows []whyRow) string {
	width := 0
	for _, r := range rows {
		width = max(width, displaywidth.String(r.Fact))
	}
	var b strings.Builder
	for _, r := range rows {
		value := safe(factValue(r))
		if st.plain {
			b.WriteString(r.Fact + ": " + value + ".\n")
			continue
		}
		b.WriteString(st.hanging("  "+pad(r.Fact, width)+"  ", value, width+4))
	}
	return b.String()
}

// factValue writes a fact with its unit.
func factValue(r whyRow) string {
	v, number := r.Value.(float64)
	switch {
	case !number:
		return tried(r.Value)
	case isBare(r.Unit):
		return figure(v, 2)
	}
	return figure(v, 2) + " " + r.Unit
}

// isBare reports whether a unit is not written behind its number.
func isBare(unit string) bool { return slices.Contains([]string{"", "count", "share", "money"}, unit) }

// tried writes the value of a fact or an expression.
func tried(value any) string {
	switch v := value.(type) {
	case nil:
		return "unknown"
	case bool:
		if v {
			return "yes"
		}
		return "no"
	case float64:
		return strconv.FormatFloat(math.Round(v*1e4)/1e4+0, 'f', -1, 64)
	case string:
		if v == "" {
			return "(empty)"
		}
		return v
	}
	return "unknown"
}
