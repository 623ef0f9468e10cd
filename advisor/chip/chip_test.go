package chip_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor/chip"
	"hotroom/knowledge"
)

func sample() *knowledge.Chip {
	return &knowledge.Chip{
		ID: "sample", RatedPowerW: 125, CurrentMaxA: 200, AllCoreGHz: 4.6, IdleW: 20, CoreShare: 0.92,
		Points: []knowledge.Point{{GHz: 3.6, Volts: 0.95, Watts: 90}, {GHz: 4.2, Volts: 1.08, Watts: 140}, {GHz: 4.6, Volts: 1.2, Watts: 195}, {GHz: 5, Volts: 1.36, Watts: 270}},
	}
}

func curve(t interface {
	Helper()
	Fatal(...any)
}, k *knowledge.Chip,
) *chip.Curve {
	t.Helper()
	c, err := chip.NewCurve(k)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func number(v float64) *float64 { return &v }

func TestAtGoesThroughThePoints(t *testing.T) {
	k := sample()
	c := curve(t, k)
	for _, p := range k.Points {
		d := c.At(p.GHz, 1)
		if math.Abs(d.PackageW-p.Watts) > 1e-9 || math.Abs(d.Volts-p.Volts) > 1e-12 {
			t.Errorf("at %g GHz: got %+v, want %+v", p.GHz, d, p)
		}
		if want := 0.92 * p.Watts / p.Volts; math.Abs(d.CoreA-want) > 1e-9 {
			t.Errorf("at %g GHz: got %g A, want %g A", p.GHz, d.CoreA, want)
		}
		if light := c.At(p.GHz, 0.5); math.Abs(light.PackageW-(20+0.5*(p.Watts-20))) > 1e-9 {
			t.Errorf("at %g GHz and half activity: got %g W", p.GHz, light.PackageW)
		}
	}
}

func TestHold(t *testing.T) {
	c := curve(t, sample())
	for _, tt := range []struct {
		name       string
		target     float64
		caps       chip.Caps
		ghz        float64 // 0: whatever meets the cap
		by         string
		firstPoint bool
	}{
		{"no cap", 4.6, chip.Caps{}, 4.6, chip.ByChip, false},
		{"caps above", 4.6, chip.Caps{PowerW: number(195), CurrentA: number(200)}, 4.6, chip.ByChip, false},
		{"power", 4.6, chip.Caps{PowerW: number(140)}, 4.2, chip.ByPower, false},
		{"current", 4.6, chip.Caps{CurrentA: number(0.92 * 140 / 1.08)}, 4.2, chip.ByCurrent, false},
		{"the lower of two", 5, chip.Caps{PowerW: number(200), CurrentA: number(100)}, 0, chip.ByCurrent, false},
		{"first point", 4.6, chip.Caps{PowerW: number(89)}, 3.6, chip.ByPower, true},
		{"first point is the target", 3.6, chip.Caps{CurrentA: number(10)}, 3.6, chip.ByCurrent, true},
	} {
		t.Run(tt.name, func(t *testing.T) {
			h := c.Hold(tt.target, 1, tt.caps)
			if tt.ghz != 0 && math.Abs(h.GHz-tt.ghz) > 1e-9 {
				t.Errorf("holds %g GHz, want %g", h.GHz, tt.ghz)
			}
			if h.LimitedBy != tt.by || h.FirstPoint != tt.firstPoint {
				t.Errorf("limited by %q (first point %v), want %q (%v)", h.LimitedBy, h.FirstPoint, tt.by, tt.firstPoint)
			}
		})
	}
}

func TestShippedFallsBackToRated(t *testing.T) {
	k := sample()
	caps := chip.ShippedCaps(&knowledge.Board{Limit: knowledge.BoardLimit{PowerW: number(180)}}, k)
	if *caps.PowerW != 180 || *caps.CurrentA != 200 {
		t.Errorf("got %g W and %g A, want 180 W as shipped and 200 A as rated", *caps.PowerW, *caps.CurrentA)
	}
}

func TestNewCurveRefusesPointsThatDoNotRise(t *testing.T) {
	k := sample()
	k.Points[2].GHz = k.Points[1].GHz
	if _, err := chip.NewCurve(k); err == nil {
		t.Error("points that do not rise should be refused")
	}
	k.Points = k.Points[:1]
	if _, err := chip.NewCurve(k); err == nil {
		t.Error("a single point should be refused")
	}
}

// Power never falls with the clock, and the held clock respects its caps and
// never falls when a cap is raised.
func TestHoldLaws(t *testing.T) {
	c := curve(t, sample())
	rapid.Check(t, func(t *rapid.T) {
		activity := rapid.Float64Range(0.1, 1.2).Draw(t, "activity")
		a := rapid.Float64Range(3.6, 5).Draw(t, "a")
		b := rapid.Float64Range(a, 5).Draw(t, "b")
		if c.At(a, activity).PackageW > c.At(b, activity).PackageW+1e-9 {
			t.Fatalf("power falls from %g to %g GHz", a, b)
		}
		power := rapid.Float64Range(60, 300).Draw(t, "power")
		amps := rapid.Float64Range(60, 300).Draw(t, "amps")
		caps := chip.Caps{PowerW: &power, CurrentA: &amps}
		h := c.Hold(b, activity, caps)
		if !h.FirstPoint && caps.Broken(h.Demand) != "" {
			t.Fatalf("%+v breaks its caps", h)
		}
		more := power + rapid.Float64Range(0, 50).Draw(t, "more")
		if g := c.Hold(b, activity, chip.Caps{PowerW: &more, CurrentA: &amps}); g.GHz < h.GHz-1e-9 {
			t.Fatalf("a higher cap lowers the clock from %g to %g GHz", h.GHz, g.GHz)
		}
	})
}
