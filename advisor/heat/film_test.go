package heat

import (
	"math"
	"testing"

	"hotroom/advisor/air"
)

// The table gives what the formulas give, to 11 digits, in it and outside.
func TestFilmIsThatOfTheFormulas(t *testing.T) {
	for filmC := -80.0; filmC < 300; filmC += 0.0937 {
		got := filmAt(90_000, filmC+20, filmC-20)
		f := air.FilmAt(90_000, filmC+20, filmC-20)
		want := film{f, WallFactor(f.Prandtl), math.Cbrt(f.Prandtl)}
		for _, c := range [][2]float64{
			{got.KinematicM2S, want.KinematicM2S},
			{got.DiffusivityM2S, want.DiffusivityM2S},
			{got.ConductWPerMK, want.ConductWPerMK},
			{got.ExpansionPerK, want.ExpansionPerK},
			{got.wall, want.wall},
			{got.rootPrandtl, want.rootPrandtl},
		} {
			if math.Abs(c[0]/c[1]-1) > 1e-11 {
				t.Fatalf("%g °C: got %.15g, want %.15g", filmC, c[0], c[1])
			}
		}
	}
}

func BenchmarkConductance(b *testing.B) {
	p := Path{SinkAreaM2: 0.05, SinkHeightM: 0.03, PadKPerW: 0.25, Factor: 0.9, BoardAreaM2: 0.01}
	for b.Loop() {
		p.Conductance(80, 35, 101_325, 0.8)
	}
}

func BenchmarkTable(b *testing.B) {
	for b.Loop() {
		t := new(properties)
		for i := range t {
			t[i] = propertiesAt(float64(tableFromC + i))
		}
	}
}
