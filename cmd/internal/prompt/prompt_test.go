package prompt

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"strconv"
	"strings"
	"testing"

	"hotroom/cmd/internal/command"
)

// session is one without a terminal, on the embedded demo.
func session(in string) (s *command.Session, out, messages *bytes.Buffer) {
	out, messages = new(bytes.Buffer), new(bytes.Buffer)
	return command.NewSession(command.Streams{
		In: strings.NewReader(in), Out: out, Err: messages,
		Width:  func() int { return 0 },
		Getenv: func(string) string { return "" },
	}), out, messages
}

func TestPipedLines(t *testing.T) {
	for _, tt := range []struct {
		name, in, out, messages string
		code                    int
	}{
		{"nothing", "", "", "", 0},
		{"comments and empty lines", "# hello\n\n  \n", "", "", 0},
		{"set, show and forget", "set room 95F\nset board \"gorsebank slate\"\nforget room\nforget\n", "" +
			"  room  35 °C\n" +
			"  board  slate\n  room   35 °C\n" +
			"  board  slate\n", "nothing is remembered\n", 0},
		{"a chip that does not fit is forgotten", "set board slate\nset chip q8\n", "" +
			"  board  slate\n  chip  q8\n", "the slate does not take the q8 and was forgotten\n", 0},
		{"another chip's clock is forgotten", "set chip v10\nset ghz 4.2\nset chip v6\n", "" +
			"  chip  v10\n" +
			"  chip  v10\n  ghz   4.2 GHz\n" +
			"  chip  v6\n", "the target of 4.2 GHz was the v10's and was forgotten\n", 0},
		{"a wrong name", "set colour red\n", "", "set takes a name and a value: board, chip, room, enclosure, cooler, load, setup,\n  power, current, ghz, graphics, altitude\n", 2},
		{"a wrong value", "set setup fast\n", "", "no setup is called \"fast\": give rated, shipped, open or custom\n", 2},
		{"forget what is not there", "forget colour\n", "", "nothing is called \"colour\": forget takes board, chip, room, enclosure, cooler,\n  load, setup, power, current, ghz, graphics, altitude\n", 2},
		{"the first failure is the exit code", "set colour red\nfacts nonesuch\n", "", "" +
			"set takes a name and a value: board, chip, room, enclosure, cooler, load, setup,\n  power, current, ghz, graphics, altitude\n" +
			"no fact has \"nonesuch\" in its name: `hotroom facts` lists them all\n", 2},
		{"undo", "set room 21\nset room 35\nundo\nundo\nundo\n", "" +
			"  room  21 °C\n  room  35 °C\n  room  21 °C\n", "nothing is remembered\nthere is nothing to take back\n", 0},
		{"undo a forget", "set chip v10\nset room 21\nforget\nundo\n", "" +
			"  chip  v10\n  chip  v10\n  room  21 °C\n  chip  v10\n  room  21 °C\n", "nothing is remembered\n", 0},
		{"why before any answer", "why\n", "", "nothing was answered yet: ask about a board and a chip first: slate with a v10\n  at 30 °C\n", 1},
		{"try nothing", "try\n", "", "try takes a rule expression: try margin.kept_c < 10; `facts` lists the names\n", 2},
		{"nothing after quit", "quit\nset colour red\n", "", "", 0},
		{"a verb", "facts exceed_ --plain\n", "margin.exceed_probability: number, share: probability that the hot spot is above the limit\n", "", 0},
		{"help for one word", "help quit\n", "  quit    leave (Ctrl-D does too)\n  to try  quit\n", "", 0},
		{"help for nothing", "help dance\n", "", "there is no verb \"dance\": `help` lists them\n", 2},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s, out, messages := session(tt.in)
			code := Start(context.Background(), s)
			if out.String() != tt.out || messages.String() != tt.messages || code != tt.code {
				t.Errorf("code %d, want %d\nout\n%s\nwant\n%s\nmessages\n%s\nwant\n%s",
					code, tt.code, out, tt.out, messages, tt.messages)
			}
		})
	}
}

func TestTooLongLine(t *testing.T) {
	s, out, messages := session(strings.Repeat("a", 1<<20) + "\nset room 21\n")
	if code := Start(context.Background(), s); code != 1 {
		t.Errorf("code %d", code)
	}
	want := "the line is longer than 64 KiB and was not read: ask in one sentence of at most\n  1000 bytes\n"
	if messages.String() != want || out.String() != "  room  21 °C\n" {
		t.Errorf("got %s%s", messages, out)
	}
}

