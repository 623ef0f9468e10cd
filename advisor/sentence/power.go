package sentence

import (
	"fmt"

	"hotroom/advisor"
	"hotroom/knowledge/quantity"
)

// Words that say what watts and amperes are about.
const (
	graphicsWords = "graphics gpu gpus video card cards vga gfx"
	capWords      = "cap capped caps limit limited limits limiting max maximum most power pl1 pl2 pl ppt tdp edc tdc budget allowance draw current " +
		"package restricted throttled set least"
	otherWatts = "chip cpu processor psu supply thing part fan fans cooler pump brick charger unit stage stages phase phases mosfet mosfets lamp heater tv monitor"
)

// graphicsLinking stand between a graphics card and its watts.
const graphicsLinking = " of is at pulling pulls pull drawing draws draw eating eats eat using uses use taking takes with that about around up to which the a can will it my rated burning burns " +
	"dumping dumps making makes "

// watts: a graphics card's heat, another part's rating, or else a power cap.
func (r *reader) watts(a amount) {
	switch {
	case r.after(a.to, graphicsWords) || r.after(a.to, "of discrete dedicated from") && r.after(a.to+1, "the my a "+graphicsWords):
		r.set(a, &r.out.Question.GraphicsW, graphics, quantity.Power)
		r.useRun(a.to, "of from discrete dedicated "+graphicsWords)
	case r.back(a.from, 5, graphicsLinking, graphicsWords) >= 0:
		at := r.back(a.from, 5, graphicsLinking, graphicsWords)
		r.set(a, &r.out.Question.GraphicsW, graphics, quantity.Power)
		r.useBack(at, graphicsWords)
	case r.otherPart(a):
	default:
		r.set(a, &r.out.Question.PowerW, power, quantity.Power)
		r.useAround(a)
	}
}

// otherPart: "a 125 W chip", "my supply is 650 W", "a 50 W something".
func (r *reader) otherPart(a amount) bool {
	if r.after(a.to, otherWatts) {
		return true
	}
	for i := a.to; i < min(a.to+3, len(r.tokens)) && !r.tokens[i-1].stop; i++ {
		if oneOf(r.tokens[i].fold, "psu supply") {
			return true
		}
	}
	if r.back(a.from, 4, graphicsLinking, "psu supply fan fans cooler pump brick") >= 0 {
		return true
	}
	noun := a.to < len(r.tokens) && !r.tokens[a.to-1].stop && !r.tokens[a.to].used
	return r.before(a.from, "a an my the") && noun && !r.after(a.to, capWords) && !filler(r.tokens[a.to].fold) && !oneOf(r.tokens[a.to].fold, connectives)
}

// amperes: a current cap, unless they are a part's rating.
func (r *reader) amperes(a amount) {
	if r.after(a.to, "stage stages phase phases mosfet mosfets power smart drmos fuse breaker connector") {
		return
	}
	r.set(a, &r.out.Question.CurrentA, current, quantity.Current)
	r.useAround(a)
}

// useAround takes the words about a cap beside it along.
func (r *reader) useAround(a amount) {
	r.useRun(a.to, capWords)
	if at := r.back(a.from, 4, " at to is of the a was be by ", capWords); at >= 0 {
		r.useBack(at, capWords)
	}
}

func (r *reader) useRun(from int, words string) {
	for i := from; i < len(r.tokens) && !r.tokens[i-1].stop && oneOf(r.tokens[i].fold, words); i++ {
		r.use(i, i+1)
	}
}

func (r *reader) useBack(from int, words string) {
	for i := from; i >= 0 && oneOf(r.tokens[i].fold, words); i-- {
		r.use(i, i+1)
	}
}

// bareCap asks back where a cap has no unit: "capped at 180".
func (r *reader) bareCap(a amount) bool {
	said := r.back(a.from, 3, " at to by ", "capped limited restricted") >= 0
	named := r.back(a.from, 3, " of to is ", "cap limit pl1 pl2 pl ppt tdp") >= 0
	if !said && !named {
		return false
	}
	r.use(a.from, a.to)
	r.ask(&advisor.Refusal{
		Kind: advisor.Ambiguous, Field: fieldOf(power),
		What: fmt.Sprintf("a cap of %s could be watts or amperes", a.number),
		Mend: fmt.Sprintf("say %[1]s W or %[1]s A", a.number), Candidates: []string{a.number + " W", a.number + " A"},
	})
	return true
}

// clock reads the clock that is wanted, and takes the words of tuning along.
func (r *reader) clock(a amount) {
	if r.after(a.to, "ram memory ddr") {
		return
	}
	r.set(a, &r.out.Question.GHz, ghz, quantity.Clock)
	r.useRun(a.to, "all core cores clock clocks overclock oc allcore")
	for i := range r.tokens {
		if oneOf(r.tokens[i].fold, "overclock overclocked overclocking oc oced ocd tuned tweaked") && !r.tokens[i].negated {
			r.use(i, i+1)
		}
	}
}

// decideCaps: a cap in watts or amperes is a custom setup.
func (r *reader) decideCaps() {
	q := &r.out.Question
	if q.PowerW == nil && q.CurrentA == nil {
		return
	}
	if q.Setup != "" && q.Setup != advisor.SetupCustom {
		r.ask(twoValues(setup, q.Setup, "a cap of your own"))
		return
	}
	q.Setup = advisor.SetupCustom
}
