package expression

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hotroom/rules/facts"

	"github.com/expr-lang/expr/ast"
	"pgregory.net/rapid"
)

// agree holds the closures of a text to the machine, and reports whether the
// text is one that rules may say.
func agree(t failer, text string, scene *Scene) bool {
	t.Helper()
	x, problems := NewCompiler().Compile(source(text), Bad, ForVerdict)
	program := reference(t, text, ForVerdict)
	if program == nil && plain(text) != nil {
		return true // a number alone may be larger than expr's whole numbers
	}
	if (x == nil) != (program == nil) {
		t.Fatalf("%q: closures %v, machine %v, problems %v", text, x != nil, program != nil, problems)
	}
	if x == nil {
		return false
	}
	sameTree(t, text)
	var e Evaluator
	e.See(&scene.Facts)
	e.Conclude(scene.Score, scene.Vetoed)
	got, gotErr := e.Value(x)
	want, wantErr := runReference(program, *scene)
	if fmt.Sprint(gotErr) != fmt.Sprint(wantErr) || gotErr == nil && !alike(got, want) {
		t.Fatalf("%q gives %v (%v), and the machine %v (%v)", text, got, gotErr, want, wantErr)
	}
	if x.Kind == YesNo {
		together(t, text, x, &e, got, gotErr)
	}
	if again, err := e.Value(x); fmt.Sprint(err) != fmt.Sprint(gotErr) || err == nil && !alike(again, got) {
		t.Fatalf("%q gives %v (%v) the second time", text, again, err)
	}
	return true
}

// sameTree holds the quick reader to the library's parser.
func sameTree(t failer, text string) {
	t.Helper()
	root := quick(text)
	if root == nil || commentAt(text) >= 0 {
		return
	}
	tree, problems := parse(source(text))
	if len(problems) > 0 {
		t.Fatalf("%q is read quickly, and not by expr: %v", text, problems)
	}
	if got, want := ast.Dump(root), ast.Dump(tree.Node); got != want {
		t.Fatalf("%q is read quickly as %s, and by expr as %s", text, got, want)
	}
}

// together holds a condition judged with others to what it comes to alone.
func together(t failer, text string, x *Expression, e *Evaluator, holds any, err error) {
	t.Helper()
	want := []Told{{0, Holds}, {2, Holds}}
	switch {
	case !e.Known(x):
		want = []Told{{0, Unjudged}, {2, Unjudged}}
	case err != nil:
		want = []Told{{0, Broken}, {2, Broken}}
	case holds == false:
		want = nil
	}
	never, _ := NewCompiler().Compile(source("1 > 2"), YesNo, ForVerdict)
	if told := e.Tell(NewConditions([]*Expression{x, never, x}), nil); !slices.Equal(told, want) {
		t.Fatalf("%q among others gives %v, want %v", text, told, want)
	}
}

// alike compares two values, numbers to the sign of a zero.
func alike(a, b any) bool {
	x, ok := a.(float64)
	y, also := b.(float64)
	if !ok || !also {
		return a == b
	}
	return math.IsNaN(x) && math.IsNaN(y) || math.Float64bits(x) == math.Float64bits(y)
}

// expressions draws texts that rules may say.
type expressions struct{ t *rapid.T }

func (g expressions) pick(from ...string) string { return rapid.SampledFrom(from).Draw(g.t, "pick") }

func (g expressions) leaf(depth int) bool {
	return depth <= 0 || rapid.IntRange(0, 4).Draw(g.t, "leaf") == 0
}

func (g expressions) number(depth int) string {
	if g.leaf(depth) {
		return g.pick("0", "1", "2.5", "7", "0.1", "1e308", "3_000", "0x10", "score", "margin.kept_c", "board.price", "asked.room_c", "power.package_w", `margin["kept_c"]`)
	}
	a, b := g.number(depth-1), g.number(depth-1)
	switch g.pick("sum", "quotient", "sign", "call", "least", "clamp", "choice", "pipe", "brackets") {
	case "sum":
		return a + g.pick(" + ", " - ", " * ") + b
	case "quotient":
		return a + " / (" + b + ")"
	case "sign":
		return g.pick("-", "+") + "(" + a + ")"
	case "call":
		return g.pick("abs", "ceil", "floor", "round") + "(" + a + ")"
	case "least":
		return g.pick("min", "max") + "(" + a + ", " + b + g.pick("", ", "+g.number(depth-2)) + ")"
	case "clamp":
		return "clamp(" + a + ", " + b + ", " + g.number(depth-2) + ")"
	case "choice":
		return "(" + g.yesNo(depth-1) + " ? " + a + " : " + b + ")"
	case "pipe":
		return "(" + a + " | " + g.pick("abs()", "max("+b+")", "clamp(0, "+b+")") + ")"
	}
	return "(" + a + ")"
}