// typed is a person who clears a line and then types on.
type typed struct {
	lines []string
	errs  []error
}

func (p *typed) Line(string) (string, error) {
	if len(p.lines) == 0 {
		return "", io.EOF
	}
	line, err := p.lines[0], p.errs[0]
	p.lines, p.errs = p.lines[1:], p.errs[1:]
	return line, err
}

func (p *typed) Close() error { return nil }

func TestClearedLine(t *testing.T) {
	s, out, _ := session("")
	l := newLoop(s, &typed{[]string{"", "set room 21"}, []error{errCleared, nil}})
	if l.run(context.Background()); out.String() != "  room  21 °C\n" {
		t.Errorf("got %q", out)
	}
}

// Every word of the prompt has an example that works after an answer.
func TestExamples(t *testing.T) {
	for _, w := range words() {
		s, out, messages := session("slate with a v10 at 30 C\n" + w.example + "\n")
		if code := Start(context.Background(), s); code != 0 || out.Len() == 0 {
			t.Errorf("%s: code %d, %s", w.example, code, messages)
		}
		if !strings.HasPrefix(w.example, w.name) {
			t.Errorf("%s is no example of %s", w.example, w.name)
		}
	}
}

// Sentences that begin with the name of a verb or of a word are sentences.
func TestSentencesThatLookLikeVerbs(t *testing.T) {
	for line, want := range map[string]string{
		"compare chalk and fen with a q12 at 30 C": "Side by side with the Tessaly Q12",
		"check the slate with a v10":               "Gorsebank Slate",
		"try the kiln with a v10":                  "Dunmarrow Kiln",
		"show me every board for a v10":            "Boards for the Varnholt V10",
		"help me choose a board for a q16":         "Boards for the Tessaly Q16",
		"set up a slate with a v10":                "Gorsebank Slate",
		"why does the slate not carry a v10":       "Gorsebank Slate",
	} {
		s, out, messages := session(line + "\n")
		if Start(context.Background(), s); !strings.Contains(out.String(), want) {
			t.Errorf("%s\n%s%s", line, out, messages)
		}
	}
}

func TestStrict(t *testing.T) {
	s, out, _ := session("set colour red\nset room 21\n")
	s.Strict = true
	if code := Start(context.Background(), s); code != 2 || out.Len() > 0 {
		t.Errorf("code %d, %s", code, out)
	}
}

func TestPager(t *testing.T) {
	text := "1\n2\n3\n4\n5\n6\n7\n8\n"
	wiped := func(left string) string {
		asks := "-- " + left + " more lines: any key, q ends --"
		return asks + "\r" + strings.Repeat(" ", len(asks)) + "\r"
	}
	for _, tt := range []struct {
		name, keys string
		height     int
		want       string
	}{
		{"it fits", "", 9, text},
		{"no height is known", "", 0, text},
		{"a screen at a time", "  ", 5, "1\n2\n3\n" + wiped("5") + "4\n5\n6\n" + wiped("2") + "7\n8\n"},
		{"ended", "q", 5, "1\n2\n3\n" + wiped("5")},
		{"a line, then a screen", "\r ", 7, "1\n2\n3\n4\n5\n" + wiped("3") + "6\n" + wiped("2") + "7\n8\n"},
	} {
		var out bytes.Buffer
		keys := strings.NewReader(tt.keys)
		p := pager{&out, func() int { return tt.height }, func() (rune, error) { r, _, err := keys.ReadRune(); return r, err }}
		if err := p.show(text); err != nil || out.String() != tt.want {
			t.Errorf("%s: %v\n%q\n%q", tt.name, err, out.String(), tt.want)
		}
	}
}

func TestSplit(t *testing.T) {
	for in, want := range map[string][]string{
		"":                              nil,
		"  ask   me  ":                  {"ask", "me"},
		`ask "a b" --json`:              {"ask", "a b", "--json"},
		`ask 'a "b"' c`:                 {"ask", `a "b"`, "c"},
		`what's hot isn't cool`:         {"what's", "hot", "isn't", "cool"},
		`ask "never closed`:             {"ask", `"never`, "closed"},
		`ask "closed"inside`:            {"ask", `"closed"inside`},
		`set board "Gorsebank Slate" x`: {"set", "board", "Gorsebank Slate", "x"},
	} {
		if got := split(in); !reflect.DeepEqual(got, want) {
			t.Errorf("split(%q) = %q, want %q", in, got, want)
		}
	}
}

