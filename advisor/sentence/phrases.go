package sentence

import "hotroom/advisor"

// setupPhrases are turns of phrase for a power setup, beside its names.
var setupPhrases = []struct {
	setup   string
	pattern pattern
}{
	{advisor.SetupOpen, newPattern("?the|all|any|my ?power|current limits|limit|caps|cap|restrictions ?are|all|is|fully|completely|set ?to off|removed|lifted|disabled|unlocked|gone|open|unlimited|infinite|maxed")},
	{advisor.SetupOpen, newPattern("remove|removing|lift|lifting|disable|disabling|unlock|unlocking|drop|raise ?the|all|any|my ?the|my ?power|current limits|limit|caps|cap")},
	{advisor.SetupOpen, newPattern("without|no|zero ?the|any|a ?power|current|tdp limits|limit|caps|cap|restrictions")},
	{advisor.SetupOpen, newPattern("limitless|unlimited|unlocked|uncapped|unrestricted ?power|limits|limit")},
	{advisor.SetupOpen, newPattern("power unlimited|unlocked|uncapped|unrestricted")},
	{advisor.SetupShipped, newPattern("?at|on|with ?its|the|all stock|default|defaults|factory ?bios|board|power settings|setting|limits|limit|config|configuration|power|values")},
	{advisor.SetupShipped, newPattern("out|straight ?out of the box")},
	{advisor.SetupShipped, newPattern("no|not|without ?any overclock|overclocking|overclocked|oc|tweaks|tweaking|tuning")},
	{advisor.SetupRated, newPattern("?at|within|by|to ?the ?its|chips|chip|cpus|cpu|intended rated|spec|official|nominal ?power limits|limit|power|tdp")},
}

// idioms mean nothing for the question although their words might.
var idioms = []pattern{
	newPattern("stock|default ?all ?core clock|clocks|speed|speeds"),
	newPattern("all core|cores"),
	newPattern("every core|cores"),
	newPattern("or not"),
	newPattern("no|not ?a problem|worries|idea|joke|matter|clue|doubt"),
	newPattern("never|not|dont|doesnt|wont|cant ?goes|go|gets|get|be|is|rises|rise|climbs|climb|reaches above|over|beyond|past|more|exceeds|exceed ?than"),
	newPattern("no|not|nothing|never ?any|much more|over|above|higher|beyond|exceeding|exceed ?than"),
	newPattern("hot spot|spots"),
	newPattern("24 7"),
	newPattern("24h|24x7"),
}

// phrases takes setups, the absence of a graphics card and idioms before names
// are looked for.
func (r *reader) phrases() {
	for _, p := range setupPhrases {
		if from, to, ok := p.pattern.find(r.tokens); ok && !r.misleads(to) {
			r.find(setup, find{ids: []string{p.setup}, text: r.text(from, to)})
			r.use(from, to)
		}
	}
	for _, p := range noGraphics {
		if from, to, ok := p.find(r.tokens); ok {
			zero := 0.0
			r.out.Question.GraphicsW = &zero
			r.take("graphics %s (from %q)", Value(graphics, 0), r.text(from, to))
			r.use(from, to)
		}
	}
	for _, p := range idioms {
		if from, to, ok := p.find(r.tokens); ok {
			r.use(from, to)
		}
	}
}

// noGraphics are the ways to say that there is no graphics card.
var noGraphics = []pattern{
	newPattern("no|without|w/o|not|dont|doesnt|wont ?have|having|use|using ?a|any|the ?separate|discrete|dedicated|extra graphics|gpu|gfx|video|vga ?card|cards"),
	newPattern("integrated|onboard|internal graphics|gpu|video ?only"),
	newPattern("igpu ?only"),
}

// misleads holds back setup words that belong to another noun: "open case",
// "rated 125 W chip", "stock cooler".
func (r *reader) misleads(next int) bool {
	return next < len(r.tokens) && oneOf(r.tokens[next].fold, notSetups)
}

var notSetups = []string{
	"bench", "case", "air", "frame", "to", "cooler", "cooling", "fan", "fans", "loop", "water", "pc", "build", "chassis",
	"clock", "clocks", "speed",
}
