package sentence_test

import (
	"cmp"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
	"hotroom/knowledge"
)

// sample is one block of testdata/sentences: lines typed one after another and
// what the last of them must be read as.
type sample struct {
	at    string
	lines []string
	want  map[string]string
}

func samples(t *testing.T, name string) []sample {
	t.Helper()
	data, err := os.ReadFile("../../testdata/sentences/" + name)
	if err != nil {
		t.Fatal(err)
	}
	var list []sample
	var lines []string
	for i, line := range strings.Split(string(data), "\n") {
		rest, ends := strings.CutPrefix(line, "=> ")
		switch {
		case ends:
			list = append(list, sample{fmt.Sprintf("%s:%d", name, i+1), lines, expected(rest)})
			lines = nil
		case line != "" && !strings.HasPrefix(line, "#"):
			lines = append(lines, line)
		}
	}
	return list
}

func expected(text string) map[string]string {
	want := map[string]string{}
	for _, field := range strings.Split(text, "; ") {
		key, value, _ := strings.Cut(field, "=")
		want[key] = value
	}
	return want
}

// read types the lines of a sample and gives the last reading, and what is
// asked after it, as key and value.
func (s sample) read(names *sentence.Names) (got map[string]string, last sentence.Reading) {
	var so sentence.Asked
	for _, line := range s.lines {
		last = names.Follow(line, so)
		so, _ = names.Carry(so, last.Asked)
	}
	got = shown(so)
	if last.Ask != nil {
		got = map[string]string{"ask": last.Ask.Field}
		if len(last.Ask.Candidates) > 0 {
			got["ask"] += ":" + strings.Join(last.Ask.Candidates, ",")
		}
	}
	return got, last
}

func shown(a sentence.Asked) map[string]string {
	got := map[string]string{"kind": string(a.Kind), "over": a.Over, "board": cmp.Or(strings.Join(a.Boards, ","), a.Question.Board)}
	q := a.Question
	for key, word := range map[string]string{"chip": q.Chip, "enclosure": q.Enclosure, "cooler": q.Cooler, "load": q.Load, "setup": q.Setup} {
		got[key] = word
	}
	for key, number := range map[string]*float64{
		"room": q.RoomC, "power": q.PowerW, "current": q.CurrentA, "ghz": q.GHz, "graphics": q.GraphicsW, "altitude": q.AltitudeM, "budget": a.Budget,
	} {
		if number != nil {
			got[key] = strconv.FormatFloat(*number, 'f', -1, 64)
		}
	}
	return got
}

// wrong lists where a reading differs from what is wanted.
func (s sample) wrong(got map[string]string, last sentence.Reading) []string {
	var list []string
	for _, key := range []string{"kind", "over", "board", "chip", "room", "enclosure", "cooler", "load", "setup", "power", "current", "ghz", "graphics", "altitude", "budget"} {
		if _, asks := s.want["ask"]; asks {
			break
		}
		if !same(key, got[key], s.want[key]) {
			list = append(list, fmt.Sprintf("%s %q, want %q", key, got[key], s.want[key]))
		}
	}
	if ask := missing(s, got); !choices(ask, s.want["ask"]) || ask != "" && s.want["ask"] == "" {
		list = append(list, fmt.Sprintf("asks back %q, want %q", ask, s.want["ask"]))
	}
	unplaced := strings.Join(last.Unplaced, " ")
	for _, word := range strings.Split(s.want["unplaced"], ",") {
		if !strings.Contains(unplaced, word) && last.Ask == nil {
			list = append(list, fmt.Sprintf("unplaced %q, want %q among them", unplaced, word))
		}
	}
	return list
}

// missing gives what is asked back: by the reader, or by the advisor because
// the board or the chip is not named.
func missing(s sample, got map[string]string) string {
	switch {
	case got["ask"] != "" || s.want["ask"] == "":
		return got["ask"]
	case got["board"] == "" && got["kind"] != string(sentence.Which):
		return "board"
	case got["chip"] == "":
		return "chip"
	}
	return ""
}

// choices reports whether a question back is the one wanted, its choices in
// any order; where none are given any will do.
func choices(got, want string) bool {
	field, list, listed := strings.Cut(want, ":")
	gotField, gotList, _ := strings.Cut(got, ":")
	if !listed || gotField != field {
		return gotField == field
	}
	for _, id := range strings.Split(list, ",") {
		if !slices.Contains(strings.Split(gotList, ","), id) {
			return false
		}
	}
	return true
}

func same(key, got, want string) bool {
	a, errA := strconv.ParseFloat(got, 64)
	b, errB := strconv.ParseFloat(want, 64)
	if errA != nil || errB != nil {
		return got == want
	}
	return math.Abs(a-b) <= map[string]float64{"room": 0.06, "altitude": 0.6}[key]
}

// rate runs the samples of a file and gives the share read fully right, and
// the share of those with no word left over that was not expected to be.
func rate(t *testing.T, name string, failing func(format string, args ...any)) (right, clean float64) {
	t.Helper()
	base, problems := knowledge.Read(knowledge.Demo())
	if problems.Fatal() {
		t.Fatal(problems)
	}
	names := sentence.NewNames(base)
	all := samples(t, name)
	for _, s := range all {
		got, last := s.read(names)
		wrong := s.wrong(got, last)
		if len(wrong) > 0 {
			failing("%s: %q\n  %s\n  took %q, left %q, ask %v", s.at, s.lines, strings.Join(wrong, "\n  "), last.Taken, last.Unplaced, last.Ask)
			continue
		}
		right++
		if len(last.Unplaced) == 0 || s.want["unplaced"] != "" || last.Ask != nil {
			clean++
		} else if os.Getenv("LEFT") != "" {
			failing("%s: left over %q", s.at, last.Unplaced)
		}
	}
	return right / float64(len(all)), clean / float64(len(all))
}

// Every sentence that the reader was tuned on is read as written down.
func TestShownSentences(t *testing.T) {
	for _, name := range []string{"shown.txt", "second.txt", "third.txt", "fourth.txt"} {
		right, clean := rate(t, name, t.Errorf)
		t.Logf("%s: %.1f %% fully right, %.1f %% with nothing left over", name, 100*right, 100*clean)
	}
}

// leastHeldOut is the share of the sentences set aside that must be read fully
// right.
const leastHeldOut = 0.9

// The sentences set aside are only run: the rate is held, and which of them
// fail is not looked at.
func TestHeldOutSentences(t *testing.T) {
	right, clean := rate(t, "heldout.txt", func(string, ...any) {})
	if right < leastHeldOut {
		t.Errorf("only %.1f %% are read fully right", 100*right)
	}
	t.Logf("%.1f %% fully right, %.1f %% with nothing left over", 100*right, 100*clean)
}

// No reading names a board or a chip that the sentence gives no ground for: a
// sentence of ordinary words names nothing.
func TestOrdinaryTalkNamesNothing(t *testing.T) {
	base := demo(t)
	names := sentence.NewNames(base)
	for _, text := range []string{
		"I broke my book near the river, things are below normal and the state of the plate is poor",
		"the tons of fellow talk about the mark on the wall, kill the tender beach",
		"never mind, thanks, cool",
	} {
		r := names.Read(text, advisor.Question{})
		if q := r.Question; q.Board+q.Chip != "" || len(r.Boards) > 0 || r.Ask != nil || !slices.Equal(sentence.Describe(q), nil) {
			t.Errorf("%q: took %q, ask %v", text, r.Taken, r.Ask)
		}
	}
}
