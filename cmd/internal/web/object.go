package web

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"net/http"
	"strconv"

	"hotroom/advisor/sentence"
)

// mostBatch is the most questions that one body holds.
const mostBatch = 1000

// member is one value of an object: a text, or a number.
type member struct {
	key    string
	text   string // the text, or the number written plainly
	number bool
	at     string // "line 3, column 9"
}

// objects reads JSON that holds one object of texts and numbers, or an array
// of such. It looks at one token at a time, so that deep or endless nesting
// ends at its first bracket.
type objects struct {
	src     []byte
	decoder *json.Decoder
	keys    []string

	counted int // up to where lines are counted
	lines   int // before there
	begins  int // where the line there begins
}

func newObjects(src []byte, keys []string) *objects {
	d := json.NewDecoder(bytes.NewReader(src))
	d.UseNumber()
	return &objects{src: src, decoder: d, keys: keys}
}

// one reads a body of one object.
func (o *objects) one() ([]member, error) {
	if err := o.opening('{', "an object"); err != nil {
		return nil, err
	}
	members, err := o.members()
	if err != nil {
		return nil, err
	}
	return members, o.end()
}

// many reads a body of an array. An object that cannot be understood stands as
// an error in its place; one that is no JSON ends the reading.
func (o *objects) many(each func(members []member, err error)) error {
	if err := o.opening('[', "an array"); err != nil {
		return err
	}
	for n := 0; o.decoder.More(); n++ {
		if n == mostBatch {
			return &fault{
				status: http.StatusRequestEntityTooLarge, kind: "too-many-questions", what: fmt.Sprintf("the array holds more than %d questions", mostBatch),
				mend: "send the rest in another request",
			}
		}
		if err := o.opening('{', "an object"); err != nil {
			return err
		}
		members, err := o.members()
		if f, ok := errors.AsType[*fault](err); ok && f.kind == badJSON {
			return err
		}
		each(members, err)
	}
	if _, err := o.token(); err != nil {
		return err
	}
	return o.end()
}

// The kinds of fault in a body: one that ends the reading, one of a value.
const (
	badJSON   = "bad-json"
	wrongType = "wrong-type"
)

// members reads to the end of an object. The first mistake in it is kept and
// the rest still read.
func (o *objects) members() ([]member, error) {
	var list []member
	var wrong error
	for o.decoder.More() {
		m, err := o.member()
		if f, ok := errors.AsType[*fault](err); ok && f.kind == badJSON {
			return nil, err
		}
		for _, before := range list {
			if err == nil && before.key == m.key {
				err = o.fault("duplicate-key", m.key, fmt.Sprintf("the key %q is given twice", m.key), "give it once")
			}
		}
		if err != nil && wrong == nil {
			wrong = err
		}
		if err == nil {
			list = append(list, m)
		}
	}
	if _, err := o.token(); err != nil {
		return nil, err
	}
	return list, wrong
}

// member reads a key and its value.
func (o *objects) member() (member, error) {
	token, err := o.token()
	if err != nil {
		return member{}, err
	}
	m := member{key: token.(string), at: o.place()}
	known := false
	for _, k := range o.keys {
		known = known || k == m.key
	}
	value, err := o.token()
	if err != nil {
		return member{}, err
	}
	switch v := value.(type) {
	case nil:
	case string:
		m.text = v
	case json.Number:
		m.number = true
		m.text, err = plainly(v)
		if err != nil {
			return m, o.fault(wrongType, m.key, fmt.Sprintf("%q holds a number that is too large", m.key), "give one that a machine can hold")
		}
	case bool:
		return m, o.fault(wrongType, m.key, fmt.Sprintf("%q holds %t", m.key, v), "give a text or a number")
	default: // an array or an object: reading on would be reading whatever it nests
		f := o.fault(badJSON, m.key, fmt.Sprintf("%s holds an array or an object", quoted(m.key)), "give a text or a number")
		return m, f
	}
	if !known {
		f := unknownName("unknown-key", "key", m.key, o.keys)
		f.what += " (" + m.at + ")"
		return m, f
	}
	return m, nil
}

