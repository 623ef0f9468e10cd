package knowledge

import (
	"fmt"
	"go/token"
	"io/fs"
	"reflect"
	"slices"
	"strings"
	"sync"
	"unicode"

	"hotroom/knowledge/document"
	"hotroom/knowledge/sheet"
)

// kind is a kind of record, named by its key in the files.
type kind string

const (
	chipKind        kind = "chip"
	boardKind       kind = "board"
	stageKind       kind = "stage"
	enclosureKind   kind = "enclosure"
	coolerKind      kind = "cooler"
	loadKind        kind = "load"
	roomKind        kind = "room"
	thermometerKind kind = "thermometer"
	runKind         kind = "run"
)

// home is the file that a kind of record is kept in.
func (k kind) home() string {
	switch k {
	case chipKind:
		return chipsFile
	case boardKind:
		return boardsFile
	case stageKind:
		return stagesFile
	case runKind:
		return runsFile
	}
	return surroundingsFile
}

// tomlKinds are the kinds kept in TOML files.
func tomlKinds() []kind {
	return []kind{chipKind, boardKind, stageKind, enclosureKind, coolerKind, loadKind, roomKind, thermometerKind}
}

// shelf is what a TOML file of knowledge may hold.
type shelf struct {
	Chips        []Chip        `toml:"chip"`
	Boards       []Board       `toml:"board"`
	Stages       []Stage       `toml:"stage"`
	Enclosures   []Enclosure   `toml:"enclosure"`
	Coolers      []Cooler      `toml:"cooler"`
	Loads        []Load        `toml:"load"`
	Rooms        []Room        `toml:"room"`
	Thermometers []Thermometer `toml:"thermometer"`
}

// loader reads a folder.
type loader struct {
	report
	fsys   fs.FS
	files  map[string][]byte // what was read, for the hash
	base   Base
	unread map[kind]bool              // kinds of which some records could not be read
	tables map[kind][]*document.Table // beside the base's lists
	rows   []sheet.Row                // beside the base's runs
	known  map[kind]*register

	*asked
}

// asked is what the record types ask for; nobody changes it.
type asked struct {
	numbers map[kind]numbers
	points  numbers
	losses  numbers
	forKind []stageKey
}

// whatIsAsked reads the record types once: they never change.
var whatIsAsked = sync.OnceValue(func() *asked {
	a := &asked{
		numbers: make(map[kind]numbers),
		points:  numbersOf(reflect.TypeFor[Point](), nil, nil),
		losses:  numbersOf(reflect.TypeFor[StageLoss](), nil, nil),
		forKind: stageKeys(),
	}
	t := reflect.TypeFor[shelf]()
	for i := range t.NumField() {
		a.numbers[kind(t.Field(i).Tag.Get("toml"))] = numbersOf(t.Field(i).Type.Elem(), nil, nil)
	}
	return a
})

func newLoader(fsys fs.FS) *loader {
	l := &loader{
		report: report{seen: make(map[token.Position]bool)},
		fsys:   fsys,
		files:  make(map[string][]byte),
		unread: make(map[kind]bool),
		tables: make(map[kind][]*document.Table),
		known:  make(map[kind]*register),
		asked:  whatIsAsked(),
	}
	for _, k := range append(tomlKinds(), runKind) {
		l.known[k] = newRegister()
	}
	return l
}

// miss notes that records of the kinds in a file may be missing, so that what
// refers to them is not called dangling.
func (l *loader) miss(name string) {
	for _, k := range tomlKinds() {
		if k.home() == name || strings.HasPrefix(name, extraFolder) {
			l.unread[k] = true
		}
	}
}

