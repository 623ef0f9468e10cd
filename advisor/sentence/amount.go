package sentence

import (
	"strconv"
	"strings"

	"hotroom/advisor"
	"hotroom/advisor/lookup"
)

// amount is a number with its unit where it stands in the sentence.
type amount struct {
	from, to int
	number   string
	unit     string // c, f, w, kw, a, ghz, mhz, m, km, ft, core, or a currency; empty without one
}

// amounts finds every number with a unit and decides what it is about.
func (r *reader) amounts() {
	for i := 0; i < len(r.tokens); i++ {
		if a, ok := r.amount(i); ok && a.unit != "" {
			r.place(a)
			i = a.to - 1
		}
	}
}

// amount reads the number at a token with the unit on it or behind it. A
// number in words counts only with its unit: "ten core".
func (r *reader) amount(i int) (amount, bool) {
	t := r.tokens[i]
	if t.used || t.negated {
		return amount{}, false
	}
	a := amount{from: i, to: i + 1, number: t.number}
	if t.number == "" {
		a.number, a.to = r.inWords(i)
		if a.unit = r.unitAt(&a); a.number == "" || a.unit == "" {
			return amount{}, false
		}
		return a, true
	}
	if t.unit == "" {
		r.thousands(&a)
		a.unit = r.unitAt(&a)
		return a, true
	}
	if a.unit = attachedUnit(t.unit); a.unit == "" {
		return amount{}, false
	}
	r.scale(&a)
	return a, true
}

// thousands joins "1 600" before a length.
func (r *reader) thousands(a *amount) {
	if a.to+1 >= len(r.tokens) || len(a.number) > 2 {
		return
	}
	next := r.tokens[a.to]
	unit := next.unit
	if unit == "" {
		unit = r.tokens[a.to+1].raw
	}
	if len(next.number) == 3 && !strings.Contains(next.number, ".") && isLength(unitOf(unit)) {
		a.number += next.number
		if next.unit != "" {
			a.unit = unitOf(unit)
		}
		a.to++
	}
}

func isLength(unit string) bool { return unit == "m" || unit == "ft" }

// unitAt reads the unit that stands apart behind a number.
func (r *reader) unitAt(a *amount) string {
	if a.unit != "" || a.to >= len(r.tokens) || r.tokens[a.to-1].stop {
		return a.unit
	}
	t := r.tokens[a.to]
	unit := unitOf(t.raw)
	if t.used || t.number != "" || unit == "" {
		return ""
	}
	a.to++
	a.unit = unit
	r.scale(a)
	return a.unit
}

// scale reads the scale that follows "degrees".
func (r *reader) scale(a *amount) {
	if a.unit != "c" || a.to >= len(r.tokens) || r.tokens[a.to].used || r.tokens[a.to-1].stop {
		return
	}
	switch fold := r.tokens[a.to].fold; {
	case fold == "f" || lookup.Alike(fold, "fahrenheit"):
		a.unit = "f"
		a.to++
	case fold == "c" || fold == "centigrade" || lookup.Alike(fold, "celsius"):
		a.to++
	}
}

// attachedUnit reads a unit that is written on to its number, where a small a
// is amperes: "210a".
func attachedUnit(text string) string {
	if text == "a" {
		return "a"
	}
	return unitOf(text)
}

// unitOf names a unit as it is typed. A small a that stands alone is a word,
// not amperes.
func unitOf(text string) string {
	if text == "A" {
		return "a"
	}
	low := lookup.Fold(text)
	for _, u := range units {
		if oneOf(low, u.words) {
			return u.unit
		}
	}
	for _, long := range []struct{ word, unit string }{{"degrees", "c"}, {"celsius", "c"}, {"fahrenheit", "f"}, {"watts", "w"}, {"metres", "m"}} {
		if lookup.Alike(low, long.word) {
			return long.unit
		}
	}
	return ""
}

