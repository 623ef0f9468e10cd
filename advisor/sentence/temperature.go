package sentence

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"hotroom/advisor"
	"hotroom/knowledge/quantity"
)

// places are the words for where somebody lives or works.
const places = "room|rooms|flat|attic|loft|office|place|bedroom|garage|apartment|house|home|study|basement|cellar|ambient|workshop|shed|kitchen|" +
	"studio|dorm|lab|den|climate|weather|summer|winter|day|days|conservatory|greenhouse|outside|inside|indoors|here|environment|temperature|temp|surroundings"

// linking words stand between a place and its temperature: "my flat easily
// gets to 35".
const linking = " is are was at gets get getting got to hits hit reaches reach can could may might will would of up goes go sits sit stays stay say " +
	"maybe like temp temps temperature be the in on easily often usually always around about approximately roughly near nearly almost i have has it its " +
	"and that and s there which will touch touches peaks averages normally typically probably only just over above below under well tops out warm hot " +
	"very really quite one where if when my most evenings as high low "

// componentWords are what a temperature may be of, if not of the room.
const componentWords = "vrm vrms hotspot spot mosfet mosfets regulator regulators cpu chip core cores junction board " +
	"motherboard socket gpu card ram ssd tjmax tj limit throttle throttles sensor delta rise coolant fluid"

// ofComponent are the words between such a thing and its temperature. "At"
// alone is not among them: "how hot does the vrm run at 30 °C".
const ofComponent = " is are was were hits hit reaches reach reached reads read reading of temp temps temperature temperatures under below over above to gets got go going went " +
	" goes around about at max stays stay sits sat showed shows already "

// warmestRoomC is the highest room that anybody means, °C (the bound that the
// answers accept).
const (
	warmestRoomC = 60
	coldestRoomC = -20
)

// temperature takes an amount in °C or °F for the room, unless it is said of a
// part of the computer.
func (r *reader) temperature(a amount) {
	if r.ofPart(a) {
		return
	}
	value, err := quantity.Temperature(a.number + strings.ToUpper(a.unit))
	if err == nil && value > warmestRoomC && r.maybeFahrenheit(a) {
		return
	}
	r.rangeBefore(a)
	r.setRoom(a)
}

// maybeFahrenheit asks back where degrees without a scale make sense only as
// Fahrenheit: "it is 95 degrees in here".
func (r *reader) maybeFahrenheit(a amount) bool {
	n, err := strconv.ParseFloat(a.number, 64)
	plain := !strings.ContainsAny(strings.ToLower(r.text(a.from, a.to)), "c℃")
	if err != nil || n <= warmestRoomC || n > 122 || a.unit == "f" || !plain {
		return false
	}
	r.use(a.from, a.to)
	c := (n - 32) / 1.8
	r.ask(&advisor.Refusal{
		Kind: advisor.Ambiguous, Field: fieldOf(room),
		What: fmt.Sprintf("a room of %g °C is not possible", n),
		Mend: fmt.Sprintf("if Fahrenheit is meant (%s), say %gF", Value(room, c), n), Candidates: []string{fmt.Sprintf("%gF", n)},
	})
	return true
}

func (r *reader) setRoom(a amount) { r.set(a, &r.out.Question.RoomC, room, quantity.Temperature) }

// rangeBefore reads the lower end of "30 to 35 °C" as well, so that it is
// asked which of the two is meant.
func (r *reader) rangeBefore(a amount) {
	at := a.from - 1
	if at >= 1 && oneOf(r.tokens[at].fold, rangeWords) {
		at--
	}
	if at < 0 || r.tokens[at].used || r.tokens[at].number == "" || r.tokens[at].unit != "" || r.tokens[at].stop || !r.livable(r.tokens[at].number) {
		return
	}
	r.setRoom(amount{from: at, to: a.from, number: r.tokens[at].number, unit: a.unit})
}

const rangeWords = "to or and maybe till until through perhaps even"

// ofPart reports whether a temperature is said of a part of the computer.
func (r *reader) ofPart(a amount) bool {
	at := r.back(a.from, 5, ofComponent, componentWords)
	if at < 0 {
		return r.after(a.to, "rise delta above over rating rated")
	}
	return at == a.from-1 || !r.before(a.from, "at") || r.before(a.from-1, "is was were temp temps temperature vrm vrms")
}

