package expression

import (
	"strings"
	"testing"

	"hotroom/knowledge/document"
)

type source string

func (s source) String() string { return string(s) }

func (s source) Problem(offset int, what, mend string) document.Problem {
	p := document.Problem{What: what, Mend: mend}
	p.At.Filename, p.At.Line, p.At.Column = "x", 1, offset+1
	return p
}

func compile(t *testing.T, text string, wanted Kind, scope Scope) (*Expression, document.Problems) {
	t.Helper()
	x, problems := NewCompiler().Compile(source(text), wanted, scope)
	if (x == nil) != (len(problems) > 0) {
		t.Fatalf("%q: expression %v with problems %v", text, x, problems)
	}
	return x, problems
}

// What expr would take, and what could run long or mean something else than
// it seems to, is refused.
func TestAttacksAreRefused(t *testing.T) {
	tests := []struct {
		text   string
		wanted Kind
		want   string
	}{
		{`asked.tuned ? 5 : "a"`, Number, `x:1:1: the two sides of : differ, a number and a word: give both sides the same kind`},
		{`asked.tuned ? 5 : nil`, Number, `x:1:19: nil is not a value here: ask known(x)`},
		{`now()`, Number, `x:1:1: no function is called now: the functions are abs, ceil, clamp, floor, known, max, min, round`},
		{`asked.room_c in 1..1000000000`, YesNo, `x:1:17: a range such as 6..8 has no 6.6 in it: write x >= 6 && x <= 8`},
		{`sum(1..1000000000)`, Number, `x:1:1: no function is called sum: the functions are abs, ceil, clamp, floor, known, max, min, round`},
		{`all(1..300, all(1..300, all(1..300, # > 0)))`, YesNo, `x:1:1: no function is called all: the functions are abs, ceil, clamp, floor, known, max, min, round`},
		{`board.name repeat 3`, Word, `x:1:12: "repeat" is out of place here: write it as in margin.kept_c < 5`},
		{`repeat("ab", 1000000)`, Word, `x:1:1: no function is called repeat: the functions are abs, ceil, clamp, floor, known, max, min, round`},
		{`board.name + board.name`, Word, "x:1:1: + needs a number, and this is a word: write a number or a fact that is one, as in margin.kept_c\n" +
			"x:1:14: + needs a number, and this is a word: write a number or a fact that is one, as in margin.kept_c"},
		{`join(["a", "b"])`, Word, `x:1:1: no function is called join: the functions are abs, ceil, clamp, floor, known, max, min, round`},
		{`reduce([1, 2], #acc + #)`, Number, `x:1:1: no function is called reduce: the functions are abs, ceil, clamp, floor, known, max, min, round`},
		{`board.name matches "(a+)+$"`, YesNo, `x:1:1: matches is not available: use ==, in, contains, startsWith or endsWith`},
		{`let a = 5; a > 3`, YesNo, `x:1:5: let is not available: write the expression out`},
		{`1; true`, YesNo, `x:1:1: only one expression may stand here: remove the ;`},
		{`margin.kept_c < 5 // && false`, YesNo, `x:1:19: a comment stands inside the expression: put it on a line of its own that starts with #`},
		{`margin.kept_c /* x */ < 5`, YesNo, `x:1:15: a comment stands inside the expression: put it on a line of its own that starts with #`},
		{`3 < margin.kept_c < 5`, YesNo, `x:1:5: comparisons are chained: compare two at a time, as in a < b && b < c`},
		{`asked.tuned ?: true`, YesNo, `x:1:1: ?: without a middle is not available: write all three parts, as in a ? b : c`},
		{`2 ** 1000 > 5`, YesNo, `x:1:1: ** is not available: multiply`},
		{`7 % 0 > 5`, YesNo, `x:1:1: % is not available: use + - * / < <= > >= == != && || in`},
		{`$env.margin.kept_c > 5`, YesNo, `x:1:1: no fact is called "$env.margin.kept_c": the list of facts names all that rules may use`},
		{`margin?.kept_c > 5`, YesNo, `x:1:1: ?. is not available: name a fact as group.fact; none is ever missing`},
		{`margin["kept" + "_c"] > 5`, YesNo, `x:1:1: this way of reaching into a fact is not available: name a fact as group.fact`},
		{`margin.kept_c() > 5`, YesNo, `x:1:1: facts cannot be called: name a fact without brackets`},
		{`board.name[0:2] == "ab"`, YesNo, `x:1:1: parts of a word are not available: use contains, startsWith or endsWith`},
		{`board.name < "b"`, YesNo, "x:1:1: < needs a number, and this is a word: write a number or a fact that is one, as in margin.kept_c\n" +
			"x:1:14: < needs a number, and this is a word: write a number or a fact that is one, as in margin.kept_c"},
		{`{"a": 1}`, Number, `x:1:1: braces are not available: write a condition or a number`},
		{`[1, 2]`, Number, `x:1:1: a list may stand only after in: write it as in x in ["rated", "shipped"]`},
		{`asked.setup in [board.name]`, YesNo, `x:1:17: a list may hold only numbers and words in quotes: write it as in ["rated", "shipped"]`},
		{`asked.setup in [1]`, YesNo, `x:1:13: in compares a word with a number: compare like with like`},
		{`asked.room_c in [` + strings.Repeat("1,", 20) + `1]`, YesNo, `x:1:17: the list has 21 values: list 1 to 20`},
		{`known(margin.kept_c + 1)`, YesNo, `x:1:7: known asks about one fact: name it, as in known(board.price)`},
		{`known(asked.tuned)`, YesNo, `x:1:7: a yes or no is always known: use the fact itself`},
		{`score > 5`, YesNo, `x:1:1: score is known only when all rules are judged: use it in a verdict`},
		{`"margin.kept_c" > 5`, YesNo, `x:1:1: > needs a number, and this is a word: write a number or a fact that is one, as in margin.kept_c`},
		{`margin > 5`, YesNo, `x:1:1: margin is a group of facts: name one of them, such as margin.expected_c`},
		{`margin.kept > 5 && markin.kept_c < 2 && room_c == 3`, YesNo, "x:1:1: no fact is called \"margin.kept\": did you mean margin.kept_c?\n" +
			"x:1:20: no fact is called \"markin.kept_c\": did you mean margin.kept_c?\n" +
			"x:1:41: no fact is called \"room_c\": did you mean asked.room_c or ceiling.room_c?"},
		{`margin.kept_c`, YesNo, `x:1:1: this must give a yes or no, and it gives a number: write a comparison, as in margin.kept_c < 5`},
		{`margin.kept_c >`, YesNo, `x:1:15: the expression ends too early: write it as in margin.kept_c < 5`},
		{``, YesNo, `x:1:1: the expression is empty: write it as in margin.kept_c < 5`},
		{strings.Repeat(" ", 2000) + "1+1", Number, `x:1:1: the expression has 2003 bytes, and 2000 are allowed: split it into several rules`},
		{strings.Repeat("1+", 150) + "1", Number, `x:1:202: the expression has more than 200 parts: split it into several rules`},
		{strings.Repeat("(", 1990) + "1", Number, `x:1:1991: the expression ends too early: write it as in margin.kept_c < 5`},
		{`min(1)`, Number, `x:1:1: min is given 1 values: give it 2 to 20`},
		{`clamp(margin.kept_c, 5)`, Number, `x:1:1: clamp is given 2 values: give it 3`},
		{`"é" == 5 && margin.kept > 2`, YesNo, "x:1:6: == compares a word with a number: compare like with like\n" +
			`x:1:14: no fact is called "margin.kept": did you mean margin.kept_c?`},
	}
	for _, test := range tests {
		_, problems := compile(t, test.text, test.wanted, ForRule)
		if got := problems.Error(); got != test.want {
			t.Errorf("%q\n got %s\nwant %s", test.text, got, test.want)
		}
	}
}
