package advisor_test

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
)

// record is one [[table]] of a knowledge file.
type record = map[string]any

// scenery is a knowledge folder, free of how its files spell it.
type scenery struct {
	kinds   map[string][]record // "board", "chip" …, in the order of the files
	columns []string            // of runs.csv
	runs    []map[string]string
}

func readScenery(t *testing.T, dir string) scenery {
	t.Helper()
	s := scenery{kinds: map[string][]record{}}
	files, _ := filepath.Glob(filepath.Join(dir, "*.toml"))
	more, _ := filepath.Glob(filepath.Join(dir, "extra", "*.toml"))
	for _, file := range slices.Concat(files, more) {
		var tables map[string][]record
		text, err := os.ReadFile(file)
		if err == nil {
			err = toml.Unmarshal(text, &tables)
		}
		if err != nil {
			t.Fatal(err)
		}
		for kind, list := range tables {
			s.kinds[kind] = append(s.kinds[kind], list...)
		}
	}
	text, err := os.ReadFile(filepath.Join(dir, "runs.csv"))
	if err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	s.columns = rows[0]
	for _, row := range rows[1:] {
		run := map[string]string{}
		for i, name := range s.columns {
			run[name] = row[i]
		}
		s.runs = append(s.runs, run)
	}
	return s
}

// writer writes a scenery in one of very many ways that say the same.
type writer struct {
	rng *rand.Rand
	// plain spells everything in the plainest way, its keys in order.
	plain bool
	// split puts records into files of extra/.
	split bool
}

func (w *writer) chance(p float64) bool { return !w.plain && w.rng.Float64() < p }

// homes are the files of a folder and what each is for.
var homes = map[string][]string{
	"chips.toml": {"chip"}, "boards.toml": {"board"}, "stages.toml": {"stage"},
	"surroundings.toml": {"enclosure", "cooler", "load", "room", "thermometer"},
}

// write writes the folder's files.
func (w *writer) write(t *testing.T, dir string, s scenery) {
	t.Helper()
	texts := map[string]string{"runs.csv": w.sheet(s)}
	for _, home := range slices.Sorted(maps.Keys(homes)) {
		texts[home] = w.comment()
		for _, kind := range homes[home] {
			for i, r := range s.kinds[kind] {
				file := home
				if w.split && i > 0 && w.rng.Float64() < 0.5 { // the first of a kind is what is taken unasked
					file = fmt.Sprintf("extra/%d.toml", w.rng.IntN(4))
				}
				texts[file] += w.record(kind, r)
			}
		}
	}
	if err := os.Mkdir(filepath.Join(dir, "extra"), 0o700); err != nil {
		t.Fatal(err)
	}
	for name, text := range texts {
		write(t, filepath.Join(dir, name), []byte(w.file(text)))
	}
}

