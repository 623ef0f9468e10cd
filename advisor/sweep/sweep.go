// Package sweep answers one question over a range of room temperatures or
// package powers.
package sweep

import (
	"context"
	"fmt"
	"math"

	"hotroom/advisor"
	"hotroom/advisor/chip"
	"hotroom/knowledge"
)

// What a sweep goes over.
const (
	OverRoom  = "room"  // room temperature, °C
	OverPower = "power" // package power cap, W
)

// mostSteps bounds a sweep.
const mostSteps = 500

// Range is what a sweep goes over; nil ends take their defaults: rooms from 15
// to 45 °C, powers from the chip's first operating point to what the target
// clock draws.
type Range struct {
	Over string
	From *float64 // °C or W
	To   *float64 // °C or W
	Step float64  // K or W; 0: about twenty steps
}

// Row is one answer of a sweep, with the fields of the advice that it shows.
type Row struct {
	At       float64         `json:"at"` // °C or W
	Verdict  string          `json:"verdict"`
	Evidence string          `json:"evidence"`
	HotSpot  advisor.HotSpot `json:"hot_spot"`
	Limit    advisor.Limit   `json:"limit"`
	Margin   advisor.Margin  `json:"margin"`
	Clock    advisor.Clock   `json:"clock"`
	Power    advisor.Power   `json:"power"`
}

// Point is a measured run of the same board and chip.
type Point struct {
	Run     string  `json:"run"`
	At      float64 `json:"at"` // its room, °C, or its package power, W
	HotC    float64 `json:"hot_c"`
	Outcome string  `json:"outcome"`
	Alike   bool    `json:"alike"` // made as asked, but for what is swept over
}

// Sweep is the answers over the range.
type Sweep struct {
	Question advisor.Question `json:"question"`
	Over     string           `json:"over"`
	Rows     []Row            `json:"rows"`
	Points   []Point          `json:"points"`
	// UsedUpAt is where the kept margin is used up, °C or W; null: not in the
	// range.
	UsedUpAt *float64 `json:"used_up_at"`
	Notes    []string `json:"notes"`
}

// Over answers a question over a range. The error is a *advisor.Refusal, or
// the context's error.
func Over(ctx context.Context, s *advisor.Snapshot, q advisor.Question, r Range) (Sweep, error) {
	base, err := advisor.AdviseBriefly(ctx, s, q)
	if err != nil {
		return Sweep{}, err
	}
	if err := r.askable(ctx, s, base.Question); err != nil {
		return Sweep{}, err
	}
	steps, err := r.values(s.Base(), base.Question)
	if err != nil {
		return Sweep{}, err
	}
	w := Sweep{Question: base.Question, Over: r.Over, Rows: []Row{}, Notes: []string{}, Points: points(s.Base(), base.Question, r.Over)}
	for _, at := range steps {
		a, err := advisor.AdviseBriefly(ctx, s, ask(base.Question, r.Over, at))
		if err != nil {
			return Sweep{}, err
		}
		w.Rows = append(w.Rows, Row{
			At: at, Verdict: a.Verdict, Evidence: a.Evidence, HotSpot: a.HotSpot, Limit: a.Limit, Margin: a.Margin, Clock: a.Clock, Power: a.Power,
		})
	}
	w.UsedUpAt = usedUp(w.Rows, base, r.Over)
	w.note()
	return w, nil
}

// note says which runs cannot be held against the sweep, and what a sweep over
// powers changes of the question.
func (w *Sweep) note() {
	other := 0
	for _, p := range w.Points {
		if !p.Alike {
			other++
		}
	}
	if other > 0 {
		w.Notes = append(w.Notes, fmt.Sprintf("Measured runs of this board with this chip that were made under other conditions, and cannot be held against these steps: %d.", other))
	}
	if w.Over != OverPower {
		return
	}
	w.Notes = append(w.Notes, "Each step caps the package power; the chip draws less where its target clock needs less.")
	if w.Question.CurrentA == nil {
		w.Notes = append(w.Notes, "No current cap is in force here: give one to keep it.")
	}
}

// ask changes the question to one step.
func ask(q advisor.Question, over string, at float64) advisor.Question {
	if over == OverRoom {
		q.RoomC = &at
		return q
	}
	q.Setup, q.PowerW = advisor.SetupCustom, &at
	return q
}

// askable refuses an end that nothing can be answered for, by its own value.
func (r Range) askable(ctx context.Context, s *advisor.Snapshot, q advisor.Question) error {
	for _, end := range []*float64{r.From, r.To} {
		if end == nil || r.Over != OverRoom && r.Over != OverPower {
			continue
		}
		if _, err := advisor.AdviseBriefly(ctx, s, ask(q, r.Over, *end)); err != nil {
			return err
		}
	}
	return nil
}

