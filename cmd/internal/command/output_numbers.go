package command

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"hotroom/advisor"
)

// celsius writes a temperature to 1 °C.
func celsius(v float64) string { return whole(v) + " °C" }

// whole rounds to a whole number and never writes -0.
func whole(v float64) string { return strconv.Itoa(int(math.Round(v))) }

// down rounds to the whole number below: a ceiling is never rounded up.
func down(v float64) string { return strconv.Itoa(int(math.Floor(v))) }

func watts(v float64) string { return whole(v) + " W" }

// percent writes a share of 1 as a percentage: whole, or with one decimal
// below 10 %.
func percent(share float64) string {
	switch {
	case share < 0.001:
		return "below 0.1 %"
	case share > 0.999:
		return "above 99.9 %"
	case share < 0.0995:
		return strconv.FormatFloat(100*share, 'f', 1, 64) + " %"
	}
	return whole(100*share) + " %"
}

// minutes writes a duration to the minute, and longer ones in hours.
func minutes(v float64) string {
	switch {
	case v < 1:
		return "less than a minute"
	case v < 120:
		return whole(v) + " min"
	}
	return fmt.Sprintf("%.1f h", v/60)
}

// years writes a life, in months below two years.
func years(v float64) string {
	switch {
	case v < 1.0/12:
		return "less than a month"
	case v < 2:
		return count(int(math.Round(v*12)), "month")
	}
	return strings.TrimSuffix(strconv.FormatFloat(v, 'f', 1, 64), ".0") + " years"
}

// count writes a number of things.
func count(n int, thing string) string {
	return strconv.Itoa(n) + " " + thing + either(n, "", "s")
}

func either(n int, one, more string) string {
	if n == 1 {
		return one
	}
	return more
}

// sign writes points with their sign, so that merits and concerns line up.
func sign(points float64) string {
	text := strconv.FormatFloat(math.Round(points*10)/10+0, 'f', -1, 64)
	if points > 0 {
		return "+" + text
	}
	return text
}

// capital puts the first letter of a sentence in upper case.
func capital(text string) string {
	if text == "" || text[0] < 'a' || text[0] > 'z' {
		return text
	}
	return string(text[0]-'a'+'A') + text[1:]
}

// unknownFigure stands in a table where there is no number.
const unknownFigure = "-"

// wholeOr rounds to a whole number, or says that there is none.
func wholeOr(v *float64, none string) string {
	if v == nil {
		return none
	}
	return whole(*v)
}

// figure writes a number to so many decimals, without needless zeros.
func figure(v float64, decimals int) string {
	scale := math.Pow(10, float64(decimals))
	return strconv.FormatFloat(math.Round(v*scale)/scale+0, 'f', -1, 64)
}

// fixed writes a number to just so many decimals, or says that there is none.
func fixed(v *float64, decimals int, none string) string {
	if v == nil {
		return none
	}
	scale := math.Pow(10, float64(decimals))
	return strconv.FormatFloat(math.Round(*v*scale)/scale+0, 'f', decimals, 64)
}

// oneDecimal writes a measured difference to 0.1.
func oneDecimal(v float64) string { return fixed(&v, 1, "") }

// money writes a price with its currency: whole, or to two decimals.
func money(v *float64, currency string) string {
	if v == nil {
		return "no price"
	}
	decimals := 2
	if *v == math.Trunc(*v) {
		decimals = 0
	}
	return strings.TrimSpace(strconv.FormatFloat(*v, 'f', decimals, 64) + " " + safe(currency))
}

// shortVerdict says a verdict in a table.
func shortVerdict(verdict string) string {
	if verdict == advisor.WithCare {
		return "with care"
	}
	return safe(strings.ToLower(verdictWord(verdict)))
}

// plainNumber writes a number without trailing zeros.
func plainNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
