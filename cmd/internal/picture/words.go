package picture

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hotroom/advisor"
	"hotroom/knowledge"
)

// BoardName gives a board's name, or its id where there is none.
func BoardName(base *knowledge.Base, id string) string {
	if b, ok := base.Board(id); ok {
		return "the " + b.Name
	}
	return id
}

// ChipName gives a chip's name, or its id where there is none.
func ChipName(base *knowledge.Base, id string) string {
	if c, ok := base.Chip(id); ok {
		return "the " + c.Name
	}
	return id
}

// Conditions says under which conditions an answer holds: everything of a
// question but the board and the chip, as far as it is given.
func Conditions(base *knowledge.Base, q advisor.Question) string {
	var parts []string
	add := func(text string) {
		if text != "" {
			parts = append(parts, text)
		}
	}
	if q.GHz != nil {
		add(fmt.Sprintf("%.2f GHz wanted", *q.GHz))
	}
	if q.RoomC != nil {
		add("room of " + plain(*q.RoomC, 10) + " °C")
	}
	if e, ok := base.Enclosure(q.Enclosure); ok {
		add(e.Name)
	}
	if c, ok := base.Cooler(q.Cooler); ok {
		add(c.Name)
	}
	if l, ok := base.Load(q.Load); ok {
		add(l.Name)
	}
	add(setupWords(q))
	if q.GraphicsW != nil && *q.GraphicsW != 0 {
		add(plain(*q.GraphicsW, 1) + " W of graphics")
	}
	if q.AltitudeM != nil && *q.AltitudeM != 0 {
		add(plain(*q.AltitudeM, 1) + " m above the sea")
	}
	return joined(parts)
}

// setupWords says a power setup; nothing where none is given.
func setupWords(q advisor.Question) string {
	switch q.Setup {
	case advisor.SetupRated:
		return "power limits as the chip's maker rates it"
	case advisor.SetupShipped:
		return "power limits as shipped"
	case advisor.SetupOpen:
		return "no power limit"
	}
	var caps []string
	if q.PowerW != nil {
		caps = append(caps, plain(*q.PowerW, 10)+" W")
	}
	if q.CurrentA != nil {
		caps = append(caps, plain(*q.CurrentA, 10)+" A")
	}
	switch {
	case len(caps) > 0:
		return "capped at " + strings.Join(caps, " and ")
	case q.Setup == advisor.SetupCustom:
		return "power limits of the tester's own"
	}
	return ""
}

// plain writes a number to 1/scale, without needless zeros.
func plain(v, scale float64) string {
	return strconv.FormatFloat(math.Round(v*scale)/scale+0, 'f', -1, 64)
}

// joined lists parts in one line.
func joined(parts []string) string { return strings.Join(parts, ", ") }