// values lists the steps.
func (r Range) values(base *knowledge.Base, q advisor.Question) ([]float64, error) {
	from, to, err := r.usual(base, q)
	if err != nil {
		return nil, err
	}
	step := r.Step
	if step == 0 && r.ends(&from, &to) {
		step = niceStep((to - from) / 20)
		if r.From == nil && r.Over == OverPower {
			from = math.Ceil(from/step) * step
		}
		if r.To == nil && r.Over == OverPower {
			to = math.Ceil(to/step) * step
		}
	}
	if !r.ends(&from, &to) || !(step > 0) || (to-from)/step > mostSteps {
		return nil, r.impossible(from, to, step)
	}
	n := int(math.Floor((to-from)/step+1e-9)) + 1
	list := make([]float64, n)
	for i := range list {
		list[i] = math.Round((from+float64(i)*step)*1e6) / 1e6
	}
	return list, nil
}

// ends puts the ends that were asked for in place of the usual ones, and
// reports whether they are a rising range.
func (r Range) ends(from, to *float64) bool {
	if r.From != nil {
		*from = *r.From
	}
	if r.To != nil {
		*to = *r.To
	}
	return *to > *from && !math.IsInf(*from, 0) && !math.IsInf(*to, 0)
}

// usual gives the ends of a range of which none was asked for, °C or W.
func (r Range) usual(base *knowledge.Base, q advisor.Question) (from, to float64, err error) {
	switch r.Over {
	case OverRoom:
		return 15, 45, nil
	case OverPower:
		from, to = powers(base, q)
		return from, to, nil
	}
	return 0, 0, &advisor.Refusal{
		Kind: advisor.BadValue, Field: "over", What: fmt.Sprintf("a sweep over %q is not possible", r.Over), Mend: "sweep over room or power",
		Candidates: []string{OverRoom, OverPower},
	}
}

func (r Range) impossible(from, to, step float64) error {
	unit := "°C"
	if r.Over == OverPower {
		unit = "W"
	}
	refusal := &advisor.Refusal{Kind: advisor.BadValue, Field: "to", What: fmt.Sprintf("a sweep from %.6g to %.6g %s is not possible", from, to, unit), Mend: "let it end above where it begins"}
	if to > from {
		refusal.Field = "step"
		refusal.What += fmt.Sprintf(" in steps of %.6g", step)
		refusal.Mend = fmt.Sprintf("give a step above 0 and at most %d steps", mostSteps)
	}
	return refusal
}

// niceStep rounds a step up to 1, 2 or 5 times a power of ten.
func niceStep(least float64) float64 {
	if !(least > 0) {
		return 0
	}
	unit := math.Pow(10, math.Floor(math.Log10(least)))
	for _, times := range []float64{1, 2, 5} {
		if times*unit >= least {
			return times * unit
		}
	}
	return 10 * unit
}

// powers gives the powers in W from the chip's first operating point to what
// the target clock draws under the load.
func powers(base *knowledge.Base, q advisor.Question) (from, to float64) {
	k, _ := base.Chip(q.Chip)
	load, _ := base.Load(q.Load)
	curve, err := chip.NewCurve(k)
	if err != nil {
		return 0, 0
	}
	return curve.At(curve.First(), load.Activity).PackageW, curve.At(*q.GHz, load.Activity).PackageW
}

// usedUp gives where the kept margin is used up, if that is in the range: the
// answer's own ceiling.
func usedUp(rows []Row, a advisor.Advice, over string) *float64 {
	at := a.Ceiling.RoomC
	if over == OverPower {
		at = a.Ceiling.PackageW
		if a.Ceiling.PackageAtLeast {
			at = nil
		}
	}
	if at == nil || *at < rows[0].At || *at > rows[len(rows)-1].At {
		return nil
	}
	return at
}

// points lists the board's measured runs with the chip.
func points(base *knowledge.Base, q advisor.Question, over string) []Point {
	list := []Point{}
	for _, r := range base.RunsOf(q.Board) {
		if r.Chip != q.Chip || !r.Counts() {
			continue
		}
		p := Point{Run: r.ID, At: r.RoomC, HotC: *r.HotC, Outcome: r.Outcome, Alike: alike(r, q, over)}
		if over == OverPower {
			p.At = *r.PackageW
		}
		list = append(list, p)
	}
	return list
}

// sameRoomC is how far a run's room may be from the asked one and still count
// as the same, K (common practice, no source).
const sameRoomC = 1.0

// alike reports whether a run was made as asked, but for what is swept over.
func alike(r *knowledge.Run, q advisor.Question, over string) bool {
	if r.Enclosure != q.Enclosure || r.Cooler != q.Cooler || r.Load != q.Load || r.GraphicsW != *q.GraphicsW || r.AltitudeM != *q.AltitudeM {
		return false
	}
	if over == OverPower {
		return math.Abs(r.RoomC-*q.RoomC) <= sameRoomC
	}
	return r.Setup == q.Setup
}
