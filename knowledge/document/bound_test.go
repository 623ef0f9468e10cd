package document

import (
	"fmt"
	"runtime"
	"strings"
	"testing"
)

// What a file may hold is bounded, and so is what is told of it.
func TestBounds(t *testing.T) {
	deep := strings.Repeat("a.", 50_000) + "a"
	inline := strings.Repeat("{a=", 5000) + "1" + strings.Repeat("}", 5000)
	for _, tt := range []struct{ name, src, want string }{
		{"dotted key", deep + " = 1", "f:1:100001: this lies in more than 16 tables: write it with less nesting"},
		{"header", "[" + deep + "]\nx = 1", "f:1:100002: this lies in more than 16 tables: write it with less nesting"},
		{"list header", "[[" + deep + "]]", "f:1:100003: this lies in more than 16 tables: write it with less nesting"},
		{"inline tables", "a = " + inline, "f:1:51: this lies in more than 16 tables: write it with less nesting"},
		{"lists", "a = " + strings.Repeat("[", 20_000), "f:1:10005: arrays and inline tables are nested more than the maximum of 10000 levels deep: write one key = value on a line, text between quotes"},
		{"text", "[[rack]]\nid = \"" + strings.Repeat("i", 1001) + "\"\nslots = 1\nfan.speed_ms = 1", "f:2:6: id has 1001 bytes, and 1000 are allowed: shorten it"},
	} {
		if got := mistakes(tt.src); got.Error() != tt.want {
			t.Errorf("%s: got %s\nwant %s", tt.name, got.Error(), tt.want)
		}
	}
}

// A file full of mistakes tells the first of them, and that it stopped.
func TestMistakesAreCounted(t *testing.T) {
	for name, src := range map[string]string{
		"twice":    strings.Repeat("a = 1\n", 50_000),
		"unknown":  unknownKeys(50_000),
		"syntax":   strings.Repeat("a =\n", 50_000),
		"no UTF-8": strings.Repeat("\xff\n", 50_000),
		"one line": "rack = [" + strings.Repeat("1,", 50_000) + "]",
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		got := mistakes(src)
		runtime.ReadMemStats(&after)
		last := got[len(got)-1].String()
		want := "from here on the file is not looked at, for it has 999 mistakes before: mend those first"
		if len(got) != 1000 || !strings.HasSuffix(last, want) {
			t.Errorf("%s: %d problems, the last %s", name, len(got), last)
		}
		if used := after.TotalAlloc - before.TotalAlloc; used > 64<<20 {
			t.Errorf("%s: %d MiB", name, used>>20)
		}
	}
}

func unknownKeys(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "k%d = 1\n", i)
	}
	return b.String()
}

// mistakes reads a file, and decodes it where that is possible.
func mistakes(src string) Problems {
	table, problems := Parse("f", []byte(src))
	if !problems.Fatal() {
		problems = append(problems, table.Decode(&file{})...)
	}
	return problems
}
