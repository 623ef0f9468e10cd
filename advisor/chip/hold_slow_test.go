package chip_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor/chip"
	"hotroom/knowledge"
)

// slowHold is the plain search that Hold must agree with: downwards step by
// step, then by halving.
func slowHold(c *chip.Curve, target, activity float64, caps chip.Caps) (ghz float64, by string) {
	by = caps.Broken(c.At(target, activity))
	if by == "" {
		return target, chip.ByChip
	}
	high := target
	for i := 255; i >= 0; i-- {
		low := c.First() + float64(i)*(target-c.First())/256
		if now := caps.Broken(c.At(low, activity)); now != "" {
			high, by = low, now
			continue
		}
		for range 60 {
			mid := (low + high) / 2
			if now := caps.Broken(c.At(mid, activity)); now != "" {
				high, by = mid, now
			} else {
				low = mid
			}
		}
		return low, by
	}
	return c.First(), by
}

// Of chips whose power rises and whose voltage does not fall, as a checked
// knowledge holds them, Hold finds what the plain search finds.
func TestHoldFindsWhatThePlainSearchFinds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := &knowledge.Chip{ID: "drawn", IdleW: rapid.Float64Range(0, 30).Draw(t, "idle"), CoreShare: 0.9}
		p := knowledge.Point{GHz: 2, Volts: rapid.Float64Range(0.6, 1).Draw(t, "volts"), Watts: rapid.Float64Range(31, 90).Draw(t, "watts")}
		for range rapid.IntRange(2, 6).Draw(t, "points") {
			k.Points = append(k.Points, p)
			p.GHz += rapid.Float64Range(0.05, 1).Draw(t, "ghz step")
			p.Volts += rapid.Float64Range(0, 0.4).Draw(t, "volts step")
			p.Watts += rapid.Float64Range(0.5, 90).Draw(t, "watts step")
		}
		c := curve(t, k)
		target := rapid.Float64Range(c.First(), c.Last()).Draw(t, "target")
		activity := rapid.Float64Range(0.2, 1.2).Draw(t, "activity")
		var caps chip.Caps
		if rapid.Bool().Draw(t, "power cap") {
			caps.PowerW = number(rapid.Float64Range(20, 400).Draw(t, "cap W"))
		}
		if rapid.Bool().Draw(t, "current cap") {
			caps.CurrentA = number(rapid.Float64Range(20, 400).Draw(t, "cap A"))
		}
		got := c.Hold(target, activity, caps)
		if ghz, by := slowHold(c, target, activity, caps); math.Abs(got.GHz-ghz) > 1e-9 || got.LimitedBy != by {
			t.Fatalf("holds %.12f GHz by %s, want %.12f by %s", got.GHz, got.LimitedBy, ghz, by)
		}
		if !got.FirstPoint && caps.Broken(got.Demand) != "" {
			t.Fatalf("%+v breaks its caps", got)
		}
	})
}
