package command

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"pgregory.net/rapid"

	"hotroom/advisor"
	"hotroom/advisor/sentence"
)

func demoReplier(t *testing.T) *replier {
	t.Helper()
	snapshot, problems, err := advisor.Open(advisor.Source{}, "test")
	if err != nil || problems.Fatal() {
		t.Fatal(err, problems)
	}
	return &replier{snapshot, sentence.NewNames(snapshot.Base()), func(int, int) {}}
}

// Every answer fits a comment and ends with the evidence and the caution,
// whatever was asked.
func TestRepliesFit(t *testing.T) {
	r := demoReplier(t)
	base := r.snapshot.Base()
	rapid.Check(t, func(t *rapid.T) {
		b := rapid.SampledFrom(base.Boards).Draw(t, "board").Name
		c := rapid.SampledFrom(base.Chips).Draw(t, "chip").Name
		text := rapid.SampledFrom([]string{
			"%s with %s", "how hot does the %s get with %s in a small cube with a 400 W gpu at 2,000 m", "how far can I go with %s and %s",
			"%s or kiln or chalk or anvil for %s", "which board, %s or not, for the %s", "%s %s " + strings.Repeat("zzyzx ", 60),
		}).Draw(t, "text")
		out := r.one(context.Background(), inquiry{line: 1, text: fmt.Sprintf(text, b, c)})
		if !out.Answered {
			if out.Missing == "" {
				t.Fatalf("neither answered nor anything missing: %+v", out)
			}
			return
		}
		if n := utf8.RuneCountInString(out.Answer); n > mostCharacters {
			t.Errorf("%d characters: %s", n, out.Answer)
		}
		for _, part := range []string{"Evidence: ", shortCaution} {
			if !strings.Contains(out.Answer, part) {
				t.Errorf("%q is missing from %s", part, out.Answer)
			}
		}
	})
}

func TestInquiriesFromCSV(t *testing.T) {
	for _, tt := range []struct {
		name, in string
		want     []inquiry
	}{
		{"header in any order", "text,who,id\nslate v10?,Ann,7\n", []inquiry{{line: 2, id: "7", who: "Ann", text: "slate v10?"}}},
		{"other words", "ID,Author,Question\n7,Ann,hot?\n", []inquiry{{line: 2, id: "7", who: "Ann", text: "hot?"}}},
		{"no header", "7,Ann,slate v10?\n", []inquiry{{line: 1, id: "7", who: "Ann", text: "slate v10?"}}},
		{"a quote over two lines", "id,who,text\n1,Ann,\"a\nb\"\n2,Bob,c\n", []inquiry{{line: 2, id: "1", who: "Ann", text: "a\nb"}, {line: 4, id: "2", who: "Bob", text: "c"}}},
		{
			"a quote that is never closed breaks its own line only", "id,who,text\n1,Ann,\"never\n2,Bob,c\n",
			[]inquiry{
				{line: 2, id: "2", text: `1,Ann,"never`, broken: `a quote (") is opened and never closed: close it, or write "" for a quote inside`},
				{line: 3, id: "2", who: "Bob", text: "c"},
			},
		},
		{"too few fields", "id,who,text\n1,Ann\n", []inquiry{{line: 2, id: "1", who: "Ann", broken: "the row has 2 fields where 3 are needed: id, who and text"}}},
		{"no text", "id,who,text\n1,Ann,\n", []inquiry{{line: 2, id: "1", who: "Ann", broken: "there is no text"}}},
		{"not UTF-8", "id,who,text\n1,Ann,\xff\n", []inquiry{{line: 2, id: "1", who: "Ann", text: "\xff", broken: "the text has bytes that are not UTF-8: save the file as UTF-8"}}},
		{"empty lines", "id,who,text\n\n1,Ann,a\n", []inquiry{{line: 3, id: "1", who: "Ann", text: "a"}}},
	} {
		if got := inquiries(tt.in, true); !reflect.DeepEqual(got, tt.want) {
			t.Errorf("%s\n got %+v\nwant %+v", tt.name, got, tt.want)
		}
	}
}

