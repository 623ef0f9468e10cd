package sentence

import (
	"fmt"

	"hotroom/advisor"
)

// Over lays one question over another: what the upper one says wins. It also
// says where the lower one said something else. A setup comes with its caps,
// so an upper setup drops the lower caps, and an upper cap the lower setup.
func Over(upper, lower advisor.Question) (advisor.Question, []string) {
	m := &merger{}
	if upper.Setup != "" || upper.PowerW != nil || upper.CurrentA != nil {
		m.setups(upper, lower)
		lower.Setup, lower.PowerW, lower.CurrentA = "", nil, nil
	}
	out := lower
	for _, name := range Settings() {
		m.lay(name, &upper, &out)
	}
	return out, m.against
}

type merger struct{ against []string }

// lay puts one value of the upper question over the lower one's.
func (m *merger) lay(name string, upper, lower *advisor.Question) {
	word, number := place(upper, name)
	under, below := place(lower, name)
	switch {
	case word != nil && *word != "":
		m.compare(name, *word, *under)
		*under = *word
	case number != nil && *number != nil:
		if *below != nil {
			m.compare(name, Value(name, **number), Value(name, **below))
		}
		*below = *number
	}
}

func (m *merger) compare(name, upper, lower string) {
	if lower != "" && lower != upper {
		m.against = append(m.against, fmt.Sprintf("%s %s wins over %s", name, upper, lower))
	}
}

// setups says where two power setups differ.
func (m *merger) setups(upper, lower advisor.Question) {
	for _, name := range []string{setup, power, current} {
		m.lay(name, &upper, &lower)
	}
}
