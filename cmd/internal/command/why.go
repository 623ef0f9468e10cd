package command

import (
	"context"
	"math"

	"hotroom/advisor"
	"hotroom/rules"
	vocabulary "hotroom/rules/facts"
)

// whyRow is a fact with its value as --json gives it; an unknown number is
// null.
type whyRow struct {
	Fact  string `json:"fact"`
	Unit  string `json:"unit"`
	Value any    `json:"value"`
}

// whyRule is a rule as --json gives it.
type whyRule struct {
	Rule    string   `json:"rule"`
	Kind    string   `json:"kind"`
	Fired   bool     `json:"fired"`
	Points  float64  `json:"points"`
	When    string   `json:"when"`
	Values  []string `json:"values"`
	Text    string   `json:"text"`
	Source  string   `json:"source"`
	Unknown []string `json:"unknown"`
	Fault   string   `json:"fault"`
}

// why is everything that led to an answer.
type why struct {
	Question advisor.Question `json:"question"`
	Verdict  string           `json:"verdict"`
	Score    float64          `json:"score"`
	Rules    []whyRule        `json:"rules"`
	Facts    []whyRow         `json:"facts"`
}

// Why shows every rule and every fact of the last answer.
func (s *Session) Why(ctx context.Context) error {
	x, err := s.explain(ctx)
	if err != nil {
		return err
	}
	s.sayWhose(x.Advice.Question.Board)
	w := reasons(&x)
	return s.show(w, func(st style) string { return st.reasons(x.Advice, w) })
}

// sayWhose says which board is meant where the last answer was about several.
func (s *Session) sayWhose(board string) {
	if s.Known.Board == "" {
		s.Say("the last answer was about several boards; this is about the first, the %s: name another to ask about it", board)
	}
}

// explain works the last answer out again, with what led to it.
func (s *Session) explain(ctx context.Context) (advisor.Explanation, error) {
	snapshot, question, err := s.lastAnswer()
	if err != nil {
		return advisor.Explanation{}, err
	}
	return advisor.Explain(ctx, snapshot, question)
}

func reasons(x *advisor.Explanation) why {
	w := why{Question: x.Advice.Question, Verdict: x.Advice.Verdict, Score: x.Advice.Score}
	for _, r := range x.Rules {
		row := whyRule{
			Rule: r.Name, Kind: r.Kind, Fired: r.Fired, Points: r.Given, When: r.When, Values: []string{}, Text: r.Text, Source: r.Source,
			Unknown: append([]string{}, r.Unknown...), Fault: r.Fault,
		}
		for _, v := range r.Values {
			row.Values = append(row.Values, valueWords(v))
		}
		w.Rules = append(w.Rules, row)
	}
	for _, f := range vocabulary.List() {
		value := f.Value(&x.Facts)
		if v, ok := value.(float64); ok && (math.IsNaN(v) || math.IsInf(v, 0)) {
			value = nil
		}
		w.Facts = append(w.Facts, whyRow{f.Name, f.Unit, value})
	}
	return w
}

// valueWords writes a fact with its value; an unknown number has no unit.
func valueWords(v rules.Value) string {
	if n, ok := v.Value.(float64); ok && math.IsNaN(n) {
		return v.Fact + " = unknown"
	}
	return v.String()
}

// Try works out a rule expression over the facts of the last answer.
func (s *Session) Try(ctx context.Context, expression string) error {
	x, err := s.explain(ctx)
	if err != nil {
		return err
	}
	snapshot, _, err := s.Snapshot()
	if err != nil {
		return err
	}
	value, problems := snapshot.Book().Try(expression, x.Facts)
	if len(problems) > 0 {
		return &broken{problems}
	}
	if s.JSON {
		text, err := inJSON(value)
		if err != nil {
			return err
		}
		return s.Print(text)
	}
	return s.Print(safe(tried(value)) + "\n")
}

// IsExpression reports whether a text compiles as a rule expression.
func (s *Session) IsExpression(text string) bool {
	snapshot, _, err := s.Snapshot()
	if err != nil {
		return false
	}
	_, problems := snapshot.Book().Try(text, vocabulary.Facts{})
	return len(problems) == 0
}