func FuzzSplit(f *testing.F) {
	f.Add(`a "b c" 'd`)
	f.Fuzz(func(t *testing.T, line string) {
		for _, w := range split(line) {
			if len(w) > len(line) {
				t.Errorf("%q gave %q", line, w)
			}
		}
	})
}

func TestComplete(t *testing.T) {
	for _, tt := range []struct {
		line string
		with []string // among the candidates
		not  []string // not among them
	}{
		{"", []string{"ask", "facts", "set", "help", "slate", "v10"}, nil},
		{"f", []string{"facts", "forget", "flint", "fen"}, []string{"ask"}},
		{"SL", []string{"slate"}, nil},
		{"slate ", []string{"v4", "v10", "hot"}, []string{"q8"}},
		{"a v10 on ", []string{"slate"}, []string{"marl"}},
		{"set ", []string{"board", "room", "altitude"}, []string{"slate"}},
		{"set cooler ", []string{"liquid"}, []string{"slate"}},
		{"forget r", []string{"room"}, nil},
		{"help f", []string{"facts", "forget"}, nil},
		{"ask --b", []string{"--board"}, []string{"--chip"}},
		{"ask --chip q8 --board ", []string{"marl"}, []string{"slate"}},
		{"ask --setup ", []string{"rated", "shipped", "open", "custom"}, nil},
		{"ask slate with ", []string{"v10"}, []string{"q8"}},
		{"check ", nil, []string{"slate"}},
		{"try margin.k", []string{"margin.kept_c"}, []string{"slate"}},
		{"how hot does the fen get with ", []string{"q16"}, []string{"v10"}},
	} {
		t.Run(tt.line, func(t *testing.T) {
			s, _, _ := session("")
			got := " " + strings.Join(newLoop(s, nil).complete(tt.line), " ") + " "
			for _, word := range tt.with {
				if !strings.Contains(got, " "+word+" ") {
					t.Errorf("%q is missing from%s", word, got)
				}
			}
			for _, word := range tt.not {
				if strings.Contains(got, " "+word+" ") {
					t.Errorf("%q is too much in%s", word, got)
				}
			}
		})
	}
}

func TestCompleter(t *testing.T) {
	c := completer(func(string) []string { return []string{"slate", "slab"} })
	rest, shared := c.Do([]rune("on the sla, é"), 10)
	if shared != 3 || len(rest) != 2 || string(rest[0]) != "te " || string(rest[1]) != "b " {
		t.Errorf("got %q, %d", rest, shared)
	}
}

func TestHistory(t *testing.T) {
	file := filepath.Join(t.TempDir(), "state", "hotroom", "history")
	h := openHistory(file)
	for i := range mostHistory + 20 {
		h.add("line " + strconv.Itoa(i))
	}
	h.add("line 100") // again: it moves to the end
	h.add("  ")
	h.add(strings.Repeat("x", longestKept+1))
	h.add("escape \x1b[2J")
	beside := openHistory(file)
	beside.add("from another prompt")
	h.add("line 100")
	again := openHistory(file)
	h.remember("from another prompt")
	h.remember("line 100")
	if !reflect.DeepEqual(again.lines, h.lines) || len(again.lines) != mostHistory {
		t.Errorf("%d lines came back of %d", len(again.lines), len(h.lines))
	}
	if last := again.lines[len(again.lines)-1]; last != "line 100" {
		t.Errorf("the last line is %q", last)
	}
	info, err := os.Stat(file)
	if err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("mode %v, %v", info.Mode(), err)
	}
	left, _ := os.ReadDir(filepath.Dir(file))
	if len(left) != 1 {
		t.Errorf("%d files are left", len(left))
	}
}

func TestHistoryFile(t *testing.T) {
	for _, tt := range []struct {
		env  map[string]string
		want string
	}{
		{map[string]string{"XDG_STATE_HOME": "/s", "HOME": "/h"}, "/s/hotroom/history"},
		{map[string]string{"XDG_STATE_HOME": "not/absolute", "HOME": "/h"}, "/h/.local/state/hotroom/history"},
		{map[string]string{"HOME": "/h"}, "/h/.local/state/hotroom/history"},
		{nil, ""},
	} {
		if got := historyFile(func(n string) string { return tt.env[n] }); got != tt.want {
			t.Errorf("%v: %q, want %q", tt.env, got, tt.want)
		}
	}
}
