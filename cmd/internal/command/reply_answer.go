package command

import (
	"context"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"hotroom/advisor"
	"hotroom/advisor/comparison"
	"hotroom/advisor/ranking"
	"hotroom/advisor/sentence"
	"hotroom/cmd/internal/picture"
)

// reply is one question with its answer, or with what is missing.
type reply struct {
	Line       int             `json:"line"`
	ID         string          `json:"id"`
	Who        string          `json:"who"`
	Text       string          `json:"text"`
	Answered   bool            `json:"answered"`
	Kind       string          `json:"kind"`
	Answer     string          `json:"answer"` // at most 500 characters
	Verdict    *string         `json:"verdict"`
	Evidence   *string         `json:"evidence"`
	Understood []string        `json:"understood"`
	NotPlaced  []string        `json:"not_placed"`
	Missing    string          `json:"missing"`
	Choices    []string        `json:"choices"`
	Advice     *advisor.Advice `json:"advice"` // of a question about one board
}

// mostCharacters is the longest answer: what fits a comment almost anywhere
// (our own choice).
const mostCharacters = 500

// shortCaution stands in every answer.
const shortCaution = "The makers' stated limits win over this estimate."

// one answers one question.
func (r *replier) one(ctx context.Context, q inquiry) reply {
	out := reply{
		Line: q.line, ID: safe(q.id), Who: safe(q.who), Text: safe(cutShort(strings.ToValidUTF8(q.text, "\uFFFD"), 2*mostCharacters)),
		Understood: []string{}, NotPlaced: []string{}, Choices: []string{},
	}
	if q.broken != "" {
		out.Missing = q.broken
		return out
	}
	read := r.names.Read(q.text, advisor.Question{})
	out.Understood, out.NotPlaced = append(out.Understood, safely(read.Taken)...), append(out.NotPlaced, safely(read.Unplaced)...)
	if read.Ask != nil {
		out.missing(read.Ask)
		return out
	}
	asked, _ := r.names.Carry(sentence.Asked{}, read.Asked)
	out.Kind = string(asked.Kind)
	pieces, err := r.answer(ctx, asked, &out)
	if err != nil {
		out.missing(err)
		return out
	}
	out.Answered = true
	out.Answer = pieces.text(out.NotPlaced)
	return out
}

// pieces are the parts of a short answer.
type pieces struct {
	main     string // the verdict or the choice, with the numbers
	evidence string
	taken    string // what was answered for: shortened first
}

// text puts the parts together and keeps to the length: what was taken is
// shortened first, then the main part.
func (p pieces) text(notPlaced []string) string {
	tail := p.evidence + " " + shortCaution
	if len(notPlaced) > 0 {
		tail += " Not counted: " + cutShort(strings.Join(notPlaced, ", "), 80) + "."
	}
	left := mostCharacters - utf8.RuneCountInString(tail) - 1
	main := cutShort(p.main, left)
	if left -= utf8.RuneCountInString(main) + 1; left >= leastTaken {
		main += " " + cutShort(p.taken, left)
	}
	return main + " " + tail
}

// leastTaken is the fewest characters in which saying what was taken is of use
// (our own choice).
const leastTaken = 40

// cutShort cuts a text to so many characters.
func cutShort(text string, most int) string {
	if utf8.RuneCountInString(text) <= most {
		return text
	}
	return strings.TrimRight(string([]rune(text)[:most-1]), " ,;") + "…"
}

func (r *replier) answer(ctx context.Context, asked sentence.Asked, out *reply) (pieces, error) {
	switch asked.Kind {
	case sentence.Which:
		return r.which(ctx, asked)
	case sentence.Compare:
		return r.compare(ctx, asked)
	case sentence.Why, sentence.Changes:
		return pieces{}, errors.New("the question is about another answer: name a board and a chip")
	}
	a, err := advisor.AdviseBriefly(ctx, r.snapshot, asked.Question)
	if err != nil {
		return pieces{}, err
	}
	out.Verdict, out.Evidence, out.Advice = &a.Verdict, &a.Evidence, &a
	return r.single(asked, a), nil
}

