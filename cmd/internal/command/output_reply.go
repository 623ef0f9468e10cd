package command

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"io"
	"strconv"
	"strings"
	"sync"
)

// repliesInMarkdown writes the answers for a post. Text of the askers is
// escaped, so that it can neither format nor link anything.
func repliesInMarkdown(w io.Writer, answers []reply) error {
	var b strings.Builder
	left := false
	for i := range answers {
		r := &answers[i]
		if !r.Answered && !left {
			left = true
			b.WriteString("## Not answered\n\n")
		}
		if r.Answered {
			fmt.Fprintf(&b, "**%s**\n\n> %s\n\n%s\n\n", markdown(heading(r)), markdown(r.Text), markdown(r.Answer))
			continue
		}
		fmt.Fprintf(&b, "- **%s**: “%s”: %s\n", markdown(heading(r)), markdown(cutShort(r.Text, 200)), markdown(cutShort(r.Missing, mostCharacters)))
	}
	_, err := io.WriteString(w, b.String())
	return err
}

func heading(r *reply) string {
	if r.Who == "" {
		return r.ID
	}
	return r.ID + ", " + r.Who
}

// markdown escapes what Markdown would take for marks (CommonMark, 2.4).
func markdown(text string) string {
	var b strings.Builder
	for i, r := range text {
		switch {
		case strings.ContainsRune("\\`*_[]<>#|~&!", r), i == 0 && strings.ContainsRune("-+=", r):
			b.WriteByte('\\')
		case r == '.' && i > 0 && strings.Trim(text[:i], "0123456789") == "", r == ':' && strings.HasPrefix(text[i:], "://"):
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// repliesInJSON writes an object a line.
func repliesInJSON(w io.Writer, answers []reply) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	for i := range answers {
		if err := encoder.Encode(answers[i]); err != nil {
			return err
		}
	}
	return nil
}

// repliesInCSV writes a table that a spreadsheet opens without taking text for
// a formula.
func repliesInCSV(w io.Writer, answers []reply) error {
	out := csv.NewWriter(w)
	_ = out.Write([]string{"line", "id", "who", "text", "answered", "verdict", "evidence", "answer", "missing"}) // Error tells
	for i := range answers {
		r := &answers[i]
		answered := "no"
		if r.Answered {
			answered = "yes"
		}
		row := []string{strconv.Itoa(r.Line), r.ID, r.Who, r.Text, answered, orEmpty(r.Verdict), orEmpty(r.Evidence), r.Answer, r.Missing}
		for j := range row {
			row[j] = noFormula(row[j])
		}
		_ = out.Write(row) // as above
	}
	out.Flush()
	return out.Error()
}

func orEmpty(word *string) string {
	if word == nil {
		return ""
	}
	return *word
}

// noFormula puts an apostrophe before what a spreadsheet would work out (OWASP,
// CSV Injection).
func noFormula(cell string) string {
	if strings.ContainsAny(firstOf(strings.TrimLeft(cell, " ")), "=+-@\t\r＝＋－＠") {
		return "'" + cell
	}
	return cell
}

func firstOf(text string) string {
	for _, r := range text {
		return string(r)
	}
	return ""
}

// progress gives what shows on a terminal how many questions are done; it may
// be called by several at once.
func (s *Session) progress() func(done, of int) {
	if !s.ErrTerminal || s.Plain {
		return func(int, int) {}
	}
	var one sync.Mutex
	shown := -1
	return func(done, of int) {
		one.Lock()
		defer one.Unlock()
		if percent := 100 * done / of; percent > shown {
			shown = percent
			_, _ = io.WriteString(s.Err, progressBar(done, of)) // nowhere left to report to
		}
	}
}

// barColumns is the width of the bar itself.
const barColumns = 30

// progressBar draws the bar over the one before, and wipes it at the end.
func progressBar(done, of int) string {
	label := fmt.Sprintf(" %d of %d", done, of)
	if done == of {
		return "\r" + strings.Repeat(" ", barColumns+2+len(label)) + "\r"
	}
	full := barColumns * done / of
	return "\r[" + strings.Repeat("#", full) + strings.Repeat(".", barColumns-full) + "]" + label
}
