package command

import (
	"cmp"
	"math"
	"slices"

	"hotroom/advisor"
	"hotroom/advisor/comparison"
)

// exchange carries the difference between two boards to their parts, the
// largest first, then sums up.
func (st style) exchange(rows []comparison.Column, x *advisor.Exchange) string {
	from, to := named(rows, x.From), named(rows, x.To)
	text := st.heading("Which parts make the difference, from the " + safe(from.Name) + " to the " + safe(to.Name))
	text += st.hanging("  ", "Each part exchanged alone, at the clock that the power limits allow; + is hotter.", 2)
	var lines [][2]string
	for _, p := range byWeight(x.Parts) {
		what := safe(p.Part + ": " + p.From + " → " + p.To)
		if p.DeltaC == nil {
			what += " (no steady temperature to tell it by)"
		}
		lines = append(lines, [2]string{delta(p.DeltaC), what})
	}
	if len(lines) == 0 {
		lines = append(lines, [2]string{delta(x.PartsC), "the two are built alike"})
	}
	return text + st.deltas(append(lines, sums(x)...))
}

// sums says what the parts make together, what the runs add, and the whole.
func sums(x *advisor.Exchange) [][2]string {
	if x.TotalC == nil {
		return [][2]string{{unknownFigure, "in all: one of the two does not settle at that clock"}}
	}
	var lines [][2]string
	if len(x.Parts) > 1 {
		text := "all of them together"
		if x.PartsC != nil && weighs(x.TogetherC) {
			text += "; summed one by one they would make " + delta(number(*x.PartsC-*x.TogetherC))
		}
		lines = append(lines, [2]string{delta(x.PartsC), text})
	}
	if weighs(x.LearnedC) {
		lines = append(lines, [2]string{delta(x.LearnedC), "what the measured runs say beyond the parts"})
	}
	return append(lines, [2]string{delta(x.TotalC), "in all"})
}

func number(v float64) *float64 { return &v }

// byWeight orders parts by how much they change, those that cannot be told
// last.
func byWeight(parts []advisor.Exchanged) []advisor.Exchanged {
	sorted := slices.Clone(parts)
	slices.SortStableFunc(sorted, func(a, b advisor.Exchanged) int { return cmp.Compare(weight(b.DeltaC), weight(a.DeltaC)) })
	return sorted
}

func weight(deltaC *float64) float64 {
	if deltaC == nil {
		return -1
	}
	return math.Abs(*deltaC)
}

// weighs reports whether a difference shows at all, to 0.1 °C.
func weighs(deltaC *float64) bool { return deltaC != nil && math.Abs(*deltaC) >= 0.05 }

// delta writes a difference in temperature with its sign.
func delta(deltaC *float64) string {
	if deltaC == nil {
		return unknownFigure
	}
	text := fixed(deltaC, 1, "")
	if *deltaC >= 0.05 {
		text = "+" + text
	}
	return text + " °C"
}

// deltas lists differences, set to the right, with what makes them.
func (st style) deltas(lines [][2]string) string {
	widest, text := 0, ""
	for _, l := range lines {
		widest = max(widest, columnsOf(l[0]))
	}
	for _, l := range lines {
		if st.plain {
			text += l[0] + ": " + l[1] + "\n"
			continue
		}
		text += st.hanging(padLeft(l[0], widest+2)+"  ", l[1], widest+4)
	}
	return text
}