// single answers about one board.
func (r *replier) single(asked sentence.Asked, a advisor.Advice) pieces {
	headline := strings.TrimSpace(style{plain: true}.headline(a))
	main := cutShort(headline, 200) + " " + shortFigures(a)
	if asked.Kind == sentence.HowFar {
		main += " " + howFar(asked.Over, a)
	}
	return pieces{
		main: safe(main), evidence: "Evidence: " + safe(a.Evidence) + ".",
		taken: safe("Taken: " + picture.Conditions(r.snapshot.Base(), a.Question) + "."),
	}
}

// shortFigures gives the numbers of an answer in one sentence.
func shortFigures(a advisor.Advice) string {
	if a.HotSpot.ExpectedC == nil || a.HotSpot.LowC == nil || a.HotSpot.HighC == nil {
		return "It finds no steady temperature below 250 °C."
	}
	text := fmt.Sprintf("Hot spot %s (90 %% sure %s to %s)", celsius(*a.HotSpot.ExpectedC), whole(*a.HotSpot.LowC), whole(*a.HotSpot.HighC))
	if a.Limit.ValueC != nil && a.Margin.KeptC != nil {
		text += fmt.Sprintf(", limit %s (%s), %s", celsius(*a.Limit.ValueC), a.Limit.Kind, keptMargin(*a.Margin.KeptC))
	}
	return text + fmt.Sprintf("; %.2f of %.2f GHz held.", a.Clock.SustainedGHz, a.Clock.TargetGHz)
}

// which answers with the best boards.
func (r *replier) which(ctx context.Context, asked sentence.Asked) (pieces, error) {
	if asked.Question.Chip == "" {
		return pieces{}, advisor.NoChip(r.snapshot.Base())
	}
	question := asked.Question
	question.Board = ""
	ranked, err := ranking.Rank(ctx, r.snapshot, question, ranking.Options{Budget: asked.Budget})
	if err != nil {
		return pieces{}, err
	}
	var list []string
	for i := range ranked.Rows[:min(3, len(ranked.Rows))] {
		row := &ranked.Rows[i]
		text := fmt.Sprintf("%s (%s, %s, %s)", row.Name, shortVerdict(row.Verdict), money(row.Price, row.Currency), keptOr(row.Margin.KeptC))
		list = append(list, text)
	}
	if len(list) == 0 {
		return pieces{}, errors.New("no board is left within the budget: raise it")
	}
	main := "Best first: " + strings.Join(list, ", ") + "."
	for i := range ranked.Rows {
		if row := &ranked.Rows[i]; row.Cheapest {
			main += fmt.Sprintf(" The cheapest that is a yes: %s, %s.", row.Name, money(row.Price, row.Currency))
		}
	}
	return pieces{safe(main), "Evidence: " + safe(ranked.Rows[0].Evidence) + " for the first.", r.takenFor(ranked.Question)}, nil
}

// compare answers with a line for each board.
func (r *replier) compare(ctx context.Context, asked sentence.Asked) (pieces, error) {
	question := asked.Question
	question.Board = ""
	if question.Chip == "" {
		return pieces{}, advisor.NoChip(r.snapshot.Base())
	}
	c, err := comparison.Compare(ctx, r.snapshot, question, asked.Boards)
	if err != nil {
		return pieces{}, err
	}
	var list, evidence []string
	for i := range c.Rows {
		a := &c.Rows[i].Advice
		text := c.Rows[i].Name + ": " + shortVerdict(a.Verdict)
		if a.HotSpot.ExpectedC != nil && a.Limit.ValueC != nil {
			text += fmt.Sprintf(", %s of %s, %s, %.2f GHz", celsius(*a.HotSpot.ExpectedC), celsius(*a.Limit.ValueC), keptOr(a.Margin.KeptC), a.Clock.SustainedGHz)
		}
		list, evidence = append(list, text), append(evidence, a.Evidence)
	}
	return pieces{safe(strings.Join(list, "; ") + "."), "Evidence: " + safe(strings.Join(evidence, ", ")) + ".", r.takenFor(c.Question)}, nil
}

func (r *replier) takenFor(q advisor.Question) string {
	return safe("Taken: " + conditions(r.snapshot.Base(), q) + ".")
}

func keptOr(k *float64) string {
	if k == nil {
		return "no steady temperature"
	}
	return keptMargin(*k)
}