func TestNoFormula(t *testing.T) {
	for in, want := range map[string]string{
		"=1+1": "'=1+1", "+1": "'+1", "-1": "'-1", "@a": "'@a", "  =1": "'  =1", "＝1": "'＝1", "a=1": "a=1", "": "", "\tx": "'\tx",
	} {
		if got := noFormula(in); got != want {
			t.Errorf("noFormula(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestMarkdown(t *testing.T) {
	for in, want := range map[string]string{
		"a *b* [c](d) <e>": `a \*b\* \[c\](d) \<e\>`,
		"- x":              `\- x`,
		"1. x":             `1\. x`,
		"3.40 GHz":         `3\.40 GHz`,
		"see https://x":    `see https\://x`,
		"# x":              `\# x`,
	} {
		if got := markdown(in); got != want {
			t.Errorf("markdown(%q) = %q, want %q", in, got, want)
		}
	}
}

// hostile are questions that must neither stop the rest nor reach a terminal
// or a spreadsheet as they are.
const hostile = "=HYPERLINK(\"x\")\n\x1b[2Jslate v10\n\u202eslate v10 at 30 C\nslate v10 \xff\n" + "slate with v10 at 30 C\n"

func TestHostileQuestions(t *testing.T) {
	r := demoReplier(t)
	long := strings.Repeat("x", 1<<20) + "\n"
	answers, err := r.all(context.Background(), inquiries(hostile+long, false))
	if err != nil || len(answers) != 6 {
		t.Fatal(len(answers), err)
	}
	for _, write := range []func(*bytes.Buffer) error{
		func(b *bytes.Buffer) error { return repliesInMarkdown(b, answers) },
		func(b *bytes.Buffer) error { return repliesInJSON(b, answers) },
		func(b *bytes.Buffer) error { return repliesInCSV(b, answers) },
	} {
		var b bytes.Buffer
		if err := write(&b); err != nil || strings.ContainsAny(b.String(), "\x1b\u202e") || !utf8.Valid(b.Bytes()) {
			t.Errorf("%v: %q", err, b.String())
		}
		if b.Len() > 50_000 {
			t.Errorf("%d bytes", b.Len())
		}
	}
	var b bytes.Buffer
	if err := repliesInCSV(&b, answers); err != nil {
		t.Fatal(err)
	}
	rows, err := csv.NewReader(&b).ReadAll()
	if err != nil || len(rows) != 7 {
		t.Fatal(len(rows), err)
	}
	for _, row := range rows {
		for _, cell := range row {
			if cell != "" && strings.ContainsAny(cell[:1], "=+-@") {
				t.Errorf("a formula: %s", cell)
			}
		}
	}
}

// The order is that of the file, answered first, however many work at it; and
// a thousand questions are answered in seconds even on a busy machine.
func TestManyReplies(t *testing.T) {
	r := demoReplier(t)
	var questions strings.Builder
	for i := range 1000 {
		fmt.Fprintf(&questions, "%s with a v10 at %d C\n", []string{"slate", "basalt", "quarry", "gorsebank", "kiln"}[i%5], 15+i%30)
	}
	start := time.Now()
	answers, err := r.all(context.Background(), inquiries(questions.String(), false))
	if err != nil {
		t.Fatal(err)
	}
	if took := time.Since(start); took > 10*time.Second {
		t.Errorf("1,000 questions took %v", took)
	}
	line := 0
	for i, a := range answers {
		if a.Answered != (i < 800) || i != 800 && a.Line < line {
			t.Fatalf("answer %d is of line %d, answered %v", i, a.Line, a.Answered)
		}
		line = a.Line
	}
	again, err := r.all(context.Background(), inquiries(questions.String(), false))
	first, _ := json.Marshal(answers)
	second, _ := json.Marshal(again)
	if err != nil || !bytes.Equal(first, second) {
		t.Error("the second time the answers differ")
	}
}

func TestReplyCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := demoReplier(t).all(ctx, inquiries("slate v10\n", false)); err == nil {
		t.Error("a cancelled run gave answers")
	}
}

func TestProgressBar(t *testing.T) {
	if got, want := progressBar(1, 4), "\r["+strings.Repeat("#", 7)+strings.Repeat(".", 23)+"] 1 of 4"; got != want {
		t.Errorf("got %q", got)
	}
	if got := progressBar(4, 4); strings.Trim(got, "\r ") != "" {
		t.Errorf("the bar stays: %q", got)
	}
}

func FuzzInquiries(f *testing.F) {
	f.Add("id,who,text\n1,Ann,\"a\n", true)
	f.Add(hostile, false)
	f.Fuzz(func(t *testing.T, text string, table bool) {
		for _, q := range inquiries(text, table) {
			if q.line < 1 || q.id == "" {
				t.Errorf("%+v", q)
			}
		}
	})
}
