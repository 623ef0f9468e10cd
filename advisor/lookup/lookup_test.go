package lookup

import (
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func shelf() []Entry {
	return []Entry{
		{ID: "harrow-x40-pro", Name: "Harrow X40 Pro", Also: []string{"Fennimore Harrow X40 Pro"}},
		{ID: "harrow-x40", Name: "Harrow X40", Also: []string{"Fennimore Harrow X40"}},
		{ID: "harrow-b41", Name: "Harrow B41", Also: []string{"Fennimore Harrow B41"}},
		{ID: "gorse-lite", Name: "Gorse Éclair Lite", Also: []string{"Bøwen Gorse Éclair Lite", "GE-1177-L"}},
	}
}

func TestFind(t *testing.T) {
	tests := []struct {
		name, query string
		want        Match
	}{
		{"exact id", "harrow-b41", Match{ID: "harrow-b41"}},
		{"case and spaces", "  HARROW   b41 ", Match{ID: "harrow-b41"}},
		{"no spaces", "harrowb41", Match{ID: "harrow-b41"}},
		{"a name that begins another", "Harrow X40", Match{ID: "harrow-x40"}},
		{"maker in front", "Fennimore Harrow X40 Pro", Match{ID: "harrow-x40-pro"}},
		{"accents and undivided letters", "bowen gorse eclair lite", Match{ID: "gorse-lite"}},
		{"part number", "ge1177l", Match{ID: "gorse-lite"}},
		{"one word of the name", "eclair", Match{ID: "gorse-lite", Part: true}},
		{"words in another order", "pro x40", Match{ID: "harrow-x40-pro", Part: true}},
		{"a piece that ends inside a word", "x40pr", Match{ID: "harrow-x40-pro", Part: true}},
		{"a piece must not cut a number", "x4", Match{Candidates: []string{"harrow-x40", "gorse-lite", "harrow-b41", "harrow-x40-pro"}}},
		{"spelling", "gorse eclaire lite", Match{ID: "gorse-lite", Near: true}},
		{"two letters swapped", "harorw b41", Match{ID: "harrow-b41", Near: true}},
		{"spelling of a part", "eclairr", Match{ID: "gorse-lite", Part: true, Near: true}},
		{"a digit is no spelling mistake", "harrow b40", Match{Candidates: []string{"harrow-b41", "harrow-x40", "harrow-x40-pro", "gorse-lite"}}},
		{"several", "x40", Match{Ambiguous: true, Candidates: []string{"harrow-x40", "harrow-x40-pro"}}},
		{"more words than the name", "harrow b41 max", Match{Candidates: []string{"harrow-b41", "harrow-x40", "harrow-x40-pro", "gorse-lite"}}},
		{"one model's letter is no spelling mistake", "harow x41", Match{Candidates: []string{"harrow-b41", "harrow-x40", "harrow-x40-pro", "gorse-lite"}}},
		{"nothing asked", " - ", Match{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := Find(tt.query, shelf()); !reflect.DeepEqual(got, tt.want) {
				t.Errorf("Find(%q)\n got %+v\nwant %+v", tt.query, got, tt.want)
			}
		})
	}
}

func TestFindTwoOfOneName(t *testing.T) {
	got := Find("same", []Entry{{ID: "b", Name: "Same"}, {ID: "a", Name: "SAME"}})
	want := Match{Ambiguous: true, Candidates: []string{"a", "b"}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got %+v, want %+v", got, want)
	}
}

// Every thing is found by its own id, however it is written.
func TestFindOwnID(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		e := rapid.SampledFrom(shelf()).Draw(t, "entry")
		between := rapid.SampledFrom([]string{"", " ", "_", " - ", "."}).Draw(t, "between")
		query := strings.ReplaceAll(e.ID, "-", between)
		if rapid.Bool().Draw(t, "upper") {
			query = strings.ToUpper(query)
		}
		if got := Find(query, shelf()); got.ID != e.ID || got.Near || got.Part {
			t.Fatalf("Find(%q) = %+v", query, got)
		}
	})
}

func FuzzFind(f *testing.F) {
	for _, q := range []string{"harrow", "x40", "\xff\xfe", "ＨＡＲＲＯＷ", strings.Repeat("é", 500)} {
		f.Add(q)
	}
	f.Fuzz(func(t *testing.T, q string) {
		m := Find(q, shelf())
		if m.ID != "" && len(m.Candidates) > 0 {
			t.Errorf("both decided and not: %+v", m)
		}
	})
}

// An id that is given as it is written is found as any other way of writing it.
func TestPlainIDs(t *testing.T) {
	text := rapid.SampledFrom([]string{"", "a", "A", "b", "a-b", "ab", "a b", "é", "e", "x1", "x 1", "!"})
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		entries := rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Entry {
			return Entry{ID: text.Draw(t, "id"), Name: text.Draw(t, "name"), Also: []string{text.Draw(t, "also")}}
		}), 1, 5).Draw(t, "entries")
		x := NewIndex(entries)
		for _, e := range entries {
			got, want := x.Find(e.ID), x.Find(" "+e.ID+" ")
			if !reflect.DeepEqual(got, want) {
				t.Fatalf("%q of %+v: got %+v, want %+v", e.ID, entries, got, want)
			}
			if x.plain[e.ID] {
				found++
			}
		}
	})
	if found == 0 {
		t.Error("no id was plain")
	}
}
