package comparison

import (
	"context"
	"fmt"
	"math"
	"slices"

	"hotroom/advisor"
	"hotroom/knowledge"
)

// The fewest and most boards of a comparison.
const (
	fewest = 2
	most   = 6
)

// Build is what a board is made of, side by side with others.
type Build struct {
	Phases          int      `json:"phases"`
	DevicesPerPhase int      `json:"devices_per_phase"`
	Stage           string   `json:"stage"`
	SwitchingKHz    float64  `json:"switching_khz"`
	Heatsink        string   `json:"heatsink"` // shape
	HeatsinkMassG   *float64 `json:"heatsink_mass_g"`
	HeatsinkAreaCM2 *float64 `json:"heatsink_area_cm2"`
	LimitPowerW     *float64 `json:"limit_power_w"`   // as shipped
	LimitCurrentA   *float64 `json:"limit_current_a"` // as shipped
	LimitHotSpotC   *float64 `json:"limit_hot_spot_c"`
	Firmware        string   `json:"firmware"`
}

// Column is one board of a comparison.
type Column struct {
	Name     string         `json:"name"`
	Price    *float64       `json:"price"`
	Currency string         `json:"currency"`
	Build    Build          `json:"build"`
	Advice   advisor.Advice `json:"advice"`
}

// Pair holds two boards of a comparison against each other.
type Pair struct {
	A string `json:"a"` // board id
	B string `json:"b"` // board id
	// CoolerProbability is the probability that A's hot spot is cooler than
	// B's under the conditions of the question; null: one cannot settle.
	CoolerProbability *float64 `json:"cooler_probability"`
	// DeltaC is B's expected hot spot less A's, K, under the same conditions.
	DeltaC *float64 `json:"delta_c"`
	// RunA and RunB are the two measured runs that are most alike; empty when
	// one of the boards has none with this chip.
	RunA string `json:"run_a"`
	RunB string `json:"run_b"`
	// LikeForLike says that these two runs may be compared directly, and
	// MeasuredDeltaC is then B's temperature less A's, K.
	LikeForLike    bool     `json:"like_for_like"`
	MeasuredDeltaC *float64 `json:"measured_delta_c"`
	Unlike         []string `json:"unlike"`   // why not, in words
	Firmware       []string `json:"firmware"` // what to know of the firmwares
}

// Comparison is boards side by side.
type Comparison struct {
	Question  advisor.Question   `json:"question"` // board empty
	Rows      []Column           `json:"rows"`
	Pairs     []Pair             `json:"pairs"`     // every two boards
	Exchanges []advisor.Exchange `json:"exchanges"` // from the first board to each other
	Notes     []string           `json:"notes"`
}

// Compare answers a question for two to six boards and holds them against each
// other. The error is a *advisor.Refusal, or the context's error.
func Compare(ctx context.Context, s *advisor.Snapshot, q advisor.Question, boards []string) (Comparison, error) {
	if err := checkBoards(boards); err != nil {
		return Comparison{}, err
	}
	c := Comparison{Rows: []Column{}, Pairs: []Pair{}, Exchanges: []advisor.Exchange{}, Notes: []string{}}
	for _, id := range boards {
		q.Board = id
		advice, err := advisor.AdviseBriefly(ctx, s, q)
		if err != nil {
			return Comparison{}, err
		}
		c.Rows = append(c.Rows, column(s.Base(), advice))
		c.Question = advice.Question
	}
	c.Question.Board = ""
	for i := range c.Rows {
		for j := i + 1; j < len(c.Rows); j++ {
			c.Pairs = append(c.Pairs, pair(s.Base(), &c.Rows[i].Advice, &c.Rows[j].Advice))
		}
	}
	for _, to := range boards[1:] {
		x, err := advisor.ExchangeParts(ctx, s, q, boards[0], to)
		if err != nil {
			return Comparison{}, err
		}
		c.Exchanges = append(c.Exchanges, x)
	}
	return c, nil
}

func checkBoards(boards []string) error {
	if len(boards) < fewest || len(boards) > most {
		what := fmt.Sprintf("%d boards cannot be set side by side", len(boards))
		if len(boards) == 1 {
			what = "one board alone cannot be compared"
		}
		return &advisor.Refusal{Kind: advisor.BadValue, Field: "board", What: what, Mend: fmt.Sprintf("name %d to %d boards", fewest, most)}
	}
	for i, id := range boards {
		if slices.Contains(boards[:i], id) {
			return &advisor.Refusal{Kind: advisor.BadValue, Field: "board", What: fmt.Sprintf("the board %q is named twice", id), Mend: "name each board once"}
		}
	}
	return nil
}

