package advisor

import (
	"fmt"
	"strconv"

	"hotroom/advisor/lookup"
	"hotroom/knowledge"
)

// within refuses a value outside a range, ends included.
func within(field, what string, value, low, high float64, unit string) error {
	if value >= low && value <= high {
		return nil
	}
	return &Refusal{
		Kind: BadValue, Field: field,
		What: fmt.Sprintf("%s of %s %s is not possible here", what, plain(value), unit),
		Mend: fmt.Sprintf("give one from %s to %s %s", plain(low), plain(high), unit),
	}
}

// capWithin refuses a cap that is given and not above zero, or absurdly high.
func capWithin(field, what string, value *float64, high float64, unit string) error {
	if value == nil || (*value > 0 && *value <= high) {
		return nil
	}
	return &Refusal{
		Kind: BadValue, Field: field,
		What: fmt.Sprintf("%s of %s %s is not possible here", what, plain(*value), unit),
		Mend: fmt.Sprintf("give one above 0 and up to %s %s", plain(high), unit),
	}
}

func firstError(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}

// unknown refuses a word that the knowledge does not hold, with what may have
// been meant.
func unknown(field, given string, entries []lookup.Entry) error {
	if given == "" {
		return &Refusal{Kind: Missing, Field: field, What: "the question names no " + field + " and the knowledge has no default", Mend: "name one"}
	}
	match := lookup.Find(given, entries)
	candidates := match.Candidates
	if match.ID != "" {
		candidates = []string{match.ID}
	}
	return &Refusal{
		Kind: NotFound, Field: field, What: fmt.Sprintf("the knowledge holds no %s %q", field, given),
		Mend: "take one that it holds", Candidates: candidates,
	}
}

// boardIDs lists the boards with a socket, all of them for "".
func boardIDs(boards []knowledge.Board, socket string) []string {
	var ids []string
	for _, b := range boards {
		if socket == "" || b.Socket == socket {
			ids = append(ids, b.ID)
		}
	}
	return ids
}

// NoChip refuses a question about several boards that names no chip.
func NoChip(base *knowledge.Base) *Refusal {
	return &Refusal{Kind: Missing, Field: "chip", What: "the question names no chip", Mend: "name one", Candidates: chipIDs(base.Chips, "")}
}

// chipIDs lists the chips for a socket, all of them for "".
func chipIDs(chips []knowledge.Chip, socket string) []string {
	var ids []string
	for _, k := range chips {
		if socket == "" || k.Socket == socket {
			ids = append(ids, k.ID)
		}
	}
	return ids
}

// plain writes a number without an exponent and without needless zeros.
func plain(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
