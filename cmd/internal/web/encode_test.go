package web

import (
	"encoding/json"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hotroom/advisor"
	"hotroom/knowledge"
)

// fill draws a value of any type that is sent.
func fill(t *rapid.T, v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		v.SetString(rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{"", "°C", "a<b>&\"\\", "\u2028\u2029€", "\xff\xfe", "\x00\x1f\x7f", "ok"})).Draw(t, "text"))
	case reflect.Bool:
		v.SetBool(rapid.Bool().Draw(t, "truth"))
	case reflect.Int:
		v.SetInt(rapid.Int64().Draw(t, "whole"))
	case reflect.Float64:
		v.SetFloat(rapid.OneOf(rapid.Float64(), rapid.SampledFrom([]float64{0, math.Copysign(0, -1), 1e-6, 9.9e-7, 1e21, 1e20, -273.15, 92.5602}), rapid.Custom(fourDecimals)).Draw(t, "number"))
	case reflect.Pointer:
		if rapid.Bool().Draw(t, "given") {
			v.Set(reflect.New(v.Type().Elem()))
			fill(t, v.Elem())
		}
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), rapid.IntRange(0, 2).Draw(t, "length"), 2))
		for i := range v.Len() {
			fill(t, v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Field(i).CanSet() {
				fill(t, v.Field(i))
			}
		}
	default:
		t.Fatalf("a %s is sent, and no encoder knows it", v.Kind())
	}
}

// fourDecimals draws a number as answers are full of.
func fourDecimals(t *rapid.T) float64 {
	return float64(rapid.Int64Range(-2e13, 2e13).Draw(t, "ten-thousandths")) / 1e4
}

// Every type that is sent is written as encoding/json writes it.
func TestEncoders(t *testing.T) {
	s := server(t, Options{})
	for kind, encode := range s.encoders.known {
		if _, ok := recorded(kind); ok || strings.Contains(kind.Name(), "Record[") {
			continue // written by the keys of its file: see TestRecord
		}
		t.Run(kind.String(), func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				v := reflect.New(kind).Elem()
				fill(t, v)
				want, err := json.Marshal(v.Interface())
				if err != nil {
					t.Fatal(err)
				}
				if got := encode(nil, v); string(got) != string(want) {
					t.Fatalf("got  %s\nwant %s", got, want)
				}
			})
		})
	}
	if len(s.encoders.known) < 10 {
		t.Errorf("only %d types are sent", len(s.encoders.known))
	}
}

// A record has the keys of its file, null where its maker says nothing, and no
// list that is null.
func TestRecord(t *testing.T) {
	price := 12.5
	b := knowledge.Board{ID: "a", Name: "<A>", Price: &price, Defaulted: []string{"laminate_c"}, Capacitor: &knowledge.Capacitor{Kind: "liquid"}}
	got := string(encoderOf(reflect.TypeFor[Record[knowledge.Board]]())(nil, reflect.ValueOf(Record[knowledge.Board]{b})))
	for _, want := range []string{
		`{"id":"a","name":"\u003cA\u003e","maker":"",`, `"price":12.5,`, `"estimated":[],`, `"limit":{"power_w":null,`, `"capacitor":{"kind":"liquid","rated_c":0,`, `"defaulted":["laminate_c"]}`,
	} {
		if !strings.Contains(got, want) {
			t.Errorf("without %s: %s", want, got)
		}
	}
	if !json.Valid([]byte(got)) {
		t.Errorf("no JSON: %s", got)
	}
}

// What JSON cannot say is null.
func TestEncodeNothing(t *testing.T) {
	e := newEncoders(nil)
	nan := math.NaN()
	w, err := e.write(advisor.Advice{HotSpot: advisor.HotSpot{ExpectedC: &nan}, Score: math.Inf(1)})
	got := w.bytes
	if err != nil || !strings.Contains(string(got), `"expected_c":null`) || !strings.Contains(string(got), `"score":null`) || !strings.Contains(string(got), `"runs":[],`) {
		t.Errorf("%v %s", err, got)
	}
}

// A text is written as encoding/json writes it, above all next to what needs an
// escape: the line ends of Unicode, and bytes that only begin like them.
func TestAppendText(t *testing.T) {
	parts := []string{"a", "ab cdefgh", "°", "…", "\u2028", "\u2029", "\u202a", "\xe2\x80", "\xe2", "<", "&", "\"", "\\", "^|~", "\x1f", "\x7f"}
	rapid.Check(t, func(t *rapid.T) {
		text := strings.Join(rapid.SliceOfN(rapid.SampledFrom(parts), 0, 6).Draw(t, "parts"), "")
		want, err := json.Marshal(text)
		if got := appendText(nil, text); err != nil || string(got) != string(want) {
			t.Fatalf("%q: %s, want %s %v", text, got, want, err)
		}
	})
}

// Looking at eight bytes at a time sees what looking at each does.
func TestLook(t *testing.T) {
	letters := []rune("abc <>&\"\\^|~é€\u2028\x00\x1f\x7f\ufffd~/")
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.StringOf(rapid.SampledFrom(letters)), rapid.Map(rapid.SliceOf(rapid.Byte()), func(b []byte) string { return string(b) })).Draw(t, "text")
		special, wide := false, false
		for i := range len(text) {
			c := text[i]
			special = special || c < ' ' || strings.IndexByte("\"&<>\\^|~", c) >= 0
			wide = wide || c >= 0x80
		}
		if s, w := look(text); s != special || w != wide {
			t.Fatalf("%q: %v %v, want %v %v", text, s, w, special, wide)
		}
	})
}
