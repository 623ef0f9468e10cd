package expression

import (
	"fmt"
	"math"
	"testing"

	"hotroom/rules/facts"
)

func TestValues(t *testing.T) {
	scene := Scene{Facts: facts.Calm(), Score: 42, Vetoed: true}
	scene.Board.Price = math.NaN()
	scene.Board.Firmware = ""
	scene.Margin.KeptC = 6.6
	tests := []struct{ text, want string }{
		{`1`, "1"},
		{` -2.5 `, "-2.5"},
		{`1 / 2`, "0.5"},
		{`9223372036854775807 + 1 > 0`, "true"},
		{`margin.kept_c`, "6.6"},
		{`-margin.kept_c`, "-6.6"},
		{`margin.kept_c >= 6 && margin.kept_c <= 8`, "true"},
		{`board.phases in [8, 12]`, "true"},
		{`board.phases not in [8, 10]`, "true"},
		{`asked.setup in ["rated", "shipped"]`, "true"},
		{`known(board.price)`, "false"},
		{`known(margin.kept_c)`, "true"},
		{`known(board.firmware) or known(board.name)`, "true"},
		{`clamp(margin.kept_c, 0, 5)`, "5"},
		{`clamp(-3, 0, 5)`, "0"},
		{`min(3, 1, 2) + max(1, 2)`, "3"},
		{`abs(-2) + floor(1.7) + ceil(0.2) + round(2.5)`, "7"},
		{`asked.tuned ? "tuned" : "stock"`, "stock"},
		{`board.name startsWith "Calm" && !(board.name contains "x")`, "true"},
		{`margin["kept_c"] > 6`, "true"},
		{`score`, "42"},
		{`score + 1`, "43"},
		{`vetoed == true`, "true"},
		{`margin.kept_c | abs()`, "6.6"},
	}
	var e Evaluator
	e.See(&scene.Facts)
	e.Conclude(scene.Score, scene.Vetoed)
	for _, test := range tests {
		x, problems := compile(t, test.text, Bad, ForVerdict)
		if len(problems) > 0 {
			t.Errorf("%q: %v", test.text, problems)
			continue
		}
		got, err := e.Value(x)
		if err != nil || fmt.Sprint(got) != test.want {
			t.Errorf("%q gives %v, %v; want %s", test.text, got, err, test.want)
		}
	}
}

// A division by zero is an error, and no answer that compares.
func TestDivisionByZero(t *testing.T) {
	x, _ := compile(t, "1 / (margin.kept_c - margin.kept_c) > 5", YesNo, ForRule)
	var e Evaluator
	calm := facts.Calm()
	e.See(&calm)
	if _, err := e.YesNo(x); err == nil || err.Error() != "division by zero" {
		t.Errorf("got %v", err)
	}
}

func TestNumbersAreFinite(t *testing.T) {
	x, _ := compile(t, "1e308 * 10 + margin.kept_c", Number, ForRule)
	var e Evaluator
	calm := facts.Calm()
	e.See(&calm)
	if _, err := e.Number(x); err == nil || err.Error() != "it gave +Inf, which is no finite number" {
		t.Errorf("got %v", err)
	}
}

// Closures and machine read every fact as the struct holds it.
func TestEveryFactIsRead(t *testing.T) {
	scene := Scene{Facts: facts.Calm()}
	values := func(i int, fact facts.Fact) any {
		switch fact.Type {
		case facts.Number:
			return float64(i) + 0.5
		case facts.YesNo:
			return i%2 == 0
		}
		return fmt.Sprint("word ", i)
	}
	all := facts.List()
	for i, fact := range all {
		fact.Set(&scene.Facts, values(i, fact))
	}
	var e Evaluator
	e.See(&scene.Facts)
	e.Conclude(scene.Score, scene.Vetoed)
	c := NewCompiler()
	for i, fact := range all {
		text := fact.Name
		if fact.Type == facts.Number {
			text += " + 0"
		} else {
			text = "true ? " + text + " : " + text
		}
		x, problems := c.Compile(source(text), Bad, ForRule)
		if len(problems) > 0 {
			t.Errorf("%s: %v", text, problems)
			continue
		}
		for _, each := range []string{text, fact.Name} {
			agree(t, each, &scene)
		}
		if got, err := e.Value(x); err != nil || got != values(i, fact) {
			t.Errorf("%s gives %v, %v; want %v", text, got, err, values(i, fact))
		}
	}
}

func TestNeeds(t *testing.T) {
	tests := []struct{ text, mentions, needs string }{
		{`margin.kept_c < 5 && board.price > 3 && margin.kept_c > 1`, "margin.kept_c board.price", "margin.kept_c board.price"},
		{`known(board.price) && board.price > margin.kept_c`, "board.price margin.kept_c", "margin.kept_c"},
		{`board.name == "a" && asked.tuned`, "board.name asked.tuned", ""},
		{`margin.kept_c`, "margin.kept_c", "margin.kept_c"},
		{`5`, "", ""},
	}
	for _, test := range tests {
		x, problems := compile(t, test.text, Bad, ForRule)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		if names(x.Mentions) != test.mentions || names(x.Needs) != test.needs {
			t.Errorf("%q mentions %q and needs %q", test.text, names(x.Mentions), names(x.Needs))
		}
	}
}

func names(all []facts.Fact) string {
	s := ""
	for i, f := range all {
		if i > 0 {
			s += " "
		}
		s += f.Name
	}
	return s
}
