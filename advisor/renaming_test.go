package advisor_test

import (
	"cmp"
	"encoding/json"
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"
	"testing"

	"hotroom/advisor"
)

// names gives every id and name of a world another one. Ids are handed out in
// any order, so that nothing can go by theirs.
type names struct {
	rng     *rand.Rand
	numbers []int
	of      map[string]map[string]string // by kind
	pairs   []string                     // new, old
}

// renamed gives a world whose things have other ids and names.
func (w told) renamed(rng *rand.Rand) variant {
	n := &names{rng: rng, numbers: rng.Perm(10_000), of: map[string]map[string]string{}}
	other := scenery{kinds: map[string][]record{}, columns: w.columns}
	for _, kind := range slices.Sorted(maps.Keys(w.kinds)) {
		n.of[kind] = map[string]string{"": ""}
		for _, r := range w.kinds[kind] {
			r = maps.Clone(r)
			for _, key := range []string{"id", "word"} {
				if id, ok := r[key].(string); ok {
					r[key] = n.another(kind, id)
				}
			}
			if name, ok := r["name"].(string); ok {
				r["name"] = n.token(name)
			}
			other.kinds[kind] = append(other.kinds[kind], r)
		}
	}
	for _, b := range other.kinds["board"] {
		regulator := maps.Clone(b["regulator"].(record))
		regulator["stage"] = n.of["stage"][regulator["stage"].(string)]
		b["regulator"] = regulator
	}
	n.of["run"] = map[string]string{}
	for _, run := range w.runs {
		run = maps.Clone(run)
		run["id"] = n.another("run", run["id"])
		for _, column := range []string{"board", "chip", "enclosure", "cooler", "thermometer", "load"} {
			run[column] = n.of[column][run[column]]
		}
		other.runs = append(other.runs, run)
	}
	v := plainly(other)
	v.there, v.back = n.there, strings.NewReplacer(n.pairs...).Replace
	return v
}

func (n *names) another(kind, id string) string {
	n.of[kind][id] = n.token(id)
	return n.of[kind][id]
}

// byOldIDs puts what is ordered by ids alone in the order of the old ones.
func byOldIDs(t *testing.T, text string) string {
	t.Helper()
	var said [4]map[string]any
	decode(t, []byte(text), &said)
	for _, list := range []any{said[0]["runs"], said[1]["Candidates"], said[2]["notes"], said[3]["Candidates"]} {
		if list, ok := list.([]any); ok {
			slices.SortFunc(list, func(a, b any) int { return strings.Compare(a.(string), b.(string)) })
		}
	}
	if rows, ok := said[2]["rows"].([]any); ok {
		slices.SortStableFunc(rows, func(a, b any) int {
			x, y := a.(map[string]any), b.(map[string]any)
			return cmp.Or(cmp.Compare(place(x), place(y)), strings.Compare(x["board"].(string), y["board"].(string)))
		})
	}
	delete(said[3], "What") // where no board can be ranked, the first one says why
	sorted, err := json.MarshalIndent(said, "", " ")
	if err != nil {
		t.Fatal(err)
	}
	return string(sorted)
}

// place reads "2" or "2=".
func place(row map[string]any) int {
	n, _ := strconv.Atoi(strings.TrimSuffix(row["place"].(string), "="))
	return n
}

// token makes a name that stands nowhere else.
func (n *names) token(old string) string {
	made := fmt.Sprintf("q%04dz", n.numbers[0])
	n.numbers = n.numbers[1:]
	n.pairs = append(n.pairs, made, old)
	return made
}

func (n *names) there(q advisor.Question) advisor.Question {
	q.Board, q.Chip = n.of["board"][q.Board], n.of["chip"][q.Chip]
	q.Enclosure, q.Cooler, q.Load = n.of["enclosure"][q.Enclosure], n.of["cooler"][q.Cooler], n.of["load"][q.Load]
	return q
}
