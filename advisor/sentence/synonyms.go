package sentence

// synonym is a word of the trade that stands for a word in names.
type synonym struct{ said, means string }

// synonyms are tried where a word is no name itself: "AIO" is how builders say
// a liquid cooler.
var synonyms = []synonym{
	{"aio", "liquid"},
	{"water", "liquid"},
	{"watercooled", "liquid"},
	{"watercooling", "liquid"},
	{"watercooler", "liquid"},
	{"liquidcooled", "liquid"},
	{"liquidcooling", "liquid"},
	{"aircooled", "air"},
	{"aircooler", "air"},
	{"aircooling", "air"},
	{"topdown", "top-down"},
	{"downdraft", "top-down"},
	{"testbench", "bench"},
	{"games", "gaming"},
	{"game", "gaming"},
	{"gamer", "gaming"},
	{"renders", "render"},
	{"rendering", "render"},
	{"compiles", "compile"},
	{"compiling", "compile"},
	{"compilation", "compile"},
	{"builds", "compile"},
}

// byOtherWords tries what people say in place of a name's word, for coolers,
// enclosures and loads.
func (r *reader) byOtherWords() {
	for i := range r.tokens {
		if r.tokens[i].used || r.tokens[i].negated {
			continue
		}
		for _, s := range synonyms {
			if r.tokens[i].fold == s.said && r.otherWord(i, s.means) {
				break
			}
		}
	}
}

func (r *reader) otherWord(i int, means string) bool {
	for _, kind := range []string{cooler, enclosure, load} {
		m := r.names.index[kind].Find(means)
		if m.Near || m.ID == "" && !m.Ambiguous || kind == load && r.aPlace(i, i+1) {
			continue
		}
		ids := m.Candidates
		if m.ID != "" {
			ids = []string{m.ID}
		}
		r.find(kind, find{ids: ids, text: r.tokens[i].raw, how: "read as " + means})
		r.use(i, i+1)
		return true
	}
	return false
}
