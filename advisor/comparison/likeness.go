// Package comparison puts boards side by side under identical conditions, and
// says whether their measured runs are alike enough to be compared directly.
package comparison

import (
	"fmt"
	"math"

	"hotroom/knowledge"
)

// How far two runs may differ and still be compared directly (common practice,
// no source).
const (
	sameRoomC        = 1.0 // K
	sameClockPercent = 1.0
)

// Unlike lists why two runs cannot be compared directly, in words; nothing
// when they can: other conditions, another held clock, or no temperature.
func Unlike(base *knowledge.Base, a, b *knowledge.Run) []string {
	why := OtherConditions(base, a, b)
	switch {
	case !a.Counts() || !b.Counts():
		why = append(why, noTemperature(a, b))
	case a.Setup == b.Setup && !sameClock(a, b):
		why = append(why, "held clocks of "+clocks(a, b))
	}
	return why
}

// OtherConditions lists in which respects two runs were made under other
// conditions, in words. A different power setup is none where both held the
// same clock, since the clock then stands for what the regulator fed.
func OtherConditions(base *knowledge.Base, a, b *knowledge.Run) []string {
	var why []string
	add := func(different bool, format string, args ...any) {
		if different {
			why = append(why, fmt.Sprintf(format, args...))
		}
	}
	add(a.Chip != b.Chip, "chips %s and %s", a.Chip, b.Chip)
	add(a.Setup != b.Setup && !sameClock(a, b), "power setups %s and %s at %s", orNone(a.Setup), orNone(b.Setup), clocks(a, b))
	add(math.Abs(a.RoomC-b.RoomC) > sameRoomC, "rooms of %.1f and %.1f °C", a.RoomC, b.RoomC)
	add(class(base, a) != class(base, b), "thermometers of ±%g and ±%g °C", class(base, a), class(base, b))
	add(a.Enclosure != b.Enclosure, "enclosures %s and %s", a.Enclosure, b.Enclosure)
	add(a.Cooler != b.Cooler, "coolers %s and %s", a.Cooler, b.Cooler)
	add(a.Load != b.Load, "loads %s and %s", orNone(a.Load), orNone(b.Load))
	add(a.GraphicsW != b.GraphicsW, "graphics loads of %g and %g W", a.GraphicsW, b.GraphicsW)
	add(a.AltitudeM != b.AltitudeM, "altitudes of %g and %g m", a.AltitudeM, b.AltitudeM)
	return why
}

func noTemperature(a, b *knowledge.Run) string {
	r := a
	if a.Counts() {
		r = b
	}
	switch r.Outcome {
	case knowledge.Crashed:
		return fmt.Sprintf("the run %s crashed", r.ID)
	case knowledge.Unsettled:
		return fmt.Sprintf("the run %s had not settled", r.ID)
	}
	return fmt.Sprintf("the run %s gives no temperature", r.ID)
}

func sameClock(a, b *knowledge.Run) bool {
	return a.GHz != nil && b.GHz != nil && math.Abs(*a.GHz / *b.GHz - 1) <= sameClockPercent/100
}

func clocks(a, b *knowledge.Run) string {
	return fmt.Sprintf("%s and %s", ghz(a), ghz(b))
}

func ghz(r *knowledge.Run) string {
	if r.GHz == nil {
		return "an unknown clock"
	}
	return fmt.Sprintf("%.2f GHz", *r.GHz)
}

func orNone(word string) string {
	if word == "" {
		return "unnamed"
	}
	return word
}

// class gives the tolerance class of a run's thermometer, K: IEC 60584-1 class
// 2 where none is named.
func class(base *knowledge.Base, r *knowledge.Run) float64 {
	if meter, ok := base.Thermometer(r.Thermometer); ok {
		return meter.ClassC
	}
	return 2.5
}
