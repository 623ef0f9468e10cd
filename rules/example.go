package rules

import (
	"math"
	"strconv"
	"strings"

	"hotroom/knowledge/document"
	"hotroom/rules/facts"
)

// example runs a rule on the facts for which it must and must not fire:
// texts such as "margin.kept_c = 2, board.price = unknown". Facts that are not
// named are those of facts.Calm.
func (l *loader) example(r *rule, x *exampleRecord) {
	l.expect(r, x.Fires, true)
	l.expect(r, x.Silent, false)
}

func (l *loader) expect(r *rule, text document.Text, fires bool) {
	if !given(text) || !l.short("the example", text, mostSaid) {
		return
	}
	f := &l.facts
	*f = facts.Calm()
	if !l.assign(f, text) {
		return
	}
	l.bench.See(f)
	o := r.try(&l.bench)
	switch {
	case o.broken != nil:
		l.report(text.Problem(0, "the rule breaks on this example: "+o.broken.Error(), "mend the rule or the example"))
	case len(o.unknown) > 0 && fires:
		l.report(text.Problem(0, "the rule cannot be judged on this example, as "+strings.Join(o.unknown, ", ")+" is unknown",
			"name the fact in the example, or ask known(…) in the rule"))
	case o.fired != fires:
		l.report(text.Problem(0, "the rule "+map[bool]string{true: "fires", false: "is silent"}[o.fired]+
			" on this example ("+list(values(r.when, &l.bench))+")", "mend the rule or the example"))
	}
}

func list(all []Value) string {
	texts := make([]string, len(all))
	for i, v := range all {
		texts[i] = v.String()
	}
	return strings.Join(texts, ", ")
}

// assign writes an example's facts, and reports whether all could be.
func (l *loader) assign(f *facts.Facts, text document.Text) bool {
	good, at := true, 0
	for part := range strings.SplitSeq(text.String(), ",") {
		if strings.TrimSpace(part) != "" || text.String() != "" {
			good = l.assignOne(f, text, at, part) && good
		}
		at += len(part) + 1
	}
	return good
}

func (l *loader) assignOne(f *facts.Facts, text document.Text, at int, part string) bool {
	left, right, ok := strings.Cut(part, "=")
	at += len(left) - len(strings.TrimLeft(left, " \t\r\n"))
	name, value := strings.TrimSpace(left), strings.TrimSpace(right)
	if !ok {
		l.report(text.Problem(at, "an example lists facts with their values", "write it as in margin.kept_c = 2, evidence.word = measured"))
		return false
	}
	fact, suggestion, ok := l.compiler.Fact(name)
	if !ok {
		l.report(text.Problem(at, "no fact is called "+document.Quote(name), suggestion))
		return false
	}
	if read, ok := readValue(fact, value); !ok || !fact.Set(f, read) {
		l.report(text.Problem(at, name+" cannot be "+document.Quote(value), mendValue[fact.Type]))
		return false
	}
	return true
}

var mendValue = map[facts.Type]string{
	facts.Number: "give a number or unknown",
	facts.Word:   "give a word",
	facts.YesNo:  "give yes or no",
}

// readValue reads a value written in an example.
func readValue(fact facts.Fact, value string) (any, bool) {
	switch fact.Type {
	case facts.Word:
		return strings.Trim(value, `"'`), true
	case facts.YesNo:
		return value == "yes", value == "yes" || value == "no"
	}
	if value == "unknown" {
		return math.NaN(), true
	}
	n, err := strconv.ParseFloat(value, 64)
	return n, err == nil && !math.IsNaN(n) && !math.IsInf(n, 0)
}
