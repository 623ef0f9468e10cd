package quantity

import (
	"math"
	"strings"
	"testing"
)

type reader func(string) (float64, error)

func TestAccepts(t *testing.T) {
	tests := []struct {
		read reader
		text string
		want float64
	}{
		{Temperature, "32", 32},
		{Temperature, "32C", 32},
		{Temperature, " 32 °C ", 32},
		{Temperature, "32 deg C", 32},
		{Temperature, "-5.5c", -5.5},
		{Temperature, "−5", -5},
		{Temperature, "90F", 290.0 / 9},
		{Temperature, "90 °F", 290.0 / 9},
		{Temperature, "212 f", 100},  // boiling water, memory
		{Temperature, "-40F", -40},   // where the scales meet, memory
		{Temperature, "273.15 K", 0}, // definition of the Celsius scale
		{Temperature, "305K", 31.85},
		{Temperature, "0K", -273.15},
		{Temperature, ".5 °C", 0.5},
		{Power, "180", 180},
		{Power, "180W", 180},
		{Power, "180 watts", 180},
		{Power, "0.18 kW", 180},
		{Power, "0", 0},
		{Current, "210A", 210},
		{Current, "210 amps", 210},
		{Clock, "4.7", 4.7},
		{Clock, "4.7GHz", 4.7},
		{Clock, "4700MHz", 4.7},
		{Length, "1600", 1600},
		{Length, "1600m", 1600},
		{Length, "1,600 m", 1600},
		{Length, "1,600.5 m", 1600.5},
		{Length, "1.6km", 1600},
		{Length, "5249ft", 1599.8952}, // international foot, 0.3048 m
		{Length, "5,249 feet", 1599.8952},
		{Length, "-400 m", -400},
	}
	for _, tt := range tests {
		got, err := tt.read(tt.text)
		if err != nil || math.Abs(got-tt.want) > 1e-9 {
			t.Errorf("%q = %v, %v; want %v", tt.text, got, err, tt.want)
		}
	}
}

func TestRefuses(t *testing.T) {
	tests := []struct {
		read       reader
		text, want string
	}{
		{Temperature, "", `the temperature "" does not start with a number: write it as 32, 32C, 90F or 305K`},
		{Temperature, "hot", `the temperature "hot" does not start with a number: write it as 32, 32C, 90F or 305K`},
		{Temperature, "32 R", `the temperature "32 R" has no unit that is known here: write it as 32, 32C, 90F or 305K`},
		{Temperature, "32,5", `the temperature "32,5" has a comma in it: write it as 32, 32C, 90F or 305K, with a decimal point`},
		{Temperature, "-1K", `the temperature "-1K" is below absolute zero: write it as 32, 32C, 90F or 305K`},
		{Temperature, "nan", `the temperature "nan" does not start with a number: write it as 32, 32C, 90F or 305K`},
		{Temperature, "+inf", `the temperature "+inf" does not start with a number: write it as 32, 32C, 90F or 305K`},
		{Temperature, "0x20", `the temperature "0x20" has no unit that is known here: write it as 32, 32C, 90F or 305K`},
		{Temperature, "1-2", `the temperature "1-2" does not start with a number: write it as 32, 32C, 90F or 305K`},
		{Length, "1" + strings.Repeat("0", 400), `the length "100000000000000000000000000000000000000…" is too large: write it as 1600, 1600m, 1,600m, 1.6km or 5249ft`},
		{Power, "9999999999999kW", `the power "9999999999999kW" is too large: write it as 180, 180W or 0.18kW`},
		{Power, "180A", `the power "180A" has no unit that is known here: write it as 180, 180W or 0.18kW`},
		{Power, "-5W", `the power "-5W" is below zero: write it as 180, 180W or 0.18kW`},
		{Power, "1,200", `the power "1,200" has a comma in it: write it as 180, 180W or 0.18kW, with a decimal point`},
		{Power, "1e3", `the power "1e3" has no unit that is known here: write it as 180, 180W or 0.18kW`},
		{Current, "1_0", `the current "1_0" has no unit that is known here: write it as 210 or 210A`},
		{Clock, "4,7 GHz", `the clock "4,7 GHz" has a comma in it: write it as 4.7, 4.7GHz or 4700MHz, with a decimal point`},
		{Length, "1,6 km", `the length "1,6 km" has a comma that groups no thousands: write it as 1600, 1600m, 1,600m, 1.6km or 5249ft, with a decimal point`},
		{Length, "0,160 km", `the length "0,160 km" has a comma that groups no thousands: write it as 1600, 1600m, 1,600m, 1.6km or 5249ft, with a decimal point`},
		{Length, "1,600 miles", `the length "1,600 miles" has no unit that is known here: write it as 1600, 1600m, 1,600m, 1.6km or 5249ft`},
	}
	for _, tt := range tests {
		got, err := tt.read(tt.text)
		if err == nil || err.Error() != tt.want || got != 0 {
			t.Errorf("%q = %v, %v\nwant %s", tt.text, got, err, tt.want)
		}
	}
}

func FuzzQuantity(f *testing.F) {
	for _, seed := range []string{"32 °C", "90F", "1,600 m", "4700MHz", "0.18 kW", "−5", ",", "1,", ",5", "1e9", "℃", "- 5"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, read := range []reader{Temperature, Power, Current, Clock, Length} {
			n, err := read(text)
			if math.IsNaN(n) || (err != nil && n != 0) {
				t.Fatalf("%q = %v, %v", text, n, err)
			}
			if math.IsInf(n, 0) {
				t.Fatalf("%q is infinite", text)
			}
		}
	})
}
