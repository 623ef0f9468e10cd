package sentence

import (
	"slices"
	"strconv"
	"strings"

	"hotroom/advisor"
	"hotroom/knowledge/quantity"
)

// amount is a number with its unit where it stands in the sentence.
type amount struct {
	from, to int
	number   string
	unit     string // c, f, w, a, ghz, m, ft or core; empty without one
}

// quantities finds every number with a unit and decides what it is about.
func (r *reader) quantities() {
	for i := 0; i < len(r.tokens); i++ {
		if a, ok := r.amount(i); ok {
			r.place(a)
			i = a.to - 1
		}
	}
	r.noGraphics()
}

// amount reads the number at a token with the unit on it or behind it.
func (r *reader) amount(i int) (amount, bool) {
	t := r.tokens[i]
	if t.used || t.number == "" {
		return amount{}, false
	}
	a := amount{from: i, to: i + 1, number: t.number, unit: unitOf(t.unit)}
	if t.unit != "" {
		if a.unit == "" {
			return amount{}, false
		}
	} else if i+1 < len(r.tokens) && !r.tokens[i+1].used && r.tokens[i+1].number == "" {
		if a.unit = unitOf(r.tokens[i+1].raw); a.unit != "" {
			a.to++
		}
	}
	if a.unit == "c" && a.to < len(r.tokens) && !r.tokens[a.to].used {
		if scale := scaleOf(r.tokens[a.to].raw); scale != "" {
			a.unit = scale
			a.to++
		}
	}
	return a, true
}

// unitOf names a unit as it is typed. A lone small a is a word, not amperes.
func unitOf(text string) string {
	if text == "A" {
		return "a"
	}
	switch strings.ToLower(text) {
	case "c", "°", "º", "°c", "ºc", "℃", "celsius", "deg", "degs", "degc", "degree", "degrees", "centigrade":
		return "c"
	case "f", "°f", "ºf", "℉", "fahrenheit", "degf":
		return "f"
	case "w", "watt", "watts":
		return "w"
	case "amp", "amps", "ampere", "amperes":
		return "a"
	case "ghz", "gigahertz":
		return "ghz"
	case "m", "metre", "metres", "meter", "meters":
		return "m"
	case "ft", "feet", "foot":
		return "ft"
	case "core", "cores", "cored":
		return "core"
	}
	return ""
}

// scaleOf reads the scale that follows "degrees".
func scaleOf(text string) string {
	switch strings.ToLower(text) {
	case "c", "celsius", "centigrade":
		return "c"
	case "f", "fahrenheit":
		return "f"
	}
	return ""
}

func (r *reader) place(a amount) {
	switch a.unit {
	case "c", "f":
		r.set(a, &r.out.Question.RoomC, room, quantity.Temperature)
	case "ghz":
		r.set(a, &r.out.Question.GHz, ghz, quantity.Clock)
	case "m", "ft":
		r.set(a, &r.out.Question.AltitudeM, altitude, quantity.Length)
	case "a":
		r.set(a, &r.out.Question.CurrentA, current, quantity.Current)
		r.useNear(a, capWords)
	case "w":
		r.placeWatts(a)
	case "core":
		r.cores = a.number
		r.use(a.from, a.to)
	case "":
		r.placeBare(a)
	}
}

// Words that say what watts are about.
var (
	graphicsWords = []string{"graphics", "gpu", "video", "card", "vga"}
	capWords      = []string{"cap", "capped", "limit", "limited", "limits", "max", "maximum", "most", "power"}
)

// placeWatts: a graphics card's heat, a power cap, or nothing that is clear.
func (r *reader) placeWatts(a amount) {
	switch {
	case r.near(a, graphicsWords):
		r.set(a, &r.out.Question.GraphicsW, graphics, quantity.Power)
		r.useNear(a, graphicsWords)
	case r.near(a, capWords) || r.before(a.from, "at", "to"):
		r.set(a, &r.out.Question.PowerW, power, quantity.Power)
		r.useNear(a, capWords)
	}
}

// placeBare takes a number without a unit for the room where it stands beside
// the word room, or after at with nothing behind it that it may count, and
// leaves it alone otherwise.
func (r *reader) placeBare(a amount) {
	beside := a.to < len(r.tokens) && r.tokens[a.to].fold == "room" ||
		r.before(a.from, "room") || r.before(a.from-1, "room") && r.before(a.from, "at", "is", "of")
	alone := a.to == len(r.tokens) || r.tokens[a.to].used || filler(r.tokens[a.to].fold)
	if beside || alone && r.before(a.from, "at") {
		r.set(a, &r.out.Question.RoomC, room, quantity.Temperature)
	}
}

func (r *reader) before(i int, words ...string) bool {
	return i > 0 && i <= len(r.tokens) && slices.Contains(words, r.tokens[i-1].fold)
}

// near reports whether one of the words stands within two words of an amount,
// with no other number between.
func (r *reader) near(a amount, words []string) bool { return len(r.around(a, words)) > 0 }

func (r *reader) useNear(a amount, words []string) {
	for _, i := range r.around(a, words) {
		r.use(i, i+1)
	}
}

func (r *reader) around(a amount, words []string) []int {
	var hits []int
	for i := a.from - 1; i >= max(0, a.from-3) && r.tokens[i].number == ""; i-- {
		if slices.Contains(words, r.tokens[i].fold) {
			hits = append(hits, i)
		}
	}
	for i := a.to; i < min(len(r.tokens), a.to+2) && r.tokens[i].number == ""; i++ {
		if slices.Contains(words, r.tokens[i].fold) {
			hits = append(hits, i)
		}
	}
	return hits
}

// set reads an amount into a field; a second, different value is asked back.
func (r *reader) set(a amount, field **float64, name string, read func(string) (float64, error)) {
	text := r.text(a.from, a.to)
	r.use(a.from, a.to)
	value, err := read(a.number + map[string]string{"c": "C", "f": "F", "w": "W", "a": "A", "ghz": "GHz", "m": "m", "ft": "ft"}[a.unit])
	if err != nil {
		r.ask(&advisor.Refusal{Kind: advisor.BadValue, Field: fieldOf(name), What: err.Error()})
		return
	}
	if *field != nil && **field != value {
		r.ask(twoValues(name, Value(name, **field), Value(name, value)))
		return
	}
	if *field == nil {
		r.take("%s %s%s", name, Value(name, value), fromText(text, value, a.unit))
	}
	*field = &value
}

// fromText says what was converted or assumed.
func fromText(text string, value float64, unit string) string {
	switch unit {
	case "":
		return " (from " + strconv.Quote(text) + ", read as °C)"
	case "f", "ft":
		return " (from " + strconv.Quote(text) + ")"
	}
	return ""
}

// noGraphics reads "no graphics card" as a graphics load of zero.
func (r *reader) noGraphics() {
	for i, t := range r.tokens {
		if t.used || !slices.Contains([]string{"graphics", "gpu"}, t.fold) {
			continue
		}
		from := i - 1
		if r.before(from, "without", "no") && r.tokens[from].fold == "a" {
			from--
		}
		if from < 0 || !slices.Contains([]string{"no", "without"}, r.tokens[from].fold) {
			continue
		}
		zero := 0.0
		r.out.Question.GraphicsW = &zero
		r.take("graphics %s", Value(graphics, 0))
		r.use(from, i+1)
		if i+1 < len(r.tokens) && r.tokens[i+1].fold == "card" {
			r.use(i+1, i+2)
		}
	}
}