// units are the words for each unit, in the languages that non-native askers
// fall back to for degrees.
var units = []struct {
	unit  string
	words string
}{
	{"c", "c ° º °c ºc oc ℃ celsius deg degs degc degree degrees centigrade grad grads grados degres gradi graden"},
	{"f", "f °f ºf ℉ fahrenheit degf"},
	{"w", "w watt watts wat wats"},
	{"kw", "kw kilowatt kilowatts"},
	{"a", "amp amps ampere amperes"},
	{"ghz", "ghz gigahertz gig gigs"},
	{"mhz", "mhz megahertz"},
	{"m", "m metre metres meter meters masl mnn"},
	{"km", "km kilometre kilometres kilometer kilometers"},
	{"ft", "ft feet foot"},
	{"core", "core cores cored coar"},
	{"ish", "ish"},
	{"EUR", "€ eur euro euros euros"},
	{"GBP", "£ gbp pound pounds quid"},
	{"USD", "$ usd dollar dollars bucks"},
}

// inWords reads a number that is written in words: twelve, thirty five.
func (r *reader) inWords(i int) (number string, to int) {
	n, ok := numberWords[r.tokens[i].fold]
	if !ok {
		return "", i + 1
	}
	if n >= 20 && i+1 < len(r.tokens) {
		if ones, ok := numberWords[r.tokens[i+1].fold]; ok && ones < 10 {
			return strconv.Itoa(n + ones), i + 2
		}
	}
	return strconv.Itoa(n), i + 1
}

var numberWords = map[string]int{
	"two": 2, "dual": 2, "three": 3, "four": 4, "quad": 4, "five": 5, "six": 6, "hexa": 6, "hex": 6, "seven": 7, "eight": 8, "octa": 8, "octo": 8, "nine": 9,
	"ten": 10, "deca": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18,
	"nineteen": 19, "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

// place gives an amount to the reader of its unit.
func (r *reader) place(a amount) {
	switch a.unit {
	case "c", "f":
		r.temperature(a)
	case "ghz", "mhz":
		r.clock(a)
	case "m", "km", "ft":
		r.height(a)
	case "a":
		r.amperes(a)
	case "w", "kw":
		r.watts(a)
	case "core":
		r.cores = a.number
		r.use(a.from, a.to)
	case "EUR", "GBP", "USD":
		r.price(a)
	case "ish":
		a.unit = ""
		if r.livable(a.number) {
			r.setRoom(a)
		}
	}
}

// set reads an amount into a field; a second, different value is asked back.
func (r *reader) set(a amount, field **float64, name string, read func(string) (float64, error)) {
	text := r.text(a.from, a.to)
	r.use(a.from, a.to)
	value, err := read(a.number + map[string]string{"c": "C", "f": "F", "w": "W", "kw": "kW", "a": "A", "ghz": "GHz", "mhz": "MHz", "m": "m", "km": "km", "ft": "ft"}[a.unit])
	if err != nil {
		r.ask(&advisor.Refusal{Kind: advisor.BadValue, Field: fieldOf(name), What: err.Error()})
		return
	}
	if *field != nil && **field != value {
		r.ask(twoValues(name, Value(name, **field), Value(name, value)))
		return
	}
	if *field == nil {
		r.take("%s %s%s", name, Value(name, value), fromText(text, a))
	}
	*field = &value
}

// fromText says what was converted or assumed.
func fromText(text string, a amount) string {
	switch a.unit {
	case "":
		return " (from " + strconv.Quote(text) + ", read as °C)"
	case "f", "ft", "kw", "mhz", "km":
		return " (from " + strconv.Quote(text) + ")"
	}
	if !strings.Contains(plainNumber(text), a.number) {
		return " (from " + strconv.Quote(text) + ")"
	}
	return ""
}

// before reports whether one of the words stands right before a token.
func (r *reader) before(i int, words string) bool {
	return i > 0 && i <= len(r.tokens) && oneOf(r.tokens[i-1].fold, words)
}

// after reports whether one of the words stands at a token.
func (r *reader) after(i int, words string) bool {
	return i < len(r.tokens) && !r.tokens[i-1].stop && oneOf(r.tokens[i].fold, words)
}

// back walks back from a token over linking words to one of the words that are
// looked for, and gives its place, or -1.
func (r *reader) back(from, most int, linking, words string) int {
	for i := from - 1; i >= max(0, from-most); i-- {
		t := r.tokens[i]
		switch {
		case oneOf(t.fold, words):
			return i
		case t.stop && i < from-1 || t.number != "" || !oneOf(t.fold, linking):
			return -1
		}
	}
	return -1
}
