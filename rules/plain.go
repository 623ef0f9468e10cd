package rules

import (
	"go/token"
	"strconv"
	"strings"
)

// plainCatalogue is what the embedded catalogue says.
type plainCatalogue struct {
	score    score
	verdicts []plainVerdict
	rules    []Rule
}

type plainVerdict struct {
	id, when, say string
	at            token.Position
}

// plainReader reads the few forms of TOML that the embedded catalogue is
// written in, and gives up at any other: headers, and keys with a number, a
// text on one line or a text between three quotes, none with a backslash. It
// saves a short program half of the time that the rules take to load.
type plainReader struct {
	catalogue plainCatalogue
	file      string
	src       string
	next      int // offset of the line to come
	line      int // the number of the line at hand
	table     string
}

// readPlain reads the embedded catalogue, or gives nil where it is not as
// plain as that.
func readPlain(file, src string) *plainCatalogue {
	p := &plainReader{file: file, src: src}
	p.catalogue.rules = make([]Rule, 0, strings.Count(src, "\n[[rule]]"))
	p.catalogue.verdicts = make([]plainVerdict, 0, strings.Count(src, "\n[[verdict]]"))
	for p.next < len(p.src) {
		at := p.next
		line, rest, _ := strings.Cut(p.src[at:], "\n")
		p.next = len(p.src) - len(rest)
		p.line++
		good := true
		switch {
		case line == "" || line[0] == '#':
		case line[0] == '[':
			good = p.header(line, at)
		default:
			good = p.pair(line)
		}
		if !good {
			return nil
		}
	}
	return &p.catalogue
}

func (p *plainReader) header(line string, at int) bool {
	p.table = line
	place := token.Position{Filename: p.file, Offset: at, Line: p.line, Column: 1}
	switch line {
	case "[[rule]]":
		p.catalogue.rules = append(p.catalogue.rules, Rule{At: place})
	case "[[verdict]]":
		p.catalogue.verdicts = append(p.catalogue.verdicts, plainVerdict{at: place})
	case "[score]":
	default:
		return false
	}
	return true
}

// pair reads key = value; examples are not needed here.
func (p *plainReader) pair(line string) bool {
	key, value, ok := strings.Cut(line, " = ")
	if !ok || key == "example" {
		return ok
	}
	if p.table == "[score]" {
		return p.number(key, value)
	}
	text, ok := p.text(value)
	if !ok || strings.ContainsAny(text, "\\\r") {
		return false
	}
	if p.table == "[[rule]]" {
		return set(p.ruleField(key), text)
	}
	return set(p.verdictField(key), text)
}

func (p *plainReader) number(key, value string) bool {
	value, _, _ = strings.Cut(value, "#")
	n, err := strconv.ParseFloat(strings.TrimSpace(value), 64)
	return err == nil && set(map[string]*float64{
		"start": &p.catalogue.score.start, "floor": &p.catalogue.score.floor, "ceiling": &p.catalogue.score.ceiling,
	}[key], n)
}

const quotes = `"""`

// text reads a value that is a text: on its line, or from the next one on.
func (p *plainReader) text(value string) (string, bool) {
	if value == quotes {
		text, rest, ok := strings.Cut(p.src[p.next:], quotes+"\n")
		p.next = len(p.src) - len(rest)
		p.line += strings.Count(text, "\n") + 1
		return text, ok && !strings.Contains(text, quotes)
	}
	last := len(value) - 1
	if last < 1 || value[0] != '"' && value[0] != '\'' || strings.IndexByte(value[1:], value[0]) != last-1 {
		return "", false
	}
	return value[1:last], true
}

func (p *plainReader) ruleField(key string) *string {
	r := &p.catalogue.rules[len(p.catalogue.rules)-1]
	switch key {
	case "name":
		return &r.Name
	case "kind":
		return &r.Kind
	case "when":
		return &r.When
	case "points":
		return &r.Points
	case "say":
		return &r.Say
	case "source":
		return &r.Source
	}
	return nil
}

func (p *plainReader) verdictField(key string) *string {
	if len(p.catalogue.verdicts) == 0 {
		return nil
	}
	v := &p.catalogue.verdicts[len(p.catalogue.verdicts)-1]
	switch key {
	case "id":
		return &v.id
	case "when":
		return &v.when
	case "say":
		return &v.say
	}
	return nil
}

// set fills a field, and reports whether there is one.
func set[T any](field *T, value T) bool {
	if field == nil {
		return false
	}
	*field = value
	return true
}
