package sentence

import (
	"fmt"
	"strings"

	"hotroom/advisor"
	"hotroom/knowledge/quantity"
)

// Spoken is a question as typed into flags, a form or a URL: every value is
// text, empty where nothing was given.
type Spoken struct {
	Board, Chip, Room, Enclosure, Cooler, Load, Setup string
	Power, Current, GHz, Graphics, Altitude           string
}

// Resolve turns typed values into a question: names and near-misses into ids,
// room words and units into numbers. What is known already narrows names that
// fit several things.
func (n *Names) Resolve(s Spoken, known advisor.Question) Reading {
	r := &resolver{names: n, known: known}
	q := &r.out.Question
	q.Board = r.name(board, s.Board)
	q.Chip = r.name(chip, s.Chip)
	q.Enclosure = r.name(enclosure, s.Enclosure)
	q.Cooler = r.name(cooler, s.Cooler)
	q.Load = r.name(load, s.Load)
	q.Setup = r.name(setup, s.Setup)
	q.RoomC = r.room(s.Room)
	q.PowerW = r.number(power, s.Power, quantity.Power)
	q.CurrentA = r.number(current, s.Current, quantity.Current)
	q.GHz = r.number(ghz, s.GHz, quantity.Clock)
	q.GraphicsW = r.number(graphics, s.Graphics, quantity.Power)
	q.AltitudeM = r.number(altitude, s.Altitude, quantity.Length)
	if q.Setup == "" && (q.PowerW != nil || q.CurrentA != nil) {
		q.Setup = advisor.SetupCustom
	}
	return r.out
}

type resolver struct {
	names *Names
	known advisor.Question
	out   Reading
}

// refuse keeps the first refusal.
func (r *resolver) refuse(refusal *advisor.Refusal) {
	if r.out.Ask == nil {
		r.out.Ask = refusal
	}
}

// name finds the thing of a kind that a text names.
func (r *resolver) name(kind, text string) string {
	if strings.TrimSpace(text) == "" {
		return ""
	}
	m := r.names.index[kind].Find(text)
	if m.Ambiguous {
		m.Candidates = r.fitting(kind, m.Candidates)
		if len(m.Candidates) == 1 {
			m.ID, m.Part = m.Candidates[0], true
		}
	}
	switch {
	case m.ID != "":
		if m.Near || m.Part {
			r.out.Taken = append(r.out.Taken, fmt.Sprintf("%s %q taken as %s", kind, text, r.names.say(thing{kind, m.ID})))
		}
		return m.ID
	case m.Ambiguous:
		r.refuse(fitsSeveral(kind, text, m.Candidates))
	default:
		r.refuse(r.names.unknown(kind, text))
	}
	return ""
}

// fitting keeps the candidates on the socket of the other half of the question.
func (r *resolver) fitting(kind string, ids []string) []string {
	other := map[string]thing{
		board: {chip, r.known.Chip},
		chip:  {board, first(r.out.Question.Board, r.known.Board)},
	}[kind]
	socket := r.names.socket(other)
	if socket == "" {
		return ids
	}
	var fit []string
	for _, id := range ids {
		if r.names.socket(thing{kind, id}) == socket {
			fit = append(fit, id)
		}
	}
	if len(fit) == 0 {
		return ids
	}
	return fit
}

func first(a, b string) string {
	if a != "" {
		return a
	}
	return b
}

// unknown refuses a name that nothing of a kind bears.
func (n *Names) unknown(kind, text string) *advisor.Refusal {
	near := n.index[kind].Nearest(text)
	refusal := &advisor.Refusal{
		Kind: advisor.NotFound, Field: fieldOf(kind),
		What:       fmt.Sprintf("no %s is called %q", kind, text),
		Candidates: near,
	}
	switch {
	case kind == setup:
		refusal.Kind = advisor.BadValue
		refusal.Mend = "give rated, shipped, open or custom"
	case len(near) > 0:
		refusal.Mend = "nearest are " + strings.Join(near, ", ")
	default:
		refusal.Mend = fmt.Sprintf("the knowledge holds no %s", kind)
	}
	return refusal
}

// room reads a temperature or a room word.
func (r *resolver) room(text string) *float64 {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	if strings.ContainsAny(text, "0123456789") {
		return r.number(room, text, quantity.Temperature)
	}
	word := r.name(room, text)
	if word == "" {
		return nil
	}
	celsius := r.names.celsius(word)
	return &celsius
}

// number reads a value with or without its unit.
func (r *resolver) number(name, text string, read func(string) (float64, error)) *float64 {
	if strings.TrimSpace(text) == "" {
		return nil
	}
	value, err := read(text)
	if err != nil {
		r.refuse(&advisor.Refusal{Kind: advisor.BadValue, Field: fieldOf(name), What: fmt.Sprintf("%s: %v", name, err)})
		return nil
	}
	return &value
}
