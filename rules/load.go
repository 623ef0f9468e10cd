package rules

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"go/token"

	"hotroom/knowledge/document"
	"hotroom/rules/expression"
	"hotroom/rules/facts"
)

// The catalogue as its file holds it.
type catalogue struct {
	Score   *scoreRecord    `toml:"score" need:"yes"`
	Verdict []verdictRecord `toml:"verdict" need:"yes"`
	Rule    []ruleRecord    `toml:"rule"`
}

type scoreRecord struct {
	Start   float64 `toml:"start" need:"yes"`
	Floor   float64 `toml:"floor" need:"yes"`
	Ceiling float64 `toml:"ceiling" need:"yes"`
	At      token.Position
}

type verdictRecord struct {
	ID   document.Text `toml:"id" need:"yes" oneof:"yes|with-care|no|unknown"`
	When document.Text `toml:"when"`
	Say  document.Text `toml:"say" need:"yes"`
	At   token.Position
}

type ruleRecord struct {
	Name    document.Text  `toml:"name" need:"yes"`
	When    document.Text  `toml:"when" need:"yes"`
	Points  document.Text  `toml:"points" kind:"formula"`
	Kind    document.Text  `toml:"kind" need:"yes" oneof:"merit|concern|caution|veto"`
	Say     document.Text  `toml:"say" need:"yes"`
	Source  document.Text  `toml:"source"`
	Example *exampleRecord `toml:"example"`
	At      token.Position

	hasPoints bool // be they a text or, wrongly, something else
}

type exampleRecord struct {
	Fires  document.Text `toml:"fires"`
	Silent document.Text `toml:"silent"`
}

// given reports whether a key stands in the file, be it empty.
func given(t document.Text) bool { return t.At(0).Line > 0 }

// Load reads, checks and compiles a catalogue and runs the examples of its
// rules. All mistakes are reported at once; the book is nil when there is any
// but a warning. The embedded catalogue, which the tests have checked, loads
// in a fraction of the time.
func Load(file string, src []byte) (*Book, document.Problems) {
	if len(src) > MostBytes {
		return nil, tooLarge(file, len(src))
	}
	sum := sha256.Sum256(src)
	hash := hex.EncodeToString(sum[:])
	if string(src) == defaultCatalogue {
		if book := loadDefault(file, hash); book != nil {
			return book, nil
		}
	}
	return load(file, hash, src)
}

// load checks everything.
func load(file, hash string, src []byte) (*Book, document.Problems) {
	table, problems := document.Parse(file, src)
	l := &loader{problems: problems, compiler: expression.NewCompiler()}
	book := &Book{hash: hash}
	if table != nil {
		var c catalogue
		l.problems = append(l.problems, table.Decode(&c)...)
		l.fill(book, &c, table)
	}
	l.problems.Sort()
	if l.problems.Fatal() {
		return nil, l.problems
	}
	book.gather()
	return book, l.problems
}

type loader struct {
	problems document.Problems
	compiler *expression.Compiler
	table    *document.Table
	facts    facts.Facts          // of the example at hand
	bench    expression.Evaluator // where examples are run
}

func (l *loader) fill(book *Book, c *catalogue, table *document.Table) {
	l.table = table
	if c.Score != nil {
		book.score = l.score(c.Score)
	}
	tables := table.Tables("rule")
	for i := range min(len(tables), len(c.Rule)) {
		c.Rule[i].hasPoints = tables[i].Has("points")
	}
	if l.few("rules", len(c.Rule), mostRules, func(i int) token.Position { return c.Rule[i].At }) {
		book.rules = l.rules(c.Rule)
	}
	if l.few("verdicts", len(c.Verdict), mostVerdicts, func(i int) token.Position { return c.Verdict[i].At }) {
		book.verdicts = l.verdicts(c.Verdict)
	}
}

func (l *loader) report(p document.Problem) { l.problems = append(l.problems, p) }

func (l *loader) score(s *scoreRecord) score {
	if s.Floor >= s.Ceiling || s.Start < s.Floor || s.Start > s.Ceiling {
		l.report(l.table.Problem(s.At,
			fmt.Sprintf("start %v, floor %v and ceiling %v are out of order", s.Start, s.Floor, s.Ceiling),
			"give floor below ceiling and start between them"))
	}
	return score{s.Start, s.Floor, s.Ceiling}
}

func (l *loader) rules(records []ruleRecord) []rule {
	l.names(records)
	compiled := make([]rule, len(records))
	for i := range records {
		if l.weary(records[i].At) {
			break
		}
		l.rule(&records[i], &compiled[i])
	}
	return compiled
}

// names holds the rules' names against each other.
func (l *loader) names(records []ruleRecord) {
	lines := map[string]int{}
	for i := range records {
		text := records[i].Name
		name := text.String()
		switch line := lines[name]; {
		case name == "": // reported as missing
		case line > 0:
			l.report(text.Problem(0, fmt.Sprintf("a rule called %s stands already at line %d", name, line), "give it another name"))
		default:
			lines[name] = records[i].At.Line
		}
	}
}

func (l *loader) rule(r *ruleRecord, into *rule) {
	before := len(l.problems)
	into.Rule = Rule{
		Name: r.Name.String(), Kind: r.Kind.String(), When: r.When.String(), Points: r.Points.String(),
		Say: r.Say.String(), Source: r.Source.String(), At: r.At,
	}
	into.sign = signOf(into.Kind)
	into.when = l.expression(r.When, expression.YesNo, expression.ForRule)
	into.say.pieces = l.template(r.Say, expression.ForRule)
	into.points.x = l.points(r)
	into.fix()
	l.short("name", r.Name, mostNamed)
	l.short("source", r.Source, mostSaid)
	if len(l.problems) == before && into.when != nil && r.Example != nil {
		l.example(into, r.Example)
	}
}

// expression compiles a text, nil when it is absent or wrong.
func (l *loader) expression(text document.Text, kind expression.Kind, scope expression.Scope) *expression.Expression {
	if !given(text) {
		return nil
	}
	x, problems := l.compiler.Compile(text, kind, scope)
	l.problems = append(l.problems, problems...)
	return x
}

// points compiles a rule's points and holds constant ones against its kind.
func (l *loader) points(r *ruleRecord) *expression.Expression {
	kind := r.Kind.String()
	if !given(r.Points) {
		if !r.hasPoints && (kind == Merit || kind == Concern) {
			l.report(l.table.Problem(r.At, "the rule is a "+kind+" without points", "add points, or make it a caution"))
		}
		return nil
	}
	x := l.expression(r.Points, expression.Number, expression.ForRule)
	if x == nil || !x.Constant {
		return x
	}
	n, err := new(expression.Evaluator).Number(x)
	if err != nil {
		l.report(r.Points.Problem(0, "the points cannot be worked out: "+err.Error(), "write a number"))
	} else if n == 0 && (kind == Merit || kind == Concern) {
		l.report(r.Points.Problem(0, "the points of a "+kind+" are 0", "give some, or make it a caution"))
	} else if mend := wrongSign(kind, n); mend != "" {
		l.report(r.Points.Problem(0, fmt.Sprintf("the points of a %s are %v", kind, n), mend))
	}
	return x
}

// wrongSign says what to do about points that contradict the kind, or nothing.
func wrongSign(kind string, points float64) string {
	switch {
	case kind == Merit && points < 0:
		return "give a merit a positive number, or make it a concern"
	case kind == Concern && points > 0:
		return "give a concern a negative number, or make it a merit"
	}
	return ""
}
