package sentence

import "hotroom/advisor"

// setupPhrases are turns of phrase for a power setup, beside its names.
var setupPhrases = []struct {
	setup   string
	pattern pattern
}{
	{advisor.SetupOpen, "?the|all|any|my ?power|current limits|limit|caps|cap|restrictions ?are|all|is|fully|completely|set ?to off|removed|lifted|disabled|unlocked|gone|open|unlimited|infinite|maxed"},
	{advisor.SetupOpen, "remove|removing|lift|lifting|disable|disabling|unlock|unlocking|drop|raise ?the|all|any|my ?the|my ?power|current limits|limit|caps|cap"},
	{advisor.SetupOpen, "without|no|zero ?the|any|a ?power|current|tdp limits|limit|caps|cap|restrictions"},
	{advisor.SetupOpen, "limitless|unlimited|unlocked|uncapped|unrestricted ?power|limits|limit"},
	{advisor.SetupOpen, "power unlimited|unlocked|uncapped|unrestricted"},
	{advisor.SetupShipped, "?at|on|with ?its|the|all stock|default|defaults|factory ?bios|board|power settings|setting|limits|limit|config|configuration|power|values"},
	{advisor.SetupShipped, "out|straight ?out of the box"},
	{advisor.SetupShipped, "no|not|without ?any overclock|overclocking|overclocked|oc|tweaks|tweaking|tuning"},
	{advisor.SetupRated, "?at|within|by|to ?the ?its|chips|chip|cpus|cpu|intended rated|spec|official|nominal ?power limits|limit|power|tdp"},
}

// idioms mean nothing for the question although their words might.
var idioms = []pattern{
	"stock|default ?all ?core clock|clocks|speed|speeds",
	"all core|cores",
	"every core|cores",
	"or not",
	"no|not ?a problem|worries|idea|joke|matter|clue|doubt",
	"never|not|dont|doesnt|wont|cant ?goes|go|gets|get|be|is|rises|rise|climbs|climb|reaches above|over|beyond|past|more|exceeds|exceed ?than",
	"no|not|nothing|never ?any|much more|over|above|higher|beyond|exceeding|exceed ?than",
	"hot spot|spots",
	"24 7",
	"24h|24x7",
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
	"no|without|w/o|not|dont|doesnt|wont ?have|having|use|using ?a|any|the ?separate|discrete|dedicated|extra graphics|gpu|gfx|video|vga ?card|cards",
	"integrated|onboard|internal graphics|gpu|video ?only",
	"igpu ?only",
}

// misleads holds back setup words that belong to another noun: "open case",
// "rated 125 W chip", "stock cooler".
func (r *reader) misleads(next int) bool {
	return next < len(r.tokens) && oneOf(r.tokens[next].fold, notSetups)
}

const notSetups = "bench case air frame to cooler cooling fan fans loop water pc build chassis clock clocks speed"
