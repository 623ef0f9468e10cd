package advisor

import (
	"hotroom/advisor/chip"
	"hotroom/knowledge"
)

// scene is a question with every word looked up and every default filled in.
type scene struct {
	surroundings
	parts     *parts
	chip      *knowledge.Chip
	curve     *chip.Curve
	load      *knowledge.Load
	setup     string
	caps      chip.Caps
	targetGHz float64
	allowed   chip.Held       // the clock that the caps allow
	guessC    float64         // where the hot spot is looked for first
	asked     Question        // as it was asked
	question  Question        // with the defaults filled in
	room      *knowledge.Room // the one that a default came from
}

// hold finds the clock that the caps allow.
func (sc *scene) hold() { sc.allowed = sc.curve.Hold(sc.targetGHz, sc.load.Activity, sc.caps) }