func column(base *knowledge.Base, advice advisor.Advice) Column {
	b, _ := base.Board(advice.Question.Board)
	stage, _ := base.Stage(b.Regulator.Stage)
	devices := 1
	if stage.Kind == knowledge.StageDiscrete {
		devices = stage.HighCount + stage.LowCount
	}
	return Column{
		Name: b.Name, Price: b.Price, Currency: b.Currency, Advice: advice,
		Build: Build{
			Phases: b.Regulator.Phases, DevicesPerPhase: devices, Stage: stage.Name, SwitchingKHz: b.Regulator.SwitchingKHz,
			Heatsink: b.Heatsink.Shape, HeatsinkMassG: b.Heatsink.MassG, HeatsinkAreaCM2: b.Heatsink.AreaCM2,
			LimitPowerW: b.Limit.PowerW, LimitCurrentA: b.Limit.CurrentA, LimitHotSpotC: b.Limit.HotSpotC, Firmware: b.Firmware,
		},
	}
}

// pair holds two answers against each other, and the most alike of their runs.
func pair(base *knowledge.Base, a, b *advisor.Advice) Pair {
	p := Pair{A: a.Question.Board, B: b.Question.Board, Unlike: []string{}, Firmware: []string{}}
	if a.HotSpot.ExpectedC != nil && b.HotSpot.ExpectedC != nil {
		delta := *b.HotSpot.ExpectedC - *a.HotSpot.ExpectedC
		p.DeltaC = number(delta)
		p.CoolerProbability = number(Cooler(delta, *a.HotSpot.UncertaintyC, *b.HotSpot.UncertaintyC))
	}
	runA, runB, unlike := mostAlike(base, a, b)
	if runA == nil {
		p.Unlike = append(p.Unlike, fmt.Sprintf("no two runs with the chip %s", a.Question.Chip))
		return p
	}
	p.RunA, p.RunB = runA.ID, runB.ID
	p.Unlike = append(p.Unlike, unlike...)
	p.Firmware = append(p.Firmware, firmware(base, runA, runB)...)
	if len(unlike) == 0 {
		p.LikeForLike, p.MeasuredDeltaC = true, number(*runB.HotC-*runA.HotC)
	}
	return p
}

// Cooler gives the probability that the first of two hot spots is the cooler
// one, given how much hotter the second is expected to be and the standard
// uncertainties of both, all in K: a normal difference of independent
// estimates.
func Cooler(deltaC, uncertaintyA, uncertaintyB float64) float64 {
	return math.Erfc(-deltaC/(math.Hypot(uncertaintyA, uncertaintyB)*math.Sqrt2)) / 2
}

// mostAlike finds the two runs with the asked chip that differ in the fewest
// respects; the first such pair in the order of the file.
func mostAlike(base *knowledge.Base, a, b *advisor.Advice) (runA, runB *knowledge.Run, unlike []string) {
	for _, x := range base.RunsOf(a.Question.Board) {
		for _, y := range base.RunsOf(b.Question.Board) {
			if x.Chip != a.Question.Chip || y.Chip != a.Question.Chip {
				continue
			}
			if why := Unlike(base, x, y); runA == nil || len(why) < len(unlike) {
				runA, runB, unlike = x, y, why
			}
		}
	}
	return runA, runB, unlike
}

// firmware says which of two runs did not use the firmware of its board's record.
func firmware(base *knowledge.Base, runs ...*knowledge.Run) []string {
	var list []string
	for _, r := range runs {
		b, _ := base.Board(r.Board)
		switch {
		case r.Firmware == b.Firmware:
		case r.Firmware == "":
			list = append(list, fmt.Sprintf("the run %s names no firmware; the board's record has %s", r.ID, b.Firmware))
		case b.Firmware == "":
			list = append(list, fmt.Sprintf("the run %s had firmware %s; the board's record names none", r.ID, r.Firmware))
		default:
			list = append(list, fmt.Sprintf("the run %s had firmware %s; the board's record has %s", r.ID, r.Firmware, b.Firmware))
		}
	}
	return list
}

// number rounds to the four decimals of the answers.
func number(v float64) *float64 {
	v = math.Round(v*1e4)/1e4 + 0 // never -0
	return &v
}