// plainly writes a number without an exponent, as readers of quantities take
// it.
func plainly(n json.Number) (string, error) {
	f, err := strconv.ParseFloat(n.String(), 64)
	return strconv.FormatFloat(f, 'f', -1, 64), err
}

func (o *objects) opening(want json.Delim, what string) error {
	token, err := o.token()
	if err != nil {
		return err
	}
	if token != want {
		return o.fault(badJSON, "", fmt.Sprintf("%s is wanted here", what), "openapi.json shows the form")
	}
	return nil
}

// end refuses what follows the value.
func (o *objects) end() error {
	if _, err := o.decoder.Token(); !errors.Is(err, io.EOF) {
		return o.fault(badJSON, "", "something follows the end of the JSON", "send one value")
	}
	return nil
}

func (o *objects) token() (json.Token, error) {
	token, err := o.decoder.Token()
	if err == nil {
		return token, nil
	}
	at := o.offset()
	if len(bytes.TrimSpace(o.src[at:])) == 0 || errors.Is(err, io.ErrUnexpectedEOF) {
		return nil, o.fault(badJSON, "", "the body ends too early", "send whole JSON")
	}
	mend := "JSON is described in RFC 8259"
	if wrong, ok := errors.AsType[*json.SyntaxError](err); ok {
		at, mend = min(max(at, int(wrong.Offset)-1), len(o.src)), wrong.Error()
	}
	return nil, &fault{status: http.StatusBadRequest, kind: badJSON, what: "the body is no JSON (" + o.placeOf(at) + ")", mend: mend}
}

func (o *objects) fault(kind, field, what, mend string) *fault {
	return &fault{status: http.StatusBadRequest, kind: kind, field: cut(field), what: what + " (" + o.place() + ")", mend: mend}
}

// place says where the reading stands.
func (o *objects) place() string { return o.placeOf(o.offset()) }

func (o *objects) offset() int { return min(int(o.decoder.InputOffset()), len(o.src)) }

// placeOf counts on from the place that was asked for before, so that a body of
// many mistakes is counted through once.
func (o *objects) placeOf(offset int) string {
	if offset < o.counted {
		o.counted, o.lines, o.begins = 0, 0, 0
	}
	passed := o.src[o.counted:offset]
	o.lines += bytes.Count(passed, []byte("\n"))
	if last := bytes.LastIndexByte(passed, '\n'); last >= 0 {
		o.begins = o.counted + last + 1
	}
	o.counted = offset
	return fmt.Sprintf("line %d, column %d", o.lines+1, offset-o.begins+1)
}

// questionKeys are the keys of a question's JSON.
func questionKeys() []string {
	names := sentence.Settings()
	keys := make([]string, len(names))
	for i, name := range names {
		keys[i] = keyOf(name)
	}
	return keys
}

// spoken puts the values of an object in their places. Names must be texts;
// whatever has a unit may be a number or a text.
func spoken(members []member) (sentence.Spoken, error) {
	var said sentence.Spoken
	for _, name := range sentence.Settings() {
		key := keyOf(name)
		for _, m := range members {
			if m.key != key {
				continue
			}
			if m.number && isName(name) {
				return said, &fault{
					status: http.StatusBadRequest, kind: wrongType, field: key,
					what: fmt.Sprintf("%q holds the number %s (%s)", key, cut(m.text), m.at), mend: "give a text",
				}
			}
			*said.Field(name) = m.text
		}
	}
	return said, nil
}

// isName reports whether a value of a question is a name.
func isName(setting string) bool {
	switch setting {
	case "board", "chip", "enclosure", "cooler", "load", "setup":
		return true
	}
	return false
}

// asks is one question of a body as it was written, or why it cannot be read.
type asks struct {
	said sentence.Spoken
	err  error
}

func newAsks(members []member, err error) asks {
	if err != nil {
		return asks{err: err}
	}
	said, err := spoken(members)
	return asks{said, err}
}