// ofRoom reports whether an amount is said of a place.
func (r *reader) ofRoom(a amount) bool {
	return r.after(a.to, places) || r.back(a.from, 7, linking, places) >= 0
}

// livable reports whether a bare number may be a room's temperature in °C.
func (r *reader) livable(number string) bool {
	v, err := strconv.ParseFloat(number, 64)
	return err == nil && v >= coldestRoomC && v <= warmestRoomC
}

// bareNumbers takes numbers without a unit for the room where the words around
// them say so, or for a budget, and leaves them alone otherwise.
func (r *reader) bareNumbers() {
	for i := range r.tokens {
		a, ok := r.amount(i)
		if !ok || a.unit != "" {
			continue
		}
		switch {
		case r.barePrice(a) || r.bareCap(a):
		case r.bareRoom(a):
			if !r.livable(a.number) {
				r.maybeFahrenheit(a)
				continue
			}
			r.rangeBefore(a)
			r.setRoom(a)
		}
	}
}

// bareRoom: beside a place, after "at" with nothing behind it that it may
// count, in summer, alone between commas, or alone in a follow-up.
func (r *reader) bareRoom(a amount) bool {
	alone := r.edge(a.to)
	switch {
	case r.ofPart(a):
		return false
	case r.ofRoom(a), r.season(a.to):
		return true
	case !alone:
		return false
	}
	return r.before(a.from, "at hits reaches around about say by") || r.edge(a.from-1) || r.followUp(a)
}

// edge reports whether nothing that a number could count stands at a token:
// the end, a name that was taken, or a word without meaning.
func (r *reader) edge(i int) bool {
	if i < 0 || i >= len(r.tokens) || r.tokens[i].used || i > 0 && r.tokens[i-1].stop {
		return true
	}
	t := r.tokens[i]
	return t.stop && i+1 < len(r.tokens) && r.tokens[i+1].number != "" || oneOf(t.fold, rangeWords) || oneOf(t.fold, connectives)
}

const connectives = "with for and on in please pls then instead will is if when but"

// season: "35 in July", "30 in the summer", "35 outside".
func (r *reader) season(i int) bool {
	for _, p := range seasons {
		if _, ok := p.match(r.tokens, i); ok && !r.tokens[i-1].stop {
			return true
		}
	}
	return false
}

var seasons = []pattern{
	"in|during|by|over ?the|my|our|a january|february|march|april|may|june|july|august|september|october|november|december|PLACE",
	"outside|inside|indoors|ambient|ish|today",
}

// followUp: the sentence is nothing but this number and words without meaning:
// "what about 35?".
func (r *reader) followUp(a amount) bool {
	for i, t := range r.tokens {
		if i >= a.from && i < a.to {
			continue
		}
		if t.number != "" || t.used && r.cue == nil || !filler(t.fold) && !ordinary(t.fold) && !t.used {
			return false
		}
	}
	return len(r.found[board]) == 0 && len(r.found[chip]) == 0
}

// decideRoom turns a room word into its temperature. A number says more than a
// word for it; where they are far apart, it is asked back.
func (r *reader) decideRoom(word string) {
	if word == "" {
		return
	}
	celsius := r.names.celsius(word)
	given := r.out.Question.RoomC
	switch {
	case given == nil:
		r.out.Question.RoomC = &celsius
	case *given == celsius:
	case !adjective(word), math.Abs(*given-celsius) <= sameWordK:
		// "my attic hits 35", "a hot room of 30 °C"
		r.take("%q is %s here, as said, not %s", word, Value(room, *given), Value(room, celsius))
	default:
		r.ask(twoValues(room, Value(room, *given), word+" ("+Value(room, celsius)+")"))
	}
}

// preferPlaces: "the hot attic" is the attic.
func (r *reader) preferPlaces() {
	var which []find
	for _, f := range r.found[room] {
		if !slices.ContainsFunc(f.ids, adjective) {
			which = append(which, f)
		}
	}
	if len(which) > 0 {
		r.found[room] = which
	}
}

// sameWordK is how far a number may be from the word beside it before they
// contradict each other, K (our own choice).
const sameWordK = 8

// adjective reports whether a room's word says how warm it is rather than
// which room it is.
func adjective(word string) bool {
	return oneOf(compact(word), "cool cold normal warm hot mild average typical usual tropical chilly freezing moderate comfortable")
}
