package bench_test

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"hotroom/advisor/bench"
	"hotroom/advisor/spicetest"
)

// Source: ngspice, as an independent solver: two heat capacities in a row, the
// hot spot over its heatsink, fed with 20 W from 120 s on. The truth is ngspice's
// own operating point under load; the record is written as a logger writes it,
// to a tenth of a degree, and cut where the row says.
func TestTwoNodesAgreeWithNgspice(t *testing.T) {
	const roomC, watts, idleS = 22.0, 20.0, 120.0
	circuit := fmt.Sprintf(`two thermal nodes
Iheat 0 hot %%s
C1 hot 0 60
R1 hot sink 1.4
C2 sink 0 260
R2 sink air 1.3
R3 hot air 9
Vair air 0 %g
.options reltol=1e-7
.control
%%s
.endc
.end
`, roomC)
	truth := spicetest.Values(t, fmt.Sprintf(circuit, strconv.Itoa(watts), "op\nprint v(hot)"))["v(hot)"]
	_, folder := spicetest.Batch(t, fmt.Sprintf(circuit, fmt.Sprintf("PWL(0 0 %g 0 %g %g)", idleS, idleS+0.01, watts), "tran 1 6000 0 1\nlinearize v(hot)\nset wr_singlescale\nset numdgt=9\nwrdata hot.data v(hot)"))
	samples := table(t, filepath.Join(folder, "hot.data"))
	for _, minutes := range []float64{95, 45, 25} {
		var b strings.Builder
		b.WriteString("time_s,hot_c,room_c,package_w\n")
		for _, s := range samples {
			power := 10.0
			if s[0] > idleS {
				power = 120
			}
			if s[0] <= idleS+60*minutes {
				fmt.Fprintf(&b, "%.0f,%.1f,%.1f,%.0f\n", s[0], s[1], roomC, power)
			}
		}
		r := reduce(t, b.String(), bench.Options{})
		if r.Quality.SettleC == nil || math.Abs(*r.Quality.SettleC-truth) > 0.5 {
			t.Errorf("%g min: settles at %v, ngspice says %.3f °C: %v", minutes, r.Quality.SettleC, truth, r.Quality.Reasons)
		} else {
			t.Logf("%g min: %.2f, ngspice %.2f °C; grade %s", minutes, *r.Quality.SettleC, truth, r.Quality.Grade)
		}
	}
}

// table reads columns of numbers.
func table(t *testing.T, path string) [][]float64 {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var rows [][]float64
	for _, line := range strings.Split(strings.TrimSpace(string(text)), "\n") {
		var row []float64
		for _, field := range strings.Fields(line) {
			v, err := strconv.ParseFloat(field, 64)
			if err != nil {
				t.Fatal(err)
			}
			row = append(row, v)
		}
		rows = append(rows, row)
	}
	if len(rows) < 1000 {
		t.Fatalf("ngspice wrote %d rows", len(rows))
	}
	return rows
}
