package document

import (
	"bytes"
	"testing"

	"github.com/pelletier/go-toml/v2"
)

// Parse never panics and accepts exactly what the TOML library accepts, but
// for the byte order mark, which it lets pass, and names below too many others.
func FuzzParse(f *testing.F) {
	for _, seed := range []string{
		"", "a = 1\n", "[a]\nb.c = 'x'\n[[d]]\ne = [1, 2.5, {f = true}]\n[d.g]\n[[d]]\n[d.g]\n",
		"a.b = 1\n[a]\n", "[a]\n[a.b]\n[a]\n", "[[a]]\n[a]\n", "a = {b = 1}\n[a.c]\n", "a = []\n[[a]]\n",
		"a = 2026-02-30\n", "a = 07:32\nb = 1979-05-27T07:32:00Z\nc = 1979-05-27 07:32:00\n",
		"a = 0xFFFFFFFFFFFFFFFF\n", "a = 1e999\nb = -inf\nc = nan\n", "a = -nan\nb = +nan\nc = +inf\n", "a = \"\"\"\nx\\\n y\\u00e9\"\"\"\n",
		"a = \"x\nb = 1\n[c\nd = 2\n", "\xff", "\xff\xfe", "\xef\xbb\xbfa = 1", "a = '''x", "a = [1\nb = 2\n",
		"[a]\nb.c = 1\n[a.b]\n", "[a]\nb.c = 1\n[a.b.d]\n", "a = 1\r", "a = 1 b = 2", "a = 1_0.0_1e+1_0",
		"a.b.c.d.e.f.g.h.i.j.k.l.m.n.o.p = 1", "a.b.c.d.e.f.g.h.i.j.k.l.m.n.o.p.q = 1",
		"[a.b.c.d.e.f.g.h.i]\nj.k.l.m = [{n.o.p = {q = 1}}]",
	} {
		f.Add([]byte(seed))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		if bytes.HasPrefix(src, []byte(byteOrderMark)) || len(src) > 2000 {
			return
		}
		table, problems := Parse("f.toml", src)
		var want map[string]any
		err := toml.Unmarshal(src, &want)
		deep := names(want)
		if (err == nil && deep <= mostDeep) != (problems == nil) {
			t.Fatalf("%q: the library says %v, %d names deep, Parse says %v", src, err, deep, problems)
		}
		for _, p := range problems {
			checkPlace(t, src, p)
		}
		if table == nil {
			return
		}
		var into struct {
			A []struct {
				B *float64 `toml:"b"`
				C Text     `toml:"c"`
			} `toml:"a"`
			D string `toml:"d" need:"yes" kind:"date"`
		}
		for _, p := range table.Decode(&into) {
			checkPlace(t, src, p)
		}
		for _, a := range into.A {
			for i := -1; i <= len(a.C.String())+1; i++ {
				_ = a.C.At(i)
			}
		}
	})
}

// names counts the names on the longest way into a value.
func names(v any) int {
	most := 0
	switch v := v.(type) {
	case map[string]any:
		for _, in := range v {
			most = max(most, 1+names(in))
		}
	case []any:
		for _, in := range v {
			most = max(most, names(in))
		}
	}
	return most
}

func checkPlace(t *testing.T, src []byte, p Problem) {
	t.Helper()
	if p.At.Line < 1 || p.At.Column < 1 || p.At.Offset > len(src) || offsetAt(src, p.At.Line, p.At.Column) != p.At.Offset {
		t.Fatalf("%q: %v is no place", src, p)
	}
}
