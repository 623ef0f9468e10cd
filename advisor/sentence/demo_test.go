package sentence_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
	"hotroom/knowledge"
)

func demo(t *testing.T) *knowledge.Base {
	t.Helper()
	base, problems := knowledge.Read(knowledge.Demo())
	if problems.Fatal() {
		t.Fatal(problems)
	}
	return base
}

// Every board and chip of the demo is understood, by id or by name, in any of
// the ways to ask, and nothing is left over.
func TestDemoNames(t *testing.T) {
	base := demo(t)
	names := sentence.NewNames(base)
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SampledFrom(base.Boards).Draw(t, "board")
		c := rapid.SampledFrom(base.Chips).Draw(t, "chip")
		room := rapid.IntRange(-20, 60).Draw(t, "room")
		text := rapid.SampledFrom([]string{
			"Will the %[1]s handle the %[2]s in a %[3]d °C room?",
			"%[2]s on a %[1]s at %[3]dC",
			"room %[3]d, %[1]s, %[2]s",
			"is it %[3]d degrees too hot for %[2]s with the %[1]s",
		}).Draw(t, "template")
		text = fmt.Sprintf(text,
			rapid.SampledFrom([]string{b.ID, b.Name}).Draw(t, "board name"),
			rapid.SampledFrom([]string{c.ID, c.Name}).Draw(t, "chip name"), room)
		if rapid.Bool().Draw(t, "shouted") {
			text = strings.ToUpper(text)
		}
		r := names.Read(text, advisor.Question{})
		q := r.Question
		if r.Ask != nil || q.Board != b.ID || q.Chip != c.ID || q.RoomC == nil || *q.RoomC != float64(room) {
			t.Fatalf("%q: %q, ask %v", text, r.Taken, r.Ask)
		}
		if len(r.Unplaced) > 0 {
			t.Errorf("%q: not placed: %q", text, r.Unplaced)
		}
	})
}
