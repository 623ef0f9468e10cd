package document

import (
	"bytes"
	"strings"
	"testing"

	"github.com/pelletier/go-toml/v2"
	"pgregory.net/rapid"
)

// piece is a stretch of raw string content and what it decodes to.
type piece struct{ raw, made string }

func plainPieces(allowed string) *rapid.Generator[piece] {
	return rapid.Custom(func(t *rapid.T) piece {
		r := rapid.RuneFrom([]rune(allowed)).Draw(t, "rune")
		return piece{string(r), string(r)}
	})
}

func escapes() *rapid.Generator[piece] {
	return rapid.SampledFrom([]piece{
		{`\n`, "\n"},
		{`\t`, "\t"},
		{`\"`, `"`},
		{`\\`, `\`},
		{`\u00e9`, "é"},
		{`\u20AC`, "€"},
		{`\U0001F525`, "🔥"},
		{`\x41`, "A"},
		{`\e`, "\x1b"},
		{`\u0000`, "\x00"},
	})
}

func joins() *rapid.Generator[piece] {
	return rapid.SampledFrom([]piece{{"\\\n", ""}, {"\\\r\n  ", ""}, {"\\  \n\n\t ", ""}})
}

func newlines() *rapid.Generator[piece] {
	return rapid.SampledFrom([]piece{{"\n", "\n"}, {"\r\n", "\r\n"}})
}

// Every form of TOML string: the decoded value is the library's own, and the
// place of each decoded byte is the raw byte, or the escape, that made it.
func TestTextPlaces(t *testing.T) {
	letters := plainPieces("ab Z{}é€🔥#=[]")
	forms := []struct {
		name, open, close string
		pieces            *rapid.Generator[piece]
	}{
		{"basic", `"`, `"`, rapid.OneOf(letters, escapes(), plainPieces("'"))},
		{"literal", `'`, `'`, rapid.OneOf(letters, plainPieces(`"\`))},
		{"long basic", `"""`, `"""`, rapid.OneOf(letters, escapes(), joins(), newlines(), plainPieces("'"))},
		{"long basic, newline", "\"\"\"\n", `"""`, rapid.OneOf(letters, escapes(), joins(), newlines())},
		{"long literal", `'''`, `'''`, rapid.OneOf(letters, newlines(), plainPieces(`"\`))},
		{"long literal, newline", "'''\r\n", `'''`, rapid.OneOf(letters, newlines())},
	}
	for _, form := range forms {
		t.Run(form.name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				pieces := rapid.SliceOfN(form.pieces, 0, 12).Draw(t, "pieces")
				checkText(t, form.open, form.close, pieces)
			})
		})
	}
}

func checkText(t *rapid.T, open, end string, pieces []piece) {
	head := "x = 1\nsay = " + open
	var body strings.Builder
	for _, p := range pieces {
		body.WriteString(p.raw)
	}
	src := []byte(head + body.String() + end + "\n")
	var library struct{ Say string }
	if err := toml.Unmarshal(src, &library); err != nil {
		t.Fatalf("%q: %v", src, err)
	}
	table, problems := Parse("f.toml", src)
	if problems != nil {
		t.Fatalf("%q: %v", src, problems)
	}
	text, ok := table.Text("say")
	if !ok || text.String() != library.Say {
		t.Fatalf("%q: got %q, want %q", src, text, library.Say)
	}
	for i, want := range places(len(head), strings.HasSuffix(open, "\n"), len(open) > 2, pieces) {
		if got := text.At(i); got.Offset != want || offsetAt(src, got.Line, got.Column) != want {
			t.Fatalf("%q: byte %d is at %v (offset %d), want offset %d", src, i, got, got.Offset, want)
		}
	}
}

// places works out from the pieces where each decoded byte stands, and the end.
func places(at int, trimmed, long bool, pieces []piece) []int {
	var list []int
	past, joined := at, false
	if long && !trimmed && len(pieces) > 0 && strings.HasSuffix(pieces[0].raw, "\n") && pieces[0].made != "" {
		at += len(pieces[0].raw) // the newline right after the quotes is no content
		past, pieces = at, pieces[1:]
	}
	for _, p := range pieces {
		switch {
		case p.made == "":
			joined = true
		case joined && strings.TrimSpace(p.raw) == "":
		default:
			joined = false
			for i := range len(p.made) {
				if p.raw == p.made {
					list = append(list, at+i)
				} else {
					list = append(list, at)
				}
			}
			past = at + len(p.raw)
		}
		at += len(p.raw)
	}
	return append(list, past)
}

func offsetAt(src []byte, line, column int) int {
	lines := bytes.SplitAfter(src, []byte("\n"))
	offset := column - 1
	for _, l := range lines[:line-1] {
		offset += len(l)
	}
	return offset
}
