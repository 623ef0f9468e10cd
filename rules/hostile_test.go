package rules

import (
	"math"
	"runtime"
	"runtime/debug"
	"slices"
	"strings"
	"testing"
	"time"

	"hotroom/rules/facts"
)

// What a stranger's file may cost. The time to judge is what is promised; the
// others are what this machine class needs, with room to spare.
const (
	mostJudging     = 10 * time.Millisecond
	mostJudgedBytes = 4 << 20
	mostLoading     = 250 * time.Millisecond
	mostLoadedBytes = 48 << 20
	mostStack       = 32 << 20 // a file that overflows it ends the test
)

// A rules file from a stranger is refused when it is checked, with a sentence
// and a place, or judges within 10 ms; either costs bounded memory. There is
// nothing in the language that reads files, the clock or the environment.
func TestHostileRules(t *testing.T) {
	defer debug.SetMaxStack(debug.SetMaxStack(mostStack))
	var loading, judging worst
	all := slices.Concat(looping(), growing(), reaching(), deep(), odd(), wide())
	refused := 0
	for _, a := range all {
		t.Run(a.name, func(t *testing.T) {
			var b *Book
			var refusal string
			took, used := cost(func() {
				book, problems := Load("stranger.toml", []byte(a.file))
				b, refusal = book, ""
				if book == nil {
					refusal = problems[0].String()
				}
			}, mostLoading)
			loading.note(a.name, took, used)
			if took > slack*mostLoading || used > mostLoadedBytes {
				t.Errorf("loading takes %v and %d KiB", took, used>>10)
			}
			if refusal != a.want {
				t.Errorf("refused with %q, want %q", refusal, a.want)
			}
			if b == nil {
				refused++
			} else {
				judgesCheaply(t, b, a.name, &judging)
			}
		})
	}
	t.Logf("%d attacks, of which %d are refused and the others judge", len(all), refused)
	t.Logf("the slowest file to read: %s", loading)
	t.Logf("the slowest file to judge by: %s", judging)
}

// judgesCheaply judges and explains every kind of scene.
func judgesCheaply(t *testing.T, b *Book, name string, judging *worst) {
	t.Helper()
	for scene, f := range hostileFacts() {
		for way, judge := range map[string]func(){"judging": func() { sane(t, b.Judge(f)) }, "explaining": func() { b.Explain(f) }} {
			took, used := cost(judge, mostJudging)
			judging.note(name+", "+scene, took, used)
			if took > slack*mostJudging || used > mostJudgedBytes {
				t.Errorf("%s %s facts takes %v and %d KiB", way, scene, took, used>>10)
			}
		}
	}
}

// sane holds what an answer may say whatever the rules are.
func sane(t *testing.T, j Judgement) {
	t.Helper()
	if rank(j.Verdict) < 0 || math.IsNaN(j.Score) || math.IsInf(j.Score, 0) {
		t.Errorf("the verdict is %q with %v points", j.Verdict, j.Score)
	}
	texts := []string{j.Say}
	for _, f := range j.Fired {
		texts = append(texts, f.Text)
	}
	for _, text := range texts {
		if len(text) > 3000 {
			t.Errorf("a text of %d bytes: %.40s", len(text), text)
		}
	}
}

// hostileFacts are plain, all unknown, all zero, and as long as names can be.
func hostileFacts() map[string]facts.Facts {
	scenes := map[string]facts.Facts{"calm": facts.Calm()}
	for scene, value := range map[string]any{"unknown": math.NaN(), "zero": 0.0, "huge": math.MaxFloat64, "long": strings.Repeat("a", 1000)} {
		f := facts.Calm()
		for _, fact := range facts.List() {
			fact.Set(&f, value)
		}
		scenes[scene] = f
	}
	return scenes
}

// cost measures the best of a few tries, for the machine has other work, and
// the bytes allocated.
func cost(do func(), enough time.Duration) (time.Duration, uint64) {
	best, least := time.Duration(math.MaxInt64), uint64(math.MaxUint64)
	for try := 0; try == 0 || try < 5 && best > enough; try++ {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		began := time.Now()
		do()
		best = min(best, time.Since(began))
		runtime.ReadMemStats(&after)
		least = min(least, after.TotalAlloc-before.TotalAlloc)
	}
	return best, least
}

// worst keeps the dearest of what it is told.
type worst struct {
	slowest, largest string
	took             time.Duration
	used             uint64
}

func (w *worst) note(name string, took time.Duration, used uint64) {
	if took > w.took {
		w.slowest, w.took = name, took
	}
	if used > w.used {
		w.largest, w.used = name, used
	}
}

func (w worst) String() string {
	return w.slowest + " with " + w.took.String() + "; the largest: " + w.largest + " with " + kib(w.used)
}

func kib(n uint64) string { return format(float64(n>>10), 0) + " KiB allocated" }
