package chart

import (
	"math"
	"strings"
)

// grid is a field of terminal cells. A cell shows its sign, or its dots in
// braille when it has none stronger.
type grid struct {
	wide, high int
	signs      []rune
	dots       []byte
}

func newGrid(wide, high int) *grid {
	return &grid{wide, high, make([]rune, wide*high), make([]byte, wide*high)}
}

func (g *grid) holds(x, y int) bool { return x >= 0 && y >= 0 && x < g.wide && y < g.high }

// sign puts a character in a cell.
func (g *grid) sign(x, y int, r rune) {
	if g.holds(x, y) {
		g.signs[y*g.wide+x] = r
	}
}

// under puts a character in a cell that is still free.
func (g *grid) under(x, y int, r rune) {
	if g.holds(x, y) && g.signs[y*g.wide+x] == 0 {
		g.sign(x, y, r)
	}
}

// A braille cell is two dots wide and four high; its character is the first
// one plus a bit for each dot (the Unicode Standard, block Braille Patterns).
const (
	brailleFirst = 0x2800
	dotsWide     = 2
	dotsHigh     = 4
)

// dot sets one dot, counted from the top left.
func (g *grid) dot(x, y int) {
	if x < 0 || y < 0 || !g.holds(x/dotsWide, y/dotsHigh) {
		return
	}
	bits := [dotsHigh][dotsWide]byte{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}
	g.dots[y/dotsHigh*g.wide+x/dotsWide] |= bits[y%dotsHigh][x%dotsWide]
}

// trace draws a line of dots between two places given in cells; of every
// cells it draws one dot in so many.
func (g *grid) trace(a, b point, every int) {
	ax, ay, bx, by := a.x*dotsWide, a.y*dotsHigh, b.x*dotsWide, b.y*dotsHigh
	steps := int(math.Ceil(max(math.Abs(bx-ax), math.Abs(by-ay), 1)))
	for i := 0; i <= steps; i += every {
		t := float64(i) / float64(steps)
		g.dot(int(math.Floor(ax+(bx-ax)*t)), int(math.Floor(ay+(by-ay)*t)))
	}
}

// row gives one line of the grid; dots stand over shades, signs over dots.
func (g *grid) row(y int) string {
	var b strings.Builder
	for x := range g.wide {
		sign, dots := g.signs[y*g.wide+x], g.dots[y*g.wide+x]
		switch {
		case dots != 0 && (sign == 0 || sign == shadeSign):
			b.WriteRune(brailleFirst + rune(dots))
		case sign != 0:
			b.WriteRune(sign)
		default:
			b.WriteByte(' ')
		}
	}
	return strings.TrimRight(b.String(), " ")
}

const shadeSign = '░'