func (g expressions) word(depth int) string {
	if g.leaf(depth) {
		return g.pick(`""`, `"a"`, `'rated'`, "`é`", "board.name", "asked.setup", "clock.limited_by")
	}
	return "(" + g.yesNo(depth-1) + " ? " + g.word(depth-1) + " : " + g.word(depth-1) + ")"
}

func (g expressions) yesNo(depth int) string {
	if g.leaf(depth) {
		return g.pick("true", "false", "vetoed", "asked.tuned", "board.tunable", "known(board.price)", "known(margin.kept_c)", "known(board.name)", "::known(board.price)")
	}
	switch g.pick("order", "both", "not", "words", "equal", "in", "choice", "gate", "gate last") {
	case "order":
		return "(" + g.number(depth-1) + g.pick(" < ", " <= ", " > ", " >= ", " == ", " != ") + g.number(depth-1) + ")"
	case "gate":
		return "(" + g.gate() + g.pick(" && ", " and ", " || ") + g.pick(g.gate(), g.yesNo(depth-1)) + ")"
	case "gate last":
		return "(" + g.yesNo(depth-1) + " && " + g.gate() + ")"
	case "both":
		return "(" + g.yesNo(depth-1) + g.pick(" && ", " || ", " and ", " or ") + g.yesNo(depth-1) + ")"
	case "not":
		return g.pick("!", "not ") + "(" + g.yesNo(depth-1) + ")"
	case "words":
		return "(" + g.word(depth-1) + g.pick(" contains ", " startsWith ", " endsWith ", " not contains ", " == ", " != ") + g.word(depth-1) + ")"
	case "equal":
		return "(" + g.yesNo(depth-1) + g.pick(" == ", " != ") + g.yesNo(depth-1) + ")"
	case "in":
		return g.pick("("+g.number(depth-1)+g.pick(" in ", " not in ")+"[0, 1, 2.5])", "("+g.word(depth-1)+g.pick(" in ", " not in ")+`["", "rated"])`)
	}
	return "(" + g.yesNo(depth-1) + " ? " + g.yesNo(depth-1) + " : " + g.yesNo(depth-1) + ")"
}

// gate is the form that is taken out of conditions.
func (g expressions) gate() string {
	fact := g.pick("margin.kept_c", "board.price", "asked.room_c")
	return g.pick("", "known("+fact+") && ", "known(board.price) && ") + fact + g.pick(" < ", " <= ", " > ", " >= ") + g.pick("0", "-1", "2.5", "7", "1e308", "score", "power.package_w")
}

func (g expressions) any() string {
	depth := rapid.IntRange(0, 4).Draw(g.t, "depth")
	switch g.pick("number", "word", "yes/no") {
	case "number":
		return g.number(depth)
	case "word":
		return g.word(depth)
	}
	return g.yesNo(depth)
}

var odd = []float64{0, math.Copysign(0, -1), 1, -1, 2.5, 0.1, 7, 1e-320, 1e308, -1e308, math.Inf(1), math.Inf(-1), math.NaN(), math.NaN()}

func (g expressions) scene() *Scene {
	number := func(name string) float64 {
		return rapid.OneOf(rapid.SampledFrom(odd), rapid.Float64()).Draw(g.t, name)
	}
	s := &Scene{Facts: facts.Calm(), Score: number("score"), Vetoed: rapid.Bool().Draw(g.t, "vetoed")}
	s.Margin.KeptC, s.Board.Price, s.Asked.RoomC, s.Power.PackageW = number("kept"), number("price"), number("room"), number("power")
	s.Board.Name, s.Asked.Setup, s.Clock.LimitedBy = g.pick("", "a", "ab"), g.pick("rated", "open"), g.pick("", "é")
	s.Asked.Tuned, s.Board.Tunable = rapid.Bool().Draw(g.t, "tuned"), rapid.Bool().Draw(g.t, "tunable")
	return s
}

