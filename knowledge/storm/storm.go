// Package storm throws altered inputs at a reader by the million, for tests:
// many times as fast as guided fuzzing, which finds the inputs that are worth
// altering. It starts from the seeds and from what fuzzing has kept in
// testdata/fuzz.
package storm

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"
)

// Asked is the environment variable that holds how many inputs are tried;
// without it a few thousand are.
const Asked = "HOTROOM_STORM"

const few = 2000

// Text is what a fuzz target takes.
type Text interface{ string | []byte }

// Run tries altered seeds until there were enough of them. try reports whether
// the reader took the input for good; it fails the test or panics where
// something is wrong, and the input is then kept as a seed of the fuzz target.
func Run[T Text](t *testing.T, target string, seeds []T, try func(t *testing.T, input T) bool) {
	t.Helper()
	number, err := wanted()
	if err != nil {
		t.Fatal(err)
	}
	kept, err := corpus(target)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, seed := range seeds {
		all = append(all, string(seed))
	}
	s := &storm{t: t, target: target, left: int64(number), seeds: append(all, kept...), given: len(all), try: func(t *testing.T, input string) bool { return try(t, T(input)) }}
	if s.form = "string"; fmt.Sprintf("%T", *new(T)) != s.form {
		s.form = "[]byte"
	}
	began := time.Now()
	var workers sync.WaitGroup
	for worker := range runtime.GOMAXPROCS(0) {
		workers.Go(func() { s.work(rand.New(rand.NewPCG(uint64(number), uint64(worker)))) })
	}
	workers.Wait()
	t.Logf("%d inputs from %d seeds, %d taken for good, in %.0f s", number, len(s.seeds), s.good.Load(), time.Since(began).Seconds())
}

func wanted() (int, error) {
	text := os.Getenv(Asked)
	if text == "" {
		return few, nil
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 1 {
		return 0, fmt.Errorf("%s=%q is no number of inputs: give a whole number from 1 on", Asked, text)
	}
	return n, nil
}

type storm struct {
	t      *testing.T
	target string
	form   string // the target's type, as go test writes it
	try    func(*testing.T, string) bool
	seeds  []string // those given, then those that fuzzing kept
	given  int
	left   int64
	good   atomic.Int64
}

func (s *storm) work(r *rand.Rand) {
	for atomic.AddInt64(&s.left, -1) >= 0 && !s.t.Failed() {
		s.one(alter(r, s.seeds, s.given))
	}
}

// one tries an input and keeps it where that fails.
func (s *storm) one(input string) {
	done := false
	defer func() {
		if problem := recover(); problem != nil || !done || s.t.Failed() {
			s.keep(input)
			s.t.Errorf("%q: %v", input, problem)
		}
	}()
	if s.try(s.t, input) {
		s.good.Add(1)
	}
	done = true
}

func (s *storm) folder() string { return filepath.Join("testdata", "fuzz", s.target) }

// keep writes an input in the form of go test's fuzz corpora.
func (s *storm) keep(input string) {
	if err := os.MkdirAll(s.folder(), 0o755); err == nil {
		_ = os.WriteFile(filepath.Join(s.folder(), "storm"), []byte("go test fuzz v1\n"+s.form+"("+strconv.Quote(input)+")\n"), 0o644) // the failure itself is reported in any case
	}
}

// corpus reads what fuzzing has kept: the last value of each entry.
func corpus(target string) ([]string, error) {
	files, err := filepath.Glob(filepath.Join("testdata", "fuzz", target, "*"))
	if err != nil {
		return nil, err
	}
	var list []string
	for _, file := range files {
		text, err := os.ReadFile(file)
		if err != nil {
			return nil, err
		}
		lines := strings.Split(strings.TrimSpace(string(text)), "\n")
		quoted := lines[len(lines)-1]
		quoted = quoted[strings.IndexByte(quoted, '(')+1 : len(quoted)-1]
		value, err := strconv.Unquote(quoted)
		if err != nil {
			return nil, fmt.Errorf("%s: %w: write it as go test does", file, err)
		}
		list = append(list, value)
	}
	return list, nil
}
