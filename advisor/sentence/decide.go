package sentence

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hotroom/advisor"
)

// decide settles which thing of each kind is meant.
func (r *reader) decide() {
	q := &r.out.Question
	r.narrowBoth()
	r.decideBoards()
	q.Chip = r.one(chip)
	q.Enclosure = r.one(enclosure)
	q.Cooler = r.one(cooler)
	q.Load = r.one(load)
	q.Setup = r.one(setup)
	if r.cue == nil || r.cue.over != OverRoom || r.out.Question.RoomC != nil {
		r.preferPlaces()
		r.decideRoom(r.one(room))
	}
	r.decideCaps()
}

// decideBoards takes one board, or several to compare. A name that fits
// several boards is settled by one of them that is named as well.
func (r *reader) decideBoards() {
	var sure []string
	for _, f := range r.found[board] {
		if len(f.ids) == 1 && !slices.Contains(sure, f.ids[0]) {
			sure = append(sure, f.ids[0])
		}
	}
	for _, f := range r.found[board] {
		if len(f.ids) > 1 && !slices.ContainsFunc(f.ids, func(id string) bool { return slices.Contains(sure, id) }) && len(sure) > 0 {
			r.ask(fitsSeveral(board, f.text, f.ids))
			return
		}
	}
	if len(sure) < 2 {
		r.out.Question.Board = r.one(board)
		return
	}
	r.out.Boards = sure
	for _, id := range sure {
		r.tell(thing{board, id}, r.findsOf(id))
	}
}

func (r *reader) findsOf(id string) []find {
	return slices.DeleteFunc(slices.Clone(r.found[board]), func(f find) bool { return len(f.ids) > 1 || f.ids[0] != id })
}

// narrowBoth lets the board narrow the chips, and the chip the boards; the
// number of cores narrows the chips first.
func (r *reader) narrowBoth() {
	if r.cores != "" {
		r.narrowCores()
	}
	r.narrow(chip, r.socketOf(board))
	r.narrow(board, r.socketOf(chip))
}

// socketOf gives the socket that all the boards or chips share that are named,
// or else known.
func (r *reader) socketOf(kind string) string {
	finds := r.found[kind]
	if len(finds) == 0 {
		return r.names.socket(thing{kind, map[string]string{board: r.known.Board, chip: r.known.Chip}[kind]})
	}
	socket := ""
	for _, f := range finds {
		for _, id := range f.ids {
			of := r.names.socket(thing{kind, id})
			if socket != "" && of != socket {
				return ""
			}
			socket = of
		}
	}
	return socket
}

// narrow keeps the candidates that fit a socket, where any does.
func (r *reader) narrow(kind, socket string) {
	if socket == "" {
		return
	}
	for i, f := range r.found[kind] {
		var fitting []string
		for _, id := range f.ids {
			if r.names.socket(thing{kind, id}) == socket {
				fitting = append(fitting, id)
			}
		}
		if len(f.ids) > 1 && len(fitting) > 0 {
			r.found[kind][i].ids = fitting
		}
	}
}

// narrowCores makes "10-core" narrow the chips named, or name one by itself.
func (r *reader) narrowCores() {
	cores, _ := strconv.Atoi(r.cores)
	with := r.names.chipsWith(cores)
	text := r.cores + "-core"
	if len(r.found[chip]) == 0 {
		if len(with) == 0 {
			r.ask(&advisor.Refusal{
				Kind: advisor.NotFound, Field: chip,
				What: fmt.Sprintf("no known chip has %s cores", r.cores), Mend: "name the chip",
			})
			return
		}
		r.find(chip, find{with, text, inPart})
		return
	}
	for i, f := range r.found[chip] {
		both := slices.DeleteFunc(slices.Clone(f.ids), func(id string) bool { return !slices.Contains(with, id) })
		if len(both) == 0 {
			r.ask(&advisor.Refusal{
				Kind: advisor.Ambiguous, Field: chip,
				What:       fmt.Sprintf("%q is not a %s chip", f.text, text),
				Mend:       "name the chip or its cores, not both",
				Candidates: f.ids,
			})
			continue
		}
		r.found[chip][i].ids = both
	}
}

// one gives the single thing of a kind that the sentence names, or asks.
func (r *reader) one(kind string) string {
	finds := r.found[kind]
	if len(finds) == 0 {
		return ""
	}
	common := finds[0].ids
	for _, f := range finds[1:] {
		common = slices.DeleteFunc(slices.Clone(common), func(id string) bool { return !slices.Contains(f.ids, id) })
	}
	switch {
	case len(common) == 1:
		r.tell(thing{kind, common[0]}, finds)
		return common[0]
	case len(common) > 1:
		r.ask(fitsSeveral(kind, finds[0].text, common))
	default:
		r.ask(namesTwo(kind, finds))
	}
	return ""
}

// tell says what a name was taken for, and how it differs from what was typed.
func (r *reader) tell(t thing, finds []find) {
	how := finds[0].how
	for _, f := range finds {
		if f.how == "" {
			how = ""
		}
	}
	said := t.kind + " " + r.names.say(t)
	if t.kind == room {
		if r.out.Question.RoomC != nil {
			return // a number says more than a word: decideRoom holds them together
		}
		said += " (" + Value(room, r.names.celsius(t.id)) + ")"
	}
	if how != "" {
		said += fmt.Sprintf(" (from %q, %s)", finds[0].text, how)
	}
	r.take("%s", said)
}

func fitsSeveral(kind, text string, ids []string) *advisor.Refusal {
	return &advisor.Refusal{
		Kind: advisor.Ambiguous, Field: fieldOf(kind),
		What:       fmt.Sprintf("%q fits several %ss", text, kind),
		Mend:       "say which: " + strings.Join(ids, ", "),
		Candidates: ids,
	}
}

func namesTwo(kind string, finds []find) *advisor.Refusal {
	var ids []string
	for _, f := range finds {
		ids = append(ids, f.ids...)
	}
	ids = ids[:min(len(ids), 6)]
	return &advisor.Refusal{
		Kind: advisor.Ambiguous, Field: fieldOf(kind),
		What:       fmt.Sprintf("more than one %s is named", kind),
		Mend:       "ask about one at a time: " + strings.Join(ids, ", "),
		Candidates: ids,
	}
}

func twoValues(name, first, second string) *advisor.Refusal {
	return &advisor.Refusal{
		Kind: advisor.Ambiguous, Field: fieldOf(name),
		What: fmt.Sprintf("two values for the %s are given: %s and %s", name, first, second),
		Mend: "give one",
	}
}
