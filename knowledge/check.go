package knowledge

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"hotroom/knowledge/document"
	"hotroom/knowledge/nearest"
)

// chip checks what belongs together within a chip.
func (l *loader) chip(c *Chip, t *document.Table) {
	tables := t.Tables("point")
	if t.Has("point") && len(tables) < 2 {
		l.at(t, []string{"point"}, fmt.Sprintf("too few operating points (%d)", len(tables)), "give at least two [[chip.point]]")
	}
	for i, p := range tables {
		l.points.check(p, reflect.ValueOf(&c.Points[i]).Elem(), &l.report)
		if i > 0 {
			l.rising(c.Points[i-1], c.Points[i], p)
		}
	}
	if len(tables) == 0 {
		return
	}
	first, last := c.Points[0], c.Points[len(tables)-1]
	if t.Has("all_core_ghz") && (c.AllCoreGHz < first.GHz || c.AllCoreGHz > last.GHz) {
		l.at(t, []string{"all_core_ghz"}, fmt.Sprintf("all_core_ghz is %s, outside the points", number(c.AllCoreGHz)),
			fmt.Sprintf("give a clock from %s to %s, or more points", number(first.GHz), number(last.GHz)))
	}
	if t.Has("idle_w") && tables[0].Has("watts") && c.IdleW >= first.Watts {
		l.at(t, []string{"idle_w"}, fmt.Sprintf("idle_w is %s, not below the first point's %s W", number(c.IdleW), number(first.Watts)),
			"give the package power at idle, or correct the point")
	}
}

// rising checks one operating point against the one before it.
func (l *loader) rising(before, p Point, t *document.Table) {
	compare := func(key string, was, is float64, level bool, mend string) {
		if t.Has(key) && was != 0 && (is < was || is == was && !level) {
			word := "not above"
			if level {
				word = "below"
			}
			l.at(t, []string{key}, fmt.Sprintf("%s is %s, %s the %s of the point before", key, number(is), word, number(was)), mend)
		}
	}
	compare("ghz", before.GHz, p.GHz, false, "order the points by clock and give each clock once")
	compare("volts", before.Volts, p.Volts, true, "give a voltage that does not fall with the clock")
	compare("watts", before.Watts, p.Watts, false, "give a power that rises with the clock")
	if before.Volts > 0 && p.Volts > 0 && p.Watts > before.Watts && p.Watts/p.Volts <= before.Watts/before.Volts {
		l.at(t, []string{"volts"}, fmt.Sprintf("watts/volts falls to %.4g A from %.4g A at the point before", p.Watts/p.Volts, before.Watts/before.Volts),
			"give volts and watts whose current rises with the clock")
	}
}

// stageKey is a key that only one kind of stage has.
type stageKey struct{ key, kind string }

func stageKeys() []stageKey {
	var keys []stageKey
	t := reflect.TypeFor[Stage]()
	for i := range t.NumField() {
		if k := t.Field(i).Tag.Get("for"); k != "" {
			keys = append(keys, stageKey{t.Field(i).Tag.Get("toml"), k})
		}
	}
	return keys
}

// stage checks that a stage has the keys of its kind and no others.
func (l *loader) stage(s *Stage, t *document.Table) {
	l.estimates(stageKind, t, "loss.amps", "loss.watts")
	for _, k := range l.forKind {
		switch {
		case s.Kind == "":
		case k.kind != s.Kind && t.Has(k.key):
			p := t.Problem(t.KeyAt(k.key), fmt.Sprintf("%s belongs to a stage of kind %q, and this one is %q", k.key, k.kind, s.Kind),
				"remove it, or correct the kind")
			l.problems = append(l.problems, p)
		case k.kind == s.Kind && !t.Has(k.key):
			mend := "add " + k.key + " = a number"
			if k.key == "loss" {
				mend = "add two or more [[stage.loss]]"
			}
			l.at(t, []string{k.key}, fmt.Sprintf("the %s stage has no %s", s.Kind, k.key), mend)
		}
	}
	l.lossTable(s, t)
}

// lossTable checks the rows of an integrated stage's table.
func (l *loader) lossTable(s *Stage, t *document.Table) {
	rows := t.Tables("loss")
	if t.Has("loss") && len(rows) < 2 {
		l.at(t, []string{"loss"}, fmt.Sprintf("too few rows in the loss table (%d)", len(rows)), "give at least two [[stage.loss]]")
	}
	for i, row := range rows {
		is := s.Losses[i]
		l.losses.check(row, reflect.ValueOf(&is).Elem(), &l.report)
		if i == 0 || !row.Has("amps") || !row.Has("watts") {
			continue
		}
		was := s.Losses[i-1]
		if is.Amps <= was.Amps {
			l.at(row, []string{"amps"}, fmt.Sprintf("amps is %s, not above the %s of the row before", number(is.Amps), number(was.Amps)), "order the rows by current and give each current once")
		}
		if is.Watts < was.Watts {
			l.at(row, []string{"watts"}, fmt.Sprintf("watts is %s, below the %s of the row before", number(is.Watts), number(was.Watts)), "give a loss that does not fall with the current")
		}
	}
}

