package chart

import (
	"math"
	"strconv"
)

// missing stands for a number that has no value.
const missing = "–"

// digits writes a number with so many decimals and never -0; a number without a
// value is a dash.
func digits(v float64, decimals int) string {
	if !there(v) {
		return missing
	}
	unit := math.Pow10(decimals)
	return strconv.FormatFloat(math.Round(v*unit)/unit+0, 'f', decimals, 64)
}

// decimals gives the fewest decimals that tell the numbers apart from their
// rounded selves: none to two below 10 (clocks), none or one above.
func decimals(values ...float64) int {
	most, need := 2, 0
	for _, v := range present(values...) {
		if math.Abs(v) >= 10 {
			most = 1
		}
		for need < 2 && math.Abs(v-round(v, need)) > 0.5*math.Pow10(-3) {
			need++
		}
	}
	return min(most, need)
}

func round(v float64, decimals int) float64 {
	unit := math.Pow10(decimals)
	return math.Round(v*unit) / unit
}

// count writes a number of things: "1 run", "3 runs".
func count(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return strconv.Itoa(n) + " " + thing + "s"
}

// capital puts the first letter of a sentence in upper case.
func capital(text string) string {
	if text == "" || text[0] < 'a' || text[0] > 'z' {
		return text
	}
	return string(text[0]-'a'+'A') + text[1:]
}
