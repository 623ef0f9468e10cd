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
	out := advisor.Question{
		Board:     m.word(board, upper.Board, lower.Board),
		Chip:      m.word(chip, upper.Chip, lower.Chip),
		RoomC:     m.number(room, upper.RoomC, lower.RoomC),
		Enclosure: m.word(enclosure, upper.Enclosure, lower.Enclosure),
		Cooler:    m.word(cooler, upper.Cooler, lower.Cooler),
		Load:      m.word(load, upper.Load, lower.Load),
		Setup:     m.word(setup, upper.Setup, lower.Setup),
		PowerW:    m.number(power, upper.PowerW, lower.PowerW),
		CurrentA:  m.number(current, upper.CurrentA, lower.CurrentA),
		GHz:       m.number(ghz, upper.GHz, lower.GHz),
		GraphicsW: m.number(graphics, upper.GraphicsW, lower.GraphicsW),
		AltitudeM: m.number(altitude, upper.AltitudeM, lower.AltitudeM),
	}
	return out, m.against
}

type merger struct{ against []string }

func (m *merger) word(name, upper, lower string) string {
	if upper == "" {
		return lower
	}
	if lower != "" && lower != upper {
		m.against = append(m.against, fmt.Sprintf("%s %s wins over %s", name, upper, lower))
	}
	return upper
}

func (m *merger) number(name string, upper, lower *float64) *float64 {
	if upper == nil {
		return lower
	}
	if lower != nil && *lower != *upper {
		m.against = append(m.against, fmt.Sprintf("%s %s wins over %s", name, Value(name, *upper), Value(name, *lower)))
	}
	return upper
}

// setups says where two power setups differ.
func (m *merger) setups(upper, lower advisor.Question) {
	m.word(setup, upper.Setup, lower.Setup)
	m.number(power, upper.PowerW, lower.PowerW)
	m.number(current, upper.CurrentA, lower.CurrentA)
}
