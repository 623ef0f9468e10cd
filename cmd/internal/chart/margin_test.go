package chart

import (
	"bytes"
	"math"
	"strings"
	"testing"
)

func narrowMargin() Margin {
	return Margin{
		Title: "With care: the Gorsebank Flint keeps the Varnholt V10 cool enough", Subtitle: "room of 33 °C, airy tower", Room: 33,
		Expected: 92.2, Low: 84.1, High: 100.3, Limit: 102.5, Notes: []string{"Measured; newest run of 2025-06-30.", "The makers' limits win over this picture."},
	}
}

func TestMarginGolden(t *testing.T) {
	unsettled, past := narrowMargin(), narrowMargin()
	unsettled.Expected, unsettled.Low, unsettled.High = math.NaN(), math.NaN(), math.NaN()
	past.Expected, past.High, past.Width, past.Height = 101, 118, 320, 400
	for name, m := range map[string]Margin{"margin": narrowMargin(), "margin-unsettled": unsettled, "margin-past": past} {
		golden(t, name+".svg", svgOf(t, m))
	}
}

// The distances on the picture are in the ratio of the temperatures.
func TestMarginIsToScale(t *testing.T) {
	m := narrowMargin()
	var hot, room, limit float64
	for _, mark := range m.draw().marks {
		switch v := mark.(type) {
		case disc:
			hot = v.centre.x
		case stroke:
			switch {
			case v.ink == text && v.width == 1.8:
				room = v.points[0].x
			case v.ink == wall && v.width == 1.8:
				limit = v.points[0].x
			}
		}
	}
	got, want := (hot-room)/(limit-room), (m.Expected-m.Room)/(m.Limit-m.Room)
	if math.Abs(got-want) > 1e-9 {
		t.Errorf("the hot spot stands at %.4f of the way from room to limit, want %.4f", got, want)
	}
}

func TestMarginInsetHasNoStyle(t *testing.T) {
	var b bytes.Buffer
	if err := narrowMargin().Inset(&b); err != nil {
		t.Fatal(err)
	}
	if strings.Contains(b.String(), "style") || !strings.Contains(b.String(), "At 95 % confidence: 2\u00a0°C kept.") {
		t.Errorf("an inset reads\n%s", b.String())
	}
}
