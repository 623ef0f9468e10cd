// Package quantity reads a number with a unit as a person types it and gives
// it in the one unit that the program uses for it.
//
// A number has digits, at most one decimal point and perhaps a sign; a unit is
// optional, may stand apart, and upper and lower case are the same. A comma is
// never a decimal comma: it groups thousands in a length ("1,600 m", the one
// quantity that people write so) and is refused everywhere else, because "4,7"
// could be meant either way.
package quantity

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// absoluteZeroC is 0 K in °C, exact by the definition of the Celsius scale
// (BIPM, The International System of Units, 9th edition, 2.3.1).
const absoluteZeroC = -273.15

// metresPerFoot is the international foot, exact by definition (1959).
const metresPerFoot = 0.3048

// most is the largest number read, in any unit: far above anything real, and
// far below what converting could overflow.
const most = 1e12

// Temperature gives °C from "32", "32 °C", "90F" or "305 K".
func Temperature(text string) (celsius float64, err error) {
	const accepts = "32, 32C, 90F or 305K"
	n, unit, err := split("temperature", text, accepts)
	if err != nil {
		return 0, err
	}
	switch unit {
	case "", "c", "°", "°c", "℃", "degc", "deg", "celsius", "degrees":
		celsius = n
	case "f", "°f", "℉", "degf", "fahrenheit":
		celsius = settled((n - 32) * 5 / 9)
	case "k", "kelvin":
		celsius = settled(n + absoluteZeroC)
	default:
		return 0, refuse("temperature", text, "has no unit that is known here", accepts)
	}
	if celsius < absoluteZeroC {
		return 0, refuse("temperature", text, "is below absolute zero", accepts)
	}
	return celsius, nil
}

// Power gives W from "180", "180 W" or "0.18 kW"; never below 0.
func Power(text string) (watts float64, err error) {
	return positive("power", text, "180, 180W or 0.18kW", scales{
		{1, []string{"", "w", "watt", "watts"}},
		{1000, []string{"kw", "kilowatt", "kilowatts"}},
	})
}

// Current gives A from "210", "210 A" or "210 amps"; never below 0.
func Current(text string) (amperes float64, err error) {
	return positive("current", text, "210 or 210A", scales{
		{1, []string{"", "a", "amp", "amps", "ampere", "amperes"}},
	})
}

// Clock gives GHz from "4.7", "4.7 GHz" or "4700 MHz"; never below 0.
func Clock(text string) (gigahertz float64, err error) {
	return positive("clock", text, "4.7, 4.7GHz or 4700MHz", scales{
		{1, []string{"", "ghz", "gigahertz"}},
		{0.001, []string{"mhz", "megahertz"}},
	})
}

// Length gives m from "1600", "1,600 m", "1.6 km" or "5249 ft"; it may be
// below 0, as the altitude of some places is.
func Length(text string) (metres float64, err error) {
	plain, err := ungroup(text)
	if err != nil {
		return 0, err
	}
	return scaled("length", text, plain, lengthForms, scales{
		{1, []string{"", "m", "metre", "metres", "meter", "meters"}},
		{1000, []string{"km", "kilometre", "kilometres", "kilometer", "kilometers"}},
		{metresPerFoot, []string{"ft", "foot", "feet"}},
	})
}

const lengthForms = "1600, 1600m, 1,600m, 1.6km or 5249ft"

// scales are units with what one of each is worth in the program's own.
type scales []struct {
	worth float64
	names []string
}

func positive(what, text, accepts string, units scales) (float64, error) {
	n, err := scaled(what, text, text, accepts, units)
	if err == nil && n < 0 {
		return 0, refuse(what, text, "is below zero", accepts)
	}
	return n, err
}

// scaled reads plain, which is text without its grouping commas.
func scaled(what, text, plain, accepts string, units scales) (float64, error) {
	n, unit, err := split(what, plain, accepts)
	if err != nil {
		return 0, err
	}
	for _, u := range units {
		for _, name := range u.names {
			if unit == name {
				return settled(n * u.worth), nil
			}
		}
	}
	return 0, refuse(what, text, "has no unit that is known here", accepts)
}

// settled rounds to nine decimals, finer than anything that is typed, so that
// 4700 MHz is 4.7 GHz and 45.176 °F is 7.32 °C to the last digit: a value is the
// same number in whatever unit it was given.
func settled(v float64) float64 {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(v, 'f', 9, 64), 64)
	if err != nil {
		return v
	}
	return rounded + 0 // never -0
}

// split parts a text into its number and its unit in lower case.
func split(what, text, accepts string) (n float64, unit string, err error) {
	s := strings.ReplaceAll(strings.TrimSpace(text), "−", "-")
	end := strings.IndexFunc(s, func(r rune) bool { return !strings.ContainsRune("+-.0123456789", r) })
	if end < 0 {
		end = len(s)
	}
	if strings.HasPrefix(s[end:], ",") {
		return 0, "", refuse(what, text, "has a comma in it", accepts+", with a decimal point")
	}
	n, err = strconv.ParseFloat(s[:end], 64)
	if errors.Is(err, strconv.ErrRange) || math.Abs(n) > most {
		return 0, "", refuse(what, text, "is too large", accepts)
	}
	if err != nil {
		return 0, "", refuse(what, text, "does not start with a number", accepts)
	}
	return n, strings.ToLower(strings.Join(strings.Fields(s[end:]), "")), nil
}

// ungroup takes the commas out of a number whose thousands they group; "1,5"
// and "0,160" are refused.
func ungroup(text string) (string, error) {
	if !strings.Contains(text, ",") {
		return text, nil
	}
	s := strings.TrimSpace(text)
	end := strings.LastIndexAny(s, "0123456789") + 1
	number, _, _ := strings.Cut(s[:end], ".")
	groups := strings.Split(strings.TrimLeft(number, "+-"), ",")
	grouped := len(groups[0]) >= 1 && len(groups[0]) <= 3 && groups[0][0] != '0'
	for _, g := range groups[1:] {
		grouped = grouped && len(g) == 3
	}
	if !grouped || strings.Count(s, ",") != len(groups)-1 {
		return "", refuse("length", text, "has a comma that groups no thousands", lengthForms+", with a decimal point")
	}
	return strings.ReplaceAll(s, ",", ""), nil
}

// refuse names the text, cut after 40 characters, and what is accepted.
func refuse(what, text, why, accepts string) error {
	if r := []rune(text); len(r) > 40 {
		text = string(r[:39]) + "…"
	}
	return fmt.Errorf("the %s %q %s: write it as %s", what, text, why, accepts)
}