// records takes the records of a TOML file.
func (l *loader) records(name string, t *document.Table) {
	var s shelf
	l.take(t.Decode(&s))
	for _, k := range tomlKinds() {
		tables := t.Tables(string(k))
		if len(tables) > 0 && k.home() != name && !strings.HasPrefix(name, extraFolder) {
			l.at(tables[0], nil, fmt.Sprintf("[[%s]] stands in %s", k, name), "move it to "+k.home()+" or to a file in extra/")
		}
		l.tables[k] = append(l.tables[k], tables...)
	}
	b := &l.base
	b.Chips = append(b.Chips, s.Chips...)
	b.Boards = append(b.Boards, s.Boards...)
	b.Stages = append(b.Stages, s.Stages...)
	b.Enclosures = append(b.Enclosures, s.Enclosures...)
	b.Coolers = append(b.Coolers, s.Coolers...)
	b.Loads = append(b.Loads, s.Loads...)
	b.Rooms = append(b.Rooms, s.Rooms...)
	b.Thermometers = append(b.Thermometers, s.Thermometers...)
}

// check checks the records, one by one and against each other.
func (l *loader) check() {
	b := &l.base
	each(l, chipKind, b.Chips, "id", func(c *Chip) string { return c.ID }, (*loader).chip)
	each(l, stageKind, b.Stages, "id", func(s *Stage) string { return s.ID }, (*loader).stage)
	each(l, boardKind, b.Boards, "id", func(x *Board) string { return x.ID }, (*loader).board)
	each(l, enclosureKind, b.Enclosures, "id", func(e *Enclosure) string { return e.ID }, nil)
	each(l, coolerKind, b.Coolers, "id", func(c *Cooler) string { return c.ID }, nil)
	each(l, loadKind, b.Loads, "id", func(x *Load) string { return x.ID }, nil)
	each(l, roomKind, b.Rooms, "word", func(r *Room) string { return r.Word }, nil)
	each(l, thermometerKind, b.Thermometers, "id", func(t *Thermometer) string { return t.ID }, nil)
	l.checkInputs()
	l.checkRuns()
}

// each checks the records of a kind: the ranges of their numbers, ids given
// twice, more than one default, and what the kind itself asks for.
func each[T any](l *loader, k kind, list []T, key string, id func(*T) string, own func(*loader, *T, *document.Table)) {
	var standard string
	for i := range list {
		record, t := &list[i], l.tables[k][i]
		l.numbers[k].check(t, reflect.ValueOf(record).Elem(), &l.report)
		l.register(k, id(record), t, key)
		standard = l.oneDefault(t, id(record), standard)
		if own != nil {
			own(l, record, t)
		}
	}
}

// register notes an id, or reports it where it was given before or nothing
// could refer to it.
func (l *loader) register(k kind, id string, t *document.Table, key string) {
	if id != strings.TrimSpace(id) || strings.ContainsFunc(id, unicode.IsControl) {
		l.at(t, []string{key}, fmt.Sprintf("the %s %s has blanks around it or control characters in it", key, document.Quote(id)), "remove them")
	}
	first, twice := l.known[k].add(id, t.At(key))
	if twice {
		l.at(t, []string{key}, fmt.Sprintf("the %s %s is given twice", k, document.Quote(id)),
			fmt.Sprintf("the first stands at %s: give this one another %s", first, key))
	}
}

// oneDefault reports a second default of a kind.
func (l *loader) oneDefault(t *document.Table, id, standard string) string {
	if !t.Truth("default") {
		return standard
	}
	if standard != "" {
		l.at(t, []string{"default"}, fmt.Sprintf("%s is a second default", document.Quote(id)),
			fmt.Sprintf("%s is the default already: keep one", document.Quote(standard)))
	}
	return id
}

// register holds the ids of a kind in the order of the files.
type register struct {
	ids   []string
	first map[string]token.Position
}

func newRegister() *register {
	return &register{first: make(map[string]token.Position)}
}

// add notes an id and gives the place of the first one where it is known.
func (r *register) add(id string, at token.Position) (first token.Position, twice bool) {
	if id == "" {
		return at, false
	}
	if first, twice = r.first[id]; !twice {
		r.first[id] = at
		r.ids = append(r.ids, id)
	}
	return first, twice
}

func (r *register) has(id string) bool {
	_, ok := r.first[id]
	return ok
}

// some lists the ids for a message, the first few of many.
func (r *register) some() string {
	const few = 6
	if len(r.ids) <= few {
		return strings.Join(r.ids, ", ")
	}
	return strings.Join(slices.Clone(r.ids[:few]), ", ") + ", …"
}
