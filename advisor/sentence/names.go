package sentence

import (
	"hotroom/advisor"
	"hotroom/advisor/lookup"
	"hotroom/knowledge"
)

// The kinds of thing that a question names. The words are the Question's keys.
const (
	board     = "board"
	chip      = "chip"
	enclosure = "enclosure"
	cooler    = "cooler"
	load      = "load"
	room      = "room"
	setup     = "setup"
)

// The numbers of a question, by their short names.
const (
	power    = "power"
	current  = "current"
	ghz      = "ghz"
	graphics = "graphics"
	altitude = "altitude"
)

// kinds is the order in which names are tried and reported.
func kinds() []string {
	return []string{board, chip, enclosure, cooler, load, room, setup}
}

// Names is everything in a knowledge base that a person can name, made ready
// for many readings; nobody changes it.
type Names struct {
	base    *knowledge.Base
	index   map[string]*lookup.Index
	exact   map[string][]thing // by compact name
	parts   map[string]bool    // words that names are made of
	display map[thing]string
}

// thing is one named record.
type thing struct{ kind, id string }

// NewNames collects the names of a knowledge base.
func NewNames(base *knowledge.Base) *Names {
	n := &Names{
		base:    base,
		index:   map[string]*lookup.Index{},
		exact:   map[string][]thing{},
		parts:   map[string]bool{},
		display: map[thing]string{},
	}
	n.add(board, advisor.BoardEntries(base))
	n.add(chip, advisor.ChipEntries(base))
	n.add(enclosure, advisor.EnclosureEntries(base))
	n.add(cooler, advisor.CoolerEntries(base))
	n.add(load, advisor.LoadEntries(base))
	n.add(room, rooms(base))
	n.add(setup, setups())
	return n
}

func (n *Names) add(kind string, entries []lookup.Entry) {
	for _, e := range entries {
		n.display[thing{kind, e.ID}] = e.Name
	}
	n.index[kind] = lookup.NewIndex(entries)
	n.index[kind].Each(func(id string, words []string, compact string) {
		n.learn(compact, thing{kind, id})
		n.learnParts(words)
	})
}

func (n *Names) learn(key string, t thing) {
	for _, known := range n.exact[key] {
		if known == t {
			return
		}
	}
	if key != "" {
		n.exact[key] = append(n.exact[key], t)
	}
}

func (n *Names) learnParts(words []string) {
	for _, w := range words {
		if len(w) > 1 && !n.parts[w] && !filler(w) {
			n.parts[w] = true
		}
	}
}

func rooms(base *knowledge.Base) []lookup.Entry {
	list := make([]lookup.Entry, len(base.Rooms))
	for i, r := range base.Rooms {
		list[i] = lookup.Entry{ID: r.Word, Name: r.Word, Also: []string{r.Word + " room"}}
	}
	return list
}

// Setups lists the power setups.
func Setups() []string {
	var ids []string
	for _, e := range setups() {
		ids = append(ids, e.ID)
	}
	return ids
}

// setups are the power setups and the other words that people have for them.
func setups() []lookup.Entry {
	return []lookup.Entry{
		{ID: advisor.SetupRated, Name: "rated limits", Also: []string{"rated power", "at rated", "in spec", "within spec", "to spec"}},
		{ID: advisor.SetupShipped, Name: "shipped limits", Also: []string{
			"stock", "stock limits", "stock settings", "as shipped", "out of the box",
			"default limits", "default settings", "factory limits", "factory settings", "bios defaults",
		}},
		{ID: advisor.SetupOpen, Name: "open limits", Also: []string{
			"unlimited", "unlocked", "uncapped", "no limits", "no limit", "no power limit",
			"no power limits", "without limits", "without a limit", "limits removed",
			"limits off", "no cap", "without a cap",
		}},
		{ID: advisor.SetupCustom, Name: "custom limits"},
	}
}
