package chart

import (
	"image/color"
	"math"
	"testing"
)

// contrast is the contrast ratio of WCAG 2.2, 1 to 21.
func contrast(a, b color.RGBA) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(c color.RGBA) float64 {
	linear := func(v uint8) float64 {
		s := float64(v) / 255
		if s <= 0.04045 {
			return s / 12.92
		}
		return math.Pow((s+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
}

func TestContrastOfBlackAndWhite(t *testing.T) {
	if got := contrast(rgb(0), rgb(0xffffff)); math.Abs(got-21) > 1e-9 {
		t.Errorf("black on white is %v to 1, want 21", got)
	}
}
