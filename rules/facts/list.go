package facts

import (
	"math"
	"slices"
	"strings"
)

// Fact describes one leaf of Facts and reads it out of any Facts.
type Fact struct {
	Name    string // as rules write it: "margin.kept_c"
	Type    Type
	Unit    string // "K", "°C", "word", "yes/no" …
	Meaning string

	place int // of a word among Words, of anything else among Numbers

	// One of these finds the field; the fact's type says which.
	number func(*Facts) *float64
	word   func(*Facts) *string
	yesNo  func(*Facts) *bool
}

// Type is the type of a fact.
type Type string

// The types of facts.
const (
	Number Type = "number"
	Word   Type = "word"
	YesNo  Type = "yes/no"
)

// group is one field of Facts with its leaves.
type group struct {
	name  string
	facts []Fact
}

// List gives every fact in the order of the struct.
func List() []Fact {
	var all []Fact
	for i := range groups {
		all = append(all, groups[i].facts...)
	}
	return slices.Clip(all)
}

// Find gives the fact of a full name.
func Find(name string) (Fact, bool) {
	before, leaf, _ := strings.Cut(name, ".")
	return FindIn(before, leaf)
}

// FindIn gives the fact of a group by its own name.
func FindIn(before, leaf string) (Fact, bool) {
	for i := range groups {
		if groups[i].name != before {
			continue
		}
		for j := range groups[i].facts {
			if f := &groups[i].facts[j]; f.Name[len(before)+1:] == leaf {
				return *f, true
			}
		}
	}
	return Fact{}, false
}

// Place gives where a word stands among Words, and anything else among Numbers.
func (f Fact) Place() int { return f.place }

// Number reads a number in the fact's unit; NaN when it is unknown.
func (f Fact) Number(from *Facts) float64 { return *f.number(from) }

// Word reads a word; empty where there is nothing to say.
func (f Fact) Word(from *Facts) string { return *f.word(from) }

// YesNo reads a yes or no.
func (f Fact) YesNo(from *Facts) bool { return *f.yesNo(from) }

// Value reads the fact as a float64, a string or a bool.
func (f Fact) Value(from *Facts) any {
	switch f.Type {
	case Number:
		return f.Number(from)
	case YesNo:
		return f.YesNo(from)
	}
	return f.Word(from)
}

// Unknown reports whether the fact is a number that nobody knows.
func (f Fact) Unknown(from *Facts) bool {
	return f.Type == Number && math.IsNaN(f.Number(from))
}

// Set writes a float64, a string or a bool into the facts, and reports
// whether the value is of the fact's type.
func (f Fact) Set(into *Facts, value any) bool {
	switch v := value.(type) {
	case float64:
		return put(f.number, into, v)
	case string:
		return put(f.word, into, v)
	case bool:
		return put(f.yesNo, into, v)
	}
	return false
}

func oneIf(yes bool) float64 {
	if yes {
		return 1
	}
	return 0
}

func put[T any](field func(*Facts) *T, into *Facts, value T) bool {
	if field == nil {
		return false
	}
	*field(into) = value
	return true
}
