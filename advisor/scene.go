package advisor

import (
	"hotroom/advisor/chip"
	"hotroom/knowledge"
)

// scene is a question with every word looked up and every default filled in.
type scene struct {
	surroundings
	parts       *parts
	chip        *knowledge.Chip
	curve       *chip.Curve
	load        *knowledge.Load
	setup       string
	caps        chip.Caps
	targetGHz   float64
	question    Question // with the defaults filled in
	assumptions []string // every default, in words
}