// closuresAgree is the law that the closures do what the machine does. Texts
// past the bound on parts are refused by both.
func closuresAgree(t *rapid.T) {
	g := expressions{t}
	scene, text := g.scene(), g.any()
	if !agree(t, text, scene) && len(text) < 150 {
		t.Fatalf("%q is refused", text)
	}
}

func TestClosuresAgreeWithTheMachine(t *testing.T) { rapid.Check(t, closuresAgree) }

func FuzzClosuresAgree(f *testing.F) { f.Fuzz(rapid.MakeFuzz(closuresAgree)) }

// Any text that passes the check means to the closures what it means to the
// machine.
func FuzzTexts(f *testing.F) {
	for _, seed := range []string{
		`margin.kept_c < 5`, `a < (b < (c < 1)) < 2`, `known(board.price)`, `clamp(1, 2, 3) / 0`, `x?.y[1:2]`, `"a" + 'b' // c`,
		`asked.setup in ["a"]`, "{a: 1}", "#", "::abs(1)", "1 | abs() | max(2)", "not not true", "if a {1} else {2}",
		`score / (board.price - 3) >= -2e3 ? vetoed : board.name not startsWith "C"`,
	} {
		f.Add(seed, 2.5, true)
	}
	f.Add("10000000000000000000000000000000", 2.5, true)
	f.Fuzz(func(t *testing.T, text string, number float64, yes bool) {
		scene := &Scene{Facts: facts.Calm(), Score: number, Vetoed: yes}
		scene.Board.Price, scene.Margin.KeptC, scene.Asked.Tuned = math.NaN(), -number, yes
		agree(t, text, scene)
	})
}

// The quick reader reads what conditions are made of, and leaves the rest.
func TestQuickReader(t *testing.T) {
	for _, text := range []string{
		"!hot_spot.settles", "known(board.price) && board.price > 5.5", `asked.setup == "open" || -score < 3`, "\nclamp(1, 2, 3) / (margin.kept_c - 1)\n",
		"!asked.tuned == vetoed", "1 - 2 - 3 * 4 / 5 * -6", "!1 * 2", "min(1, 2) >= max(3, abs(-4)) && true", "vetoed || true && false", "true == vetoed < 3",
	} {
		if quick(text) == nil {
			t.Errorf("%q is not read", text)
		}
		sameTree(t, text)
	}
	for _, text := range []string{
		"", "a", "a.", "a.1", "1 < 2 < 3", "not true", "true and false", "1_0", "0x1", "1.", ".5", "1e3", `"a\n"`, "'a'", "`a`", `"é"`, "a.b.c", "a.b()",
		"x in [1]", "true ? 1 : 2", "f(1)", "min()", "min(1,)", "min(1", "(1", "1)", "1 // 2 /", "1 | abs()", "2 ** 3", "1 % 2", "\t1", "+1", "1 +", "!", "-",
		strings.Repeat("1+", 40) + "1",
	} {
		if quick(text) != nil {
			t.Errorf("%q is read", text)
		}
	}
}

// What stands beside a condition that is not worked out does not break it.
func TestFaultsStayWhereTheyAre(t *testing.T) {
	scene := &Scene{Facts: facts.Calm()}
	for _, text := range []string{
		"false && 1 / 0 > 1", "1 / 0 > 1 && false", "true || 1 / 0 > 1", "1 / 0 > 1 || true", "vetoed ? 1 / 0 : 2", "vetoed ? 2 : 1 / 0", "1 / 0 > 1 ? 1 : 2",
		"1 / asked.graphics_w > 1 && margin.kept_c > 99", "margin.kept_c > 99 && 1 / asked.graphics_w > 1", "margin.kept_c > 1 && 1 / asked.graphics_w > 1",
		"margin.kept_c / 2 > 1 && margin.kept_c > 99", "known(margin.kept_c) && margin.kept_c > 1 / asked.graphics_w", "min(1, 1 / 0)", "clamp(1 / 0, 0, 1)", "-clamp(1 / 0, 0, 1)",
		`1 / 0 in [1]`, "0 / margin.kept_c == 0",
	} {
		if !agree(t, text, scene) {
			t.Errorf("%q is refused", text)
		}
	}
}
