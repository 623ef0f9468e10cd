package ranking

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"hotroom/advisor"
)

// mark gives the places and marks what a buyer looks for. The rows are in
// order, and all of them are there.
func (r *Ranking) mark() {
	r.places()
	r.cheapest()
	r.sayCurrencies()
	r.byPrice()
}

// How little two boards may differ to share a place.
const (
	sameClockPercent = 1.0 // of the held clock
	samePoints       = 5.0 // of the score
)

// places numbers the rows; a board that does not differ from the first of its
// place by more than the difference is sure shares that place.
func (r *Ranking) places() {
	first := 0
	for i := range r.Rows {
		if i == 0 || !tied(&r.Rows[first], &r.Rows[i]) {
			first = i
			r.Rows[i].Place = fmt.Sprint(i + 1)
			continue
		}
		shared := fmt.Sprintf("%d=", first+1)
		r.Rows[first].Place, r.Rows[i].Place = shared, shared
	}
}

// tied reports whether two boards cannot be told apart: same verdict, about the
// same clock and score, and expected margins that differ by no more than the
// standard uncertainty of their difference.
func tied(a, b *Row) bool {
	if a.Verdict != b.Verdict || math.Abs(a.Score-b.Score) > samePoints ||
		math.Abs(a.Clock.SustainedGHz/b.Clock.SustainedGHz-1) > sameClockPercent/100 {
		return false
	}
	if a.Margin.ExpectedC == nil || b.Margin.ExpectedC == nil {
		return a.Margin.ExpectedC == nil && b.Margin.ExpectedC == nil
	}
	unsure := math.Hypot(*a.HotSpot.UncertaintyC, *b.HotSpot.UncertaintyC)
	return math.Abs(*a.Margin.ExpectedC-*b.Margin.ExpectedC) <= unsure
}

// cheapest marks the cheapest board that is a yes, the better one of two at a
// price; where prices are in several currencies, one in each.
func (r *Ranking) cheapest() {
	best := map[string]*Row{}
	for i := range r.Rows {
		row := &r.Rows[i]
		if row.Verdict != advisor.Yes || row.Price == nil {
			continue
		}
		if b := best[row.Currency]; b == nil || *row.Price < *b.Price {
			best[row.Currency] = row
		}
	}
	for _, row := range best {
		row.Cheapest = true
	}
}

// sayCurrencies notes that prices in several currencies are not compared.
func (r *Ranking) sayCurrencies() {
	var list []string
	for i := range r.Rows {
		if row := &r.Rows[i]; row.Price != nil && row.Currency != "" && !slices.Contains(list, row.Currency) {
			list = append(list, row.Currency)
		}
	}
	if len(list) > 1 {
		slices.Sort(list)
		r.Notes = append(r.Notes, fmt.Sprintf(
			"Prices are in %s: only prices in one currency are compared with each other, and a budget is taken as a number in each.", strings.Join(list, " and ")))
	}
}

// narrow leaves out what was not asked for, and says how much.
func (r *Ranking) narrow(o Options) {
	dear, unpriced, other := 0, 0, 0
	r.Rows = slices.DeleteFunc(r.Rows, func(row Row) bool {
		switch {
		case o.Budget != nil && row.Price == nil:
			unpriced++
		case o.Budget != nil && *row.Price > *o.Budget:
			dear++
		case len(o.Only) > 0 && !slices.Contains(o.Only, row.Verdict):
			other++
		default:
			return false
		}
		return true
	})
	r.hidden(dear, "it costs more than the budget", "they cost more than the budget")
	r.hidden(unpriced, "it has no known price to hold the budget against", "they have no known price to hold the budget against")
	r.hidden(other, "it has another verdict than asked for", "they have another verdict than asked for")
	if o.Top > 0 && len(r.Rows) > o.Top {
		r.hidden(len(r.Rows)-o.Top, "it comes after the last one shown", "they come after the last one shown")
		r.Rows = r.Rows[:o.Top]
	}
}

// hidden notes how many boards are not shown and why.
func (r *Ranking) hidden(boards int, one, more string) {
	switch {
	case boards == 1:
		r.Notes = append(r.Notes, "1 board is not shown: "+one+".")
	case boards > 1:
		r.Notes = append(r.Notes, fmt.Sprintf("%d boards are not shown: %s.", boards, more))
	}
}
