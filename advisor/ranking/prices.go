package ranking

import (
	"cmp"
	"math"
	"slices"

	"hotroom/advisor"
)

// byPrice marks the boards that nothing beats on price and kept margin, and
// says of each other board which cheaper one beats it in every respect.
func (r *Ranking) byPrice() {
	shops := map[string][]*Row{} // rows with a price, one list a currency
	for i := range r.Rows {
		if row := &r.Rows[i]; row.Price != nil {
			shops[row.Currency] = append(shops[row.Currency], row)
		}
	}
	for _, rows := range shops {
		slices.SortStableFunc(rows, func(a, b *Row) int { return cmp.Compare(*a.Price, *b.Price) })
		markUnbeaten(rows)
		nameBeaters(rows)
	}
}

// shelf gives the rows at the lowest price of rows that rise in price, and the
// rest.
func shelf(rows []*Row) (same, dearer []*Row) {
	n := 1
	for n < len(rows) && *rows[n].Price == *rows[0].Price {
		n++
	}
	return rows[:n], rows[n:]
}

// markUnbeaten marks the rows of rising price that keep more margin than every
// cheaper one and no less than any at their price. A no is not in the running.
func markUnbeaten(rows []*Row) {
	most := math.Inf(-1) // kept by any cheaper row
	for len(rows) > 0 {
		var same []*Row
		same, rows = shelf(rows)
		best := most
		for _, row := range same {
			if row.Verdict != advisor.No {
				best = max(best, kept(row))
			}
		}
		for _, row := range same {
			row.Unbeaten = row.Verdict != advisor.No && kept(row) == best && best > most
		}
		most = best
	}
}

// nameBeaters finds, for each of rows of rising price, the cheapest row that
// beats it. Only rows that are not beaten themselves need looking at: what beats
// a beater beats all that it beats, and is cheaper.
func nameBeaters(rows []*Row) {
	var strong []*Row // not beaten, rising in price
	for len(rows) > 0 {
		var same []*Row
		same, rows = shelf(rows)
		cheaper := strong
		for _, row := range same {
			if i := slices.IndexFunc(cheaper, func(b *Row) bool { return beats(b, row) }); i >= 0 {
				row.BeatenBy = beaten(row, cheaper[i])
			} else {
				strong = append(strong, row)
			}
		}
	}
}

// beats reports whether a cheaper board is at least as good in verdict, score,
// kept margin and clock, and better in margin or clock.
func beats(b, a *Row) bool {
	return b.Margin.KeptC != nil && *b.Price < *a.Price && standing(b.Verdict) <= standing(a.Verdict) && b.Score >= a.Score &&
		kept(b) >= kept(a) && b.Clock.SustainedGHz >= a.Clock.SustainedGHz &&
		(kept(b) > kept(a) || b.Clock.SustainedGHz > a.Clock.SustainedGHz)
}

// beaten says by how much a board is beaten.
func beaten(a, by *Row) *Beaten {
	b := &Beaten{
		Board: by.Board, Name: by.Name, Price: *a.Price - *by.Price, Score: rounded(by.Score - a.Score),
		SustainedGHz: rounded(by.Clock.SustainedGHz - a.Clock.SustainedGHz),
	}
	if a.Margin.KeptC != nil {
		more := rounded(kept(by) - kept(a))
		b.MarginKeptC = &more
	}
	return b
}

// rounded rounds a difference to the four decimals of the answers.
func rounded(v float64) float64 { return math.Round(v*1e4) / 1e4 }
