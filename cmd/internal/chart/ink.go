package chart

import "image/color"

// ink is what something is drawn with; its colour depends on the surroundings.
type ink int

const (
	paper    ink = iota // the ground
	text                // words and axes
	quiet               // lesser words and ticks
	faint               // guide lines
	course              // the expected value
	spread90            // its interval
	wall                // limits
	blank               // where there is no value
	alarm               // what went wrong
	inks
)

// shade is the look of an ink: its name in the style sheet, its colour on a
// light ground and on a dark one.
type shade struct {
	name        string
	light, dark color.RGBA
}

func (i ink) shade() shade {
	return [inks]shade{
		paper:    {"paper", rgb(0xffffff), rgb(0x14181c)},
		text:     {"text", rgb(0x1c2228), rgb(0xe8ecef)},
		quiet:    {"quiet", rgb(0x525c66), rgb(0xa8b3bc)},
		faint:    {"faint", rgb(0xd9dee2), rgb(0x343c44)},
		course:   {"course", rgb(0x0a5a6b), rgb(0x6fc6d6)},
		spread90: {"spread", rgb(0xcde2e6), rgb(0x22464f)},
		wall:     {"wall", rgb(0x98390f), rgb(0xf2a47f)},
		blank:    {"blank", rgb(0xf1f2f0), rgb(0x20252a)},
		alarm:    {"alarm", rgb(0x7d1f5c), rgb(0xe9a3d0)},
	}[i]
}

func rgb(hex uint32) color.RGBA {
	return color.RGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 0xff}
}

// dash is how a line is broken, so that no line is told by its colour alone.
type dash int

const (
	unbroken dash = iota
	dashed
	dotted
	dashDotted
)

// lengths gives the drawn and the left-out lengths in turn, px.
func (d dash) lengths() []float64 {
	return [][]float64{unbroken: nil, dashed: {6, 4}, dotted: {1.5, 3}, dashDotted: {8, 3, 1.5, 3}}[d]
}
