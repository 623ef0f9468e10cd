package sentence

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
)

// price takes an amount of money for the budget, where the knowledge has
// prices in that currency and the words do not say that something costs it.
func (r *reader) price(a amount) {
	known := r.names.currencies()
	costs := r.back(a.from, 4, " me about around only just is was at for is the ", "costs cost costing priced paid sells selling sold") >= 0
	if costs || len(known) > 0 && !slices.Contains(known, a.unit) {
		return
	}
	r.setBudget(a, a.unit)
}

// barePrice: "budget is 200", and "under 200" where a board is looked for.
func (r *reader) barePrice(a amount) bool {
	spending := r.back(a.from, 4, " is of around about up to at max the for s under below maximum only just ", "budget spend spending pay price priced afford") >= 0
	under := r.before(a.from, "under below max maximum than within") || r.before(a.from, "to") && r.before(a.from-1, "up")
	if v, err := strconv.ParseFloat(a.number, 64); !spending && (!under || r.cue == nil || r.cue.kind != Which || err != nil || v <= warmestRoomC) {
		return false
	}
	r.setBudget(a, "")
	return true
}

// setBudget keeps the price and says so.
func (r *reader) setBudget(a amount, currency string) {
	value, err := strconv.ParseFloat(a.number, 64)
	if err != nil || value < 0 {
		return
	}
	if known := r.names.currencies(); currency == "" && len(known) == 1 {
		currency = known[0]
	}
	r.use(a.from, a.to)
	r.useBack(a.from-1, "max maximum budget")
	if at := r.back(a.from, 4, " is of around about up to at max the for s ", "budget"); at >= 0 {
		r.use(at, at+1)
	}
	r.useRun(a.to, "max maximum budget")
	if r.out.Budget != nil && *r.out.Budget != value {
		r.ask(twoValues("budget", money(*r.out.Budget, currency), money(value, currency)))
		return
	}
	if r.out.Budget == nil {
		r.take("budget %s", money(value, currency))
	}
	r.out.Budget = &value
}

func money(value float64, currency string) string {
	return strings.TrimSpace(fmt.Sprintf("%g %s", value, currency))
}

// currencies lists the currencies of the boards' prices.
func (n *Names) currencies() []string {
	var list []string
	for _, b := range n.base.Boards {
		if b.Price != nil && b.Currency != "" && !slices.Contains(list, b.Currency) {
			list = append(list, b.Currency)
		}
	}
	return list
}
