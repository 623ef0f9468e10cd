package page

import (
	"strconv"

	"hotroom/advisor"
	"hotroom/cmd/internal/chart"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge"
)

// Guide is the first page of a published guide: a table for each socket.
type Guide struct {
	Site              Site
	Title, Conditions string
	Sockets           []GuideSocket
}

// GuideSocket is the boards of a socket against its chips.
type GuideSocket struct {
	Name  string
	Chips []string // names
	Rows  []GuideRow
}

// GuideRow is one board.
type GuideRow struct {
	Name, Address, Price string
	Cells                []GuideCell
}

// GuideCell is a board's verdict on a chip.
type GuideCell struct{ Verdict, Word string }

// Cell gives the verdict of an answer; nil: it was refused.
func Cell(a *advisor.Advice) GuideCell {
	if a == nil {
		return GuideCell{"none", "not together"}
	}
	return GuideCell{a.Verdict, verdictWord(a.Verdict)}
}

// Price writes a board's price.
func Price(b *knowledge.Board) string { return money(b.Price, b.Currency) }

// HTML writes the page.
func (g Guide) HTML() ([]byte, error) { return render("guide.html", g) }

// BoardSheet is the page of one board in a published guide.
type BoardSheet struct {
	Site              Site
	Title, Conditions string
	Chips             []ChipSheet
}

// ChipSheet is a board's answers with one chip, a row for each room.
type ChipSheet struct {
	Name     string
	Refused  string // why there is no answer
	Headline string
	Scale    scale
	Rows     []RoomRow
}

// RoomRow is one answer.
type RoomRow struct {
	Room, Verdict, Word, HotSpot, Kept, Clock, Evidence string
	Card, Chart                                         string // addresses
}

// Add adds the answer for a room; the first one is drawn.
func (c *ChipSheet) Add(base *knowledge.Base, room *knowledge.Room, a advisor.Advice, card, picturePath string) {
	if len(c.Rows) == 0 {
		m := picture.Margin(base, a)
		c.Headline, c.Scale = a.Headline, scale{inset(m, 720), inset(m, narrow)}
	}
	c.Rows = append(c.Rows, RoomRow{
		Room: room.Word + " (" + strconv.FormatFloat(room.Celsius, 'f', -1, 64) + " °C)", Verdict: a.Verdict, Word: verdictWord(a.Verdict),
		HotSpot: celsiusOr(a.HotSpot.ExpectedC), Kept: celsiusOr(a.Margin.KeptC), Clock: fixed(a.Clock.SustainedGHz, 2), Evidence: a.Evidence,
		Card: card, Chart: picturePath,
	})
}

// HTML writes the page.
func (b BoardSheet) HTML() ([]byte, error) { return render("board.html", b) }

// StaticPolicy lets a page of a published guide load its own style sheet and
// icon, and nothing else.
func StaticPolicy() string {
	return "default-src 'none'; style-src 'self' " + hashed(chart.StyleSheet()) + "; img-src 'self'; base-uri 'none'; form-action 'none'"
}