// board checks what belongs together within a board.
func (l *loader) board(b *Board, t *document.Table) {
	l.estimates(boardKind, t)
	l.heatsink(b, t)
	if t.Has("regulator", "stage") {
		l.refers(t, []string{"regulator", "stage"}, stageKind, b.Regulator.Stage)
	}
}

func (l *loader) heatsink(b *Board, t *document.Table) {
	mass, area := []string{"heatsink", "mass_g"}, []string{"heatsink", "area_cm2"}
	switch b.Heatsink.Shape {
	case "":
	case "none":
		for _, path := range [][]string{mass, area} {
			if t.Has(path...) {
				l.doubt(t, path, "the shape is none and "+path[1]+" is given", "remove it, or give the heatsink's shape")
			}
		}
	default:
		if !t.Has(mass...) && !t.Has(area...) {
			l.at(t, mass, "the heatsink has neither mass_g nor area_cm2", "add one of them; area_cm2 is the better one")
		}
	}
}

// estimates checks that the keys marked as estimates are numbers of the record.
func (l *loader) estimates(k kind, t *document.Table, more ...string) {
	keys := append(l.numbers[k].keys(), more...)
	for _, text := range t.Texts("estimated") {
		if slices.Contains(keys, text.String()) {
			continue
		}
		mend := "name a number of the record by its dotted key, as in " + document.Quote(keys[len(keys)-1])
		if best, ok := nearestKey(text.String(), keys); ok {
			mend = "did you mean " + document.Quote(best) + "?"
		}
		l.problems = append(l.problems, text.Problem(0, document.Quote(text.String())+" is no numeric key of a "+string(k), mend))
	}
}

// nearestKey finds a dotted key by a near miss, or by its last part alone.
func nearestKey(given string, keys []string) (string, bool) {
	for _, key := range keys {
		if strings.HasSuffix(key, "."+given) {
			return key, true
		}
	}
	return nearest.Word(given, keys)
}

// refers reports a reference to a record that there is none of.
func (l *loader) refers(t *document.Table, path []string, k kind, id string) {
	if what, mend, bad := l.dangling(k, id); bad {
		l.at(t, path, what, mend)
	}
}

// dangling words a reference to a record that there is none of. Nothing is
// dangling while a file with records of that kind cannot be read.
func (l *loader) dangling(k kind, id string) (what, mend string, bad bool) {
	known := l.known[k]
	if id == "" || known.has(id) || l.unread[k] {
		return "", "", false
	}
	what = fmt.Sprintf("there is no %s %s", k, document.Quote(id))
	if len(known.ids) == 0 {
		return what + ", nor any other", l.noneAtAll(k), true
	}
	if best, ok := nearest.Word(id, known.ids); ok {
		return what, "did you mean " + document.Quote(best) + "?", true
	}
	return what, "add it to " + k.home() + ", or name one of " + known.some(), true
}

// noneAtAll says how to mend that there is no record of a kind. It is said once:
// whatever else refers to one is wrong for the same reason.
func (l *loader) noneAtAll(k kind) string {
	l.unread[k] = true
	if _, read := l.files[k.home()]; !read {
		return "the folder has no " + k.home() + ": put it back, or write one"
	}
	return "add it to " + k.home()
}

// checkInputs reports boards whose input rail is not above the voltage of a
// chip that fits: a step-down converter needs a duty cycle below one.
func (l *loader) checkInputs() {
	highest := make(map[string]*Chip) // by socket
	for i := range l.base.Chips {
		c := &l.base.Chips[i]
		if h := highest[c.Socket]; h == nil || topVolts(c) > topVolts(h) {
			highest[c.Socket] = c
		}
	}
	for i := range l.base.Boards {
		b := &l.base.Boards[i]
		c := highest[b.Socket]
		if c == nil || b.Regulator.InputV <= 0 || topVolts(c) < b.Regulator.InputV {
			continue
		}
		l.at(l.tables[boardKind][i], []string{"regulator", "input_v"},
			fmt.Sprintf("input_v is %s, not above the %s V of chip %s", number(b.Regulator.InputV), number(topVolts(c)), document.Quote(c.ID)),
			"give the regulator's input rail, usually 12, or correct the chip's points")
	}
}

func topVolts(c *Chip) float64 {
	top := 0.0
	for _, p := range c.Points {
		top = max(top, p.Volts)
	}
	return top
}
