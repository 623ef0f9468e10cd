package storm

import (
	"math/rand/v2"
	"strings"
	"testing"
)

// Altered inputs are no longer than allowed, of many kinds, and the same for
// the same random numbers.
func TestAlter(t *testing.T) {
	seeds := []string{"[[chip]]\nid = \"a\"\nwatts = 65\n", "a,b\n1,2\n", ""}
	a, b := rand.New(rand.NewPCG(1, 2)), rand.New(rand.NewPCG(1, 2))
	seen := map[string]bool{}
	for range 5000 {
		x := alter(a, seeds, 2)
		if y := alter(b, seeds, 2); x != y {
			t.Fatalf("%q and %q", x, y)
		}
		if len(x) > most {
			t.Fatalf("%d bytes", len(x))
		}
		seen[x] = true
	}
	if len(seen) < 3000 {
		t.Errorf("only %d different ones", len(seen))
	}
}

// What the reader trips over is reported and kept.
func TestFindsAFault(t *testing.T) {
	t.Chdir(t.TempDir())
	found := ""
	s := &storm{t: t, target: "FuzzIt", form: "string", seeds: []string{"abc"}, given: 1, left: 100_000, try: func(_ *testing.T, input string) bool {
		if found == "" && strings.Contains(input, "b\x00") {
			found = input
		}
		return true
	}}
	s.work(rand.New(rand.NewPCG(3, 4)))
	if found == "" {
		t.Fatal("100,000 inputs, and none with what was looked for")
	}
	s.keep(found)
	kept, err := corpus("FuzzIt")
	if err != nil || len(kept) != 1 || kept[0] != found {
		t.Errorf("kept %q, %v, want %q", kept, err, found)
	}
}
