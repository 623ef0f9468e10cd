package sentence

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"hotroom/advisor"
)

// relatives point at a board of the lines before instead of naming one.
var relatives = []struct {
	which   string
	pattern pattern
}{
	{"cheaper", "?the cheaper|cheapest|cheep|cheaper ?one|board|option|of ?the ?two ?them ?those"},
	{"dearer", "?the dearer|pricier|dearest|priciest|costlier ?one|board|option|of ?the ?two ?them ?those"},
	{"dearer", "?the more|most expensive|costly ?one|board|option|of ?the ?two ?them ?those"},
	{"first", "the first|former ?one|board|option"},
	{"second", "the second|latter ?one|board|option"},
	{"last", "the last|third one|board|option"},
	{"other", "the other|remaining ?one|board|option"},
}

// relative finds the board that "the cheaper one" points at among those of the
// line before; where that cannot be told it is asked back.
func (r *reader) relative() {
	if len(r.found[board]) > 0 || r.cue != nil && (r.cue.kind == Which && !r.followsChoice() || r.cue.kind == Compare) {
		return
	}
	for _, rel := range relatives {
		from, to, ok := rel.pattern.find(r.tokens)
		if !ok || rel.which == "cheaper" && to-from < 2 && !r.followsChoice() {
			continue
		}
		text := r.text(from, to)
		r.use(from, to)
		if r.cue != nil && r.cue.kind == Which {
			r.cue = nil
		}
		r.point(rel.which, text)
		return
	}
}

// followsChoice reports whether the line before put boards side by side.
func (r *reader) followsChoice() bool { return len(r.context.Boards) > 1 }

func (r *reader) point(which, text string) {
	boards := r.context.Boards
	if len(boards) < 2 {
		r.ask(r.noneToPoint(which, text))
		return
	}
	id := ""
	switch which {
	case "first":
		id = boards[0]
	case "second":
		id = boards[1]
	case "last":
		id = boards[len(boards)-1]
	case "cheaper", "dearer":
		id = r.names.byPrice(boards, which == "dearer")
	}
	if id == "" {
		r.ask(&advisor.Refusal{
			Kind: advisor.Ambiguous, Field: board, What: fmt.Sprintf("%q could be any of them", text),
			Mend: "say which: " + strings.Join(boards, ", "), Candidates: boards,
		})
		return
	}
	r.find(board, find{ids: []string{id}, text: text, how: r.names.priced(id)})
}

// noneToPoint asks for a name where no boards are known to choose among; the
// choices are the boards on the other side of the price of the known one.
func (r *reader) noneToPoint(which, text string) *advisor.Refusal {
	refusal := &advisor.Refusal{
		Kind: advisor.Ambiguous, Field: board, What: fmt.Sprintf("it is not clear which board %q is", text), Mend: "name it",
	}
	price := r.names.price(r.known.Board)
	if price == nil || which != "cheaper" && which != "dearer" {
		return refusal
	}
	socket := r.names.socket(thing{board, r.known.Board})
	for _, b := range r.names.base.Boards {
		if b.Price != nil && b.Socket == socket && (which == "cheaper" && *b.Price < *price || which == "dearer" && *b.Price > *price) {
			refusal.Candidates = append(refusal.Candidates, b.ID)
		}
	}
	if len(refusal.Candidates) > 0 {
		refusal.Mend = "say which: " + strings.Join(refusal.Candidates, ", ")
	}
	return refusal
}

// byPrice gives the one cheapest or dearest board, or "" when prices are
// unknown, equal or in several currencies.
func (n *Names) byPrice(ids []string, dearest bool) string {
	sorted := slices.Clone(ids)
	currency := ""
	for _, id := range ids {
		b, ok := n.base.Board(id)
		if !ok || b.Price == nil || currency != "" && b.Currency != currency {
			return ""
		}
		currency = b.Currency
	}
	slices.SortStableFunc(sorted, func(a, b string) int { return cmp.Compare(*n.price(a), *n.price(b)) })
	if dearest {
		slices.Reverse(sorted)
	}
	if *n.price(sorted[0]) == *n.price(sorted[1]) {
		return ""
	}
	return sorted[0]
}

// price gives a board's price in its own currency, or nil.
func (n *Names) price(id string) *float64 {
	if b, ok := n.base.Board(id); ok {
		return b.Price
	}
	return nil
}

func (n *Names) priced(id string) string {
	b, ok := n.base.Board(id)
	if !ok || b.Price == nil {
		return "of the boards before"
	}
	return money(*b.Price, b.Currency)
}
