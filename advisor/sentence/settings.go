package sentence

import (
	"hotroom/advisor"
)

// Setting is one value of a question under its flag's name, in words.
type Setting struct{ Name, Value string }

// Settings lists the names of a question's values in their usual order: the
// flags of the command line and the parameters of a URL.
func Settings() []string {
	return []string{
		board, chip, room, enclosure, cooler, load, setup,
		power, current, ghz, graphics, altitude,
	}
}

// Field gives the text behind a name, or nil when there is no such value.
func (s *Spoken) Field(name string) *string {
	switch name {
	case board:
		return &s.Board
	case chip:
		return &s.Chip
	case room:
		return &s.Room
	case enclosure:
		return &s.Enclosure
	case cooler:
		return &s.Cooler
	case load:
		return &s.Load
	case setup:
		return &s.Setup
	case power:
		return &s.Power
	case current:
		return &s.Current
	case ghz:
		return &s.GHz
	case graphics:
		return &s.Graphics
	case altitude:
		return &s.Altitude
	}
	return nil
}

// Describe lists the values that a question gives.
func Describe(q advisor.Question) []Setting {
	var list []Setting
	for _, name := range Settings() {
		word, number := place(&q, name)
		if word != nil && *word != "" {
			list = append(list, Setting{name, *word})
		}
		if number != nil && *number != nil {
			list = append(list, Setting{name, Value(name, **number)})
		}
	}
	return list
}

// Without takes one value out of a question.
func Without(q advisor.Question, name string) advisor.Question {
	word, number := place(&q, name)
	if word != nil {
		*word = ""
	}
	if number != nil {
		*number = nil
	}
	return q
}

// Has reports whether a question gives a value, by its flag's name or its key.
func Has(q advisor.Question, name string) bool {
	for _, s := range Describe(q) {
		if s.Name == name || fieldOf(s.Name) == name {
			return true
		}
	}
	return false
}

// place gives where a question keeps a value: a word or a number.
func place(q *advisor.Question, name string) (*string, **float64) {
	switch name {
	case board:
		return &q.Board, nil
	case chip:
		return &q.Chip, nil
	case enclosure:
		return &q.Enclosure, nil
	case cooler:
		return &q.Cooler, nil
	case load:
		return &q.Load, nil
	case setup:
		return &q.Setup, nil
	case room:
		return nil, &q.RoomC
	case power:
		return nil, &q.PowerW
	case current:
		return nil, &q.CurrentA
	case ghz:
		return nil, &q.GHz
	case graphics:
		return nil, &q.GraphicsW
	case altitude:
		return nil, &q.AltitudeM
	}
	return nil, nil
}
