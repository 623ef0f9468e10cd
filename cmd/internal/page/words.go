package page

import (
	"fmt"
	"math"
	"strconv"

	"hotroom/advisor"
)

// celsius writes a temperature, or a difference, to 1 °C.
func celsius(v float64) string { return whole(v) + "\u00a0°C" }

// whole rounds to a whole number and never writes -0.
func whole(v float64) string { return strconv.Itoa(int(math.Round(v))) }

// down rounds down, because a ceiling is never rounded up.
func down(v float64) string { return strconv.Itoa(int(math.Floor(v))) }

// fixed writes a number to so many decimals.
func fixed(v float64, decimals int) string {
	scale := math.Pow10(decimals)
	return strconv.FormatFloat(math.Round(v*scale)/scale+0, 'f', decimals, 64)
}

// dash stands where there is no number.
const dash = "–"

func celsiusOr(v *float64) string {
	if v == nil {
		return dash
	}
	return celsius(*v)
}

// percent writes a share of 1.
func percent(share float64) string {
	switch {
	case share < 0.001:
		return "below 0.1\u00a0%"
	case share > 0.999:
		return "above 99.9\u00a0%"
	case share < 0.0995:
		return fixed(100*share, 1) + "\u00a0%"
	}
	return whole(100*share) + "\u00a0%"
}

func verdictWord(verdict string) string {
	switch verdict {
	case advisor.Yes:
		return "Yes"
	case advisor.WithCare:
		return "With care"
	case advisor.No:
		return "No"
	}
	return "Unknown"
}

// margin says how far the hot spot stays from the limit.
func margin(m advisor.Margin) string {
	if m.ExpectedC == nil || m.KeptC == nil {
		return "No margin: there is no steady temperature to hold against the limit."
	}
	text := "At the limit"
	switch {
	case math.Round(*m.ExpectedC) > 0:
		text = celsius(*m.ExpectedC) + " below the limit"
	case math.Round(*m.ExpectedC) < 0:
		text = celsius(-*m.ExpectedC) + " over the limit"
	}
	kept := celsius(*m.KeptC) + " kept"
	if math.Round(*m.KeptC) < 0 {
		kept = "up to " + celsius(-*m.KeptC) + " over"
	}
	text += " expected; at 95 % confidence " + kept
	if m.ExceedProbability != nil {
		text += "; chance of passing the limit " + percent(*m.ExceedProbability)
	}
	return text + "."
}

// points writes points with their sign.
func points(v float64) string {
	if v == 0 {
		return "0"
	}
	return fmt.Sprintf("%+.1f", v)
}

// money writes a price.
func money(v *float64, currency string) string {
	if v == nil {
		return dash
	}
	if *v == math.Trunc(*v) {
		return fixed(*v, 0) + " " + currency
	}
	return fixed(*v, 2) + " " + currency
}
