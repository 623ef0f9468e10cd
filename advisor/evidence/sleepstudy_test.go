package evidence_test

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"hotroom/advisor/evidence"
)

// Source: the public sleepstudy data, fitted by maximum likelihood with
// uncorrelated random slopes by R's lme4 1.1-31. The command and its printed
// fit stand beside the data in testdata/sleepstudy.
func TestPopulationAgreesWithLme4(t *testing.T) {
	boards := sleepstudy(t)
	start := evidence.Belief{Mean: evidence.Vector{250, 10, 0}, DiscrepancyK: 30}
	start.Cov[0][0], start.Cov[1][1] = 900, 50
	got := evidence.Population(boards, start, evidence.Weights{})
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"intercept", got.Mean[0], 251.405105},
		{"slope", got.Mean[1], 10.467286},
		{"spread of intercepts", math.Sqrt(got.Cov[0][0]), 24.17126545},
		{"spread of slopes", math.Sqrt(got.Cov[1][1]), 5.79940853},
		{"residual", got.DiscrepancyK, 25.55613468},
	} {
		near(t, c.what, c.got, c.want, 5e-5*c.want)
	}
}

// sleepstudy reads the data: one subject is a board, one day is a run.
func sleepstudy(t *testing.T) [][]evidence.Observation {
	t.Helper()
	f, err := os.Open("../../testdata/sleepstudy/sleepstudy.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var boards [][]evidence.Observation
	subject := ""
	for _, row := range rows[1:] {
		if row[2] != subject {
			subject = row[2]
			boards = append(boards, nil)
		}
		last := len(boards) - 1
		boards[last] = append(boards[last], evidence.Observation{X: evidence.Vector{1, float(t, row[1]), 0}, Y: float(t, row[0])})
	}
	return boards
}

func float(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}
