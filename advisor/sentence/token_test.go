package sentence

import "testing"

func TestNumeral(t *testing.T) {
	for _, tt := range []struct{ word, number, unit string }{
		{"32", "32", ""},
		{"32°C", "32", "°C"},
		{"-5℃", "-5", "℃"},
		{"−5", "-5", ""},
		{"1,600", "1600", ""},
		{"1,600m", "1600", "m"},
		{"12,345,678", "12345678", ""},
		{"1,234.5", "1234.5", ""},
		{"4,9GHz", "4.9", "GHz"},
		{"10-core", "10", "core"},
		{"55m3/h", "55", "m3/h"},
		{"4.9.1", "", ""},
		{"1,60,0", "", ""},
		{"1,", "", ""},
		{".5", "", ""},
		{"1.2,3", "", ""},
		{"--5", "", ""},
		{"x40", "", ""},
		{"40-", "40", ""},
		{"5/6", "", ""},
		{"°C", "", ""},
		{"", "", ""},
	} {
		number, unit, ok := numeral(tt.word)
		if number != tt.number || unit != tt.unit || ok != (tt.number != "") {
			t.Errorf("numeral(%q) = %q, %q, %v; want %q, %q", tt.word, number, unit, ok, tt.number, tt.unit)
		}
	}
}
