package page

import (
	"html/template"
	"io/fs"
	"strings"
	"unicode"
	"unicode/utf8"

	"hotroom/advisor"
	"hotroom/cmd/internal/chart"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge"
)

// Card writes an answer as a small page that needs nothing but itself. More is
// the address of the whole answer; "" leaves the link out.
func Card(base *knowledge.Base, a advisor.Advice, more string) ([]byte, error) {
	return render("card.html", cardView{
		Title:   picture.BoardName(base, a.Question.Board) + " with " + picture.ChipName(base, a.Question.Chip),
		Verdict: a.Verdict, Word: verdictWord(a.Verdict), Rest: afterWord(a), Conditions: picture.Conditions(base, a.Question),
		Scale: inset(picture.Margin(base, a), 340), Margin: margin(a.Margin), Evidence: picture.Evidence(base, a),
		Caution: cardCaution(a), More: more,
	})
}

type cardView struct {
	Title, Verdict, Word, Rest, Conditions string
	Scale                                  template.HTML
	Margin, Evidence, Caution, More        string
}

// afterWord gives the headline as a sentence of its own, without the verdict that
// it begins with, which stands apart.
func afterWord(a advisor.Advice) string {
	rest, ok := strings.CutPrefix(a.Headline, verdictWord(a.Verdict))
	if !ok || !strings.HasPrefix(rest, ": ") && !strings.HasPrefix(rest, ", ") {
		return a.Headline
	}
	first, size := utf8.DecodeRuneInString(rest[2:])
	return string(unicode.ToUpper(first)) + rest[2+size:]
}

// cardCaution is the one caution that has room: that the makers win.
func cardCaution(a advisor.Advice) string {
	if len(a.Cautions) == 0 {
		return ""
	}
	return a.Cautions[0]
}

// cardStyle is the style sheet inside a card.
func cardStyle() template.CSS {
	body, _ := fs.ReadFile(files, "assets/card.css") // part of the program
	return template.CSS(strings.TrimSpace(string(body)) + chart.StyleSheet())
}

// cardPolicy lets a card that lies in a file load nothing.
func cardPolicy() string { return "default-src 'none'; style-src " + hashed(string(cardStyle())) }
