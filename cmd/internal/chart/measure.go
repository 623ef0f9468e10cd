package chart

import (
	"strings"

	"github.com/clipperhouse/displaywidth"
)

// The widths of letters in em, generous enough for the widest sans-serif faces
// in common use, because a picture cannot know which face will draw it.
const (
	narrowLetters = "ijl.,:;'|!I "
	slimLetters   = "frt()[]/\\-\"*{}"
	wideLetters   = "mwMW@%"

	narrowEm = 0.37
	slimEm   = 0.47
	usualEm  = 0.65
	upperEm  = 0.77
	wideEm   = 1.0
	squareEm = 1.05 // a character of two columns
	boldEm   = 1.1  // bold against regular
)

// textWidth estimates the width of a text from above, px, at a size in px.
func textWidth(text string, px float64, bold bool) float64 {
	em := 0.0
	for graphemes := displaywidth.StringGraphemes(text); graphemes.Next(); {
		em += letterEm(graphemes.Value(), graphemes.Width())
	}
	if bold {
		em *= boldEm
	}
	return em * px
}

func letterEm(letter string, columns int) float64 {
	switch {
	case columns == 0:
		return 0
	case columns > 1:
		return squareEm
	case strings.Contains(narrowLetters, letter):
		return narrowEm
	case strings.Contains(slimLetters, letter):
		return slimEm
	case strings.Contains(wideLetters, letter):
		return wideEm
	case len(letter) == 1 && letter[0] >= 'A' && letter[0] <= 'Z':
		return upperEm
	}
	return usualEm
}

// measure gives the width of a text in some unit: px or columns.
type measure func(string) float64

// columns measures for a terminal.
func columns(text string) float64 { return float64(displaywidth.String(text)) }

// px measures for a picture in the regular face.
func px(letter float64) measure {
	return func(text string) float64 { return textWidth(text, letter, false) }
}

// wrap breaks a text into lines no wider than width, between words where it
// can. A letter that is wider than the width stands alone.
func wrap(text string, width float64, m measure) []string {
	var lines []string
	line := ""
	for _, word := range strings.FieldsFunc(text, func(r rune) bool { return r == ' ' }) {
		joined := strings.TrimPrefix(line+" "+word, " ")
		if m(joined) <= width {
			line = joined
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		pieces := chop(word, width, m)
		lines = append(lines, pieces[:len(pieces)-1]...)
		line = pieces[len(pieces)-1]
	}
	return append(lines, line)
}

// chop cuts a word into pieces no wider than width.
func chop(word string, width float64, m measure) []string {
	if m(word) <= width {
		return []string{word}
	}
	var pieces []string
	piece, used := "", 0.0
	for graphemes := displaywidth.StringGraphemes(word); graphemes.Next(); {
		letter := graphemes.Value()
		wide := m(letter)
		if piece != "" && used+wide > width {
			pieces = append(pieces, piece)
			piece, used = "", 0
		}
		piece += letter
		used += wide
	}
	return append(pieces, piece)
}

// atMost wraps to so many lines and ends the last with "…" when more was said.
func atMost(lines int, text string, width float64, m measure) []string {
	all := wrap(text, width, m)
	if len(all) <= lines {
		return all
	}
	last := chop(all[lines-1]+"…", width, m)[0]
	if !strings.HasSuffix(last, "…") {
		last = chop(all[lines-1], width-m("…"), m)[0] + "…"
	}
	return append(all[:lines-1:lines-1], last)
}