// file chooses line ends and a byte order mark.
func (w *writer) file(text string) string {
	if w.chance(0.3) {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	if w.chance(0.3) {
		text = "\ufeff" + text
	}
	return text
}

// record writes one [[kind]]: its tables under headers, inline or dotted.
func (w *writer) record(kind string, r record) string {
	var lines, below []string
	for _, key := range w.keys(r) {
		switch v := r[key].(type) {
		case record:
			switch {
			case w.chance(0.3):
				lines = append(lines, w.pair(key, w.inline(v)))
			case w.chance(0.3):
				for _, k := range w.keys(v) {
					lines = append(lines, w.pair(key+w.dot()+k, w.value(v[k])))
				}
			default:
				below = append(below, w.table("["+kind+"."+key+"]", v))
			}
		case []any:
			if rows, ok := recordsOf(v); ok && !w.chance(0.3) {
				text := ""
				for _, row := range rows {
					text += w.table("[["+kind+"."+key+"]]", row)
				}
				below = append(below, text)
				continue
			}
			lines = append(lines, w.pair(key, w.list(v)))
		default:
			lines = append(lines, w.pair(key, w.value(v)))
		}
	}
	return "[[" + kind + "]]" + w.tail() + strings.Join(lines, "") + strings.Join(below, "") + w.comment()
}

func recordsOf(list []any) ([]record, bool) {
	var rows []record
	for _, v := range list {
		if r, ok := v.(record); ok {
			rows = append(rows, r)
		}
	}
	return rows, len(rows) > 0
}

// keys gives a record's keys in some order.
func (w *writer) keys(r record) []string {
	keys := slices.Sorted(maps.Keys(r))
	if !w.plain {
		w.rng.Shuffle(len(keys), func(i, j int) { keys[i], keys[j] = keys[j], keys[i] })
	}
	return keys
}

func (w *writer) table(header string, r record) string {
	text := header + w.tail()
	for _, key := range w.keys(r) {
		text += w.pair(key, w.value(r[key]))
	}
	return text
}

func (w *writer) inline(r record) string {
	var pairs []string
	for _, key := range w.keys(r) {
		pairs = append(pairs, key+w.blank()+"="+w.blank()+w.value(r[key]))
	}
	return "{" + w.blank() + strings.Join(pairs, w.blank()+","+w.blank()) + w.blank() + "}"
}

func (w *writer) list(values []any) string {
	var items []string
	for _, v := range values {
		if r, ok := v.(record); ok {
			items = append(items, w.inline(r))
			continue
		}
		items = append(items, w.value(v))
	}
	between := ","
	if w.chance(0.3) {
		between = ", # next\n\t"
	}
	return "[" + strings.Join(items, between) + "]"
}

func (w *writer) pair(key, value string) string {
	if w.chance(0.2) && !strings.Contains(key, ".") {
		key = strconv.Quote(key)
	}
	return w.blank() + key + w.blank() + "=" + w.blank() + value + w.tail()
}

func (w *writer) blank() string {
	if w.chance(0.3) {
		return []string{"  ", "\t", ""}[w.rng.IntN(3)]
	}
	return " "
}

func (w *writer) dot() string {
	if w.chance(0.2) {
		return " . "
	}
	return "."
}

// tail ends a line.
func (w *writer) tail() string {
	if w.chance(0.2) {
		return " # x = \"1\" [[board]]\n" + w.comment()
	}
	return "\n"
}

func (w *writer) comment() string {
	if w.chance(0.2) {
		return "\n# id = \"none\" é\n\t\n"
	}
	return ""
}

func (w *writer) value(v any) string {
	switch v := v.(type) {
	case string:
		return w.text(v)
	case bool:
		return strconv.FormatBool(v)
	case int64:
		return w.number(float64(v))
	case float64:
		return w.number(v)
	case []any:
		return w.list(v)
	}
	date := fmt.Sprint(v)
	if w.chance(0.5) {
		return w.text(date)
	}
	return date
}

func (w *writer) text(s string) string {
	switch {
	case w.chance(0.2):
		return "'" + s + "'"
	case w.chance(0.2):
		return `"""` + s + `"""`
	case w.chance(0.2) && s != "":
		return fmt.Sprintf(`"\u%04x%s"`, s[0], s[1:])
	}
	return `"` + s + `"`
}

// number spells a number in one of the ways that give the same one.
func (w *writer) number(v float64) string {
	text := strconv.FormatFloat(v, 'f', -1, 64)
	switch {
	case w.chance(0.2):
		return strconv.FormatFloat(v, 'e', -1, 64)
	case w.chance(0.2) && v == math.Trunc(v):
		return text + ".000"
	case w.chance(0.2) && v != math.Trunc(v):
		return text + "00"
	case w.chance(0.2) && v >= 1000 && v == math.Trunc(v):
		return text[:len(text)-3] + "_" + text[len(text)-3:]
	case w.chance(0.2) && v >= 0:
		return "+" + text
	}
	return text
}

// sheet writes runs.csv.
func (w *writer) sheet(s scenery) string {
	columns := slices.Clone(s.columns)
	if !w.plain {
		w.rng.Shuffle(len(columns), func(i, j int) { columns[i], columns[j] = columns[j], columns[i] })
	}
	text := strings.Join(columns, ",") + "\n"
	for _, run := range s.runs {
		var fields []string
		for _, name := range columns {
			fields = append(fields, w.field(name, run[name]))
		}
		text += strings.Join(fields, ",") + "\n"
		if w.chance(0.1) {
			text += strings.Repeat(",", len(columns)-1) + "\n"
		}
	}
	return text
}

func (w *writer) field(name, text string) string {
	if v, err := strconv.ParseFloat(text, 64); err == nil && name != "id" && name != "firmware" {
		if text = w.number(v); strings.Contains(text, "_") {
			text = strconv.FormatFloat(v, 'f', -1, 64)
		}
	}
	switch {
	case w.chance(0.2):
		return `"` + text + `"`
	case w.chance(0.2):
		return " " + text + " "
	}
	return text
}
