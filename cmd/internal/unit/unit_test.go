package unit

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestKeep(t *testing.T) {
	for text, want := range map[string]string{
		"":                            "",
		"a room of 33 °C.":            "a room of 33_°C.",
		"3.59 GHz (91 W, 95 A) A V":   "3.59_GHz (91_W, 95_A) A V",
		"the V10 W and 4 words":       "the V10_W and 4 words",
		"85 m³/h  through, 90 % sure": "85_m³/h  through, 90_% sure",
	} {
		if got := strings.ReplaceAll(Keep(text), space, "_"); got != want {
			t.Errorf("%q gives %q, want %q", text, got, want)
		}
	}
}

// Only spaces change.
func TestKeepsTheText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.SampledFrom([]rune("12 °C%WAVm.,)x"))).Draw(t, "text")
		if got := strings.ReplaceAll(Keep(text), space, " "); got != text {
			t.Fatalf("%q becomes %q", text, got)
		}
	})
}
