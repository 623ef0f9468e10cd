package publish

import (
	"encoding/json"
	"slices"
	"strconv"
	"sync"

	"hotroom/advisor"
	"hotroom/cmd/internal/page"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge"
)

// index writes the first page: for each socket its boards against its chips, in
// the usual room when it is among those published, else in the first.
func (g *guide) index(boards []boardAnswers) error {
	room := g.usualRoom()
	first := page.Guide{
		Site: page.Site{Home: "index.html", Static: true}, Title: "Which board feeds which chip",
		Conditions: "a room of " + strconv.FormatFloat(g.rooms[room].Celsius, 'f', -1, 64) + " °C (" + g.rooms[room].Word + ")",
	}
	for _, b := range boards {
		socket := g.socket(&first, b)
		row := page.GuideRow{Name: b.board.Name, Address: boardPath(b.board.ID), Price: page.Price(b.board)}
		for _, c := range b.chips {
			row.Cells = append(row.Cells, page.Cell(c.in(room)))
		}
		socket.Rows = append(socket.Rows, row)
	}
	return g.write("index.html", first.HTML)
}

// usualRoom gives the place of the room that a question without one has.
func (g *guide) usualRoom() int {
	usual := g.base.DefaultRoom()
	return max(0, slices.IndexFunc(g.rooms, func(r *knowledge.Room) bool { return usual != nil && r.Word == usual.Word }))
}

// in gives the answer in a room; nil: it was refused.
func (c chipAnswers) in(room int) *advisor.Advice {
	if room >= len(c.rooms) {
		return nil
	}
	return &c.rooms[room]
}

func (g *guide) socket(first *page.Guide, b boardAnswers) *page.GuideSocket {
	i := slices.IndexFunc(first.Sockets, func(s page.GuideSocket) bool { return s.Name == b.board.Socket })
	if i < 0 {
		i = len(first.Sockets)
		s := page.GuideSocket{Name: b.board.Socket}
		for _, c := range b.chips {
			s.Chips = append(s.Chips, c.chip.Name)
		}
		first.Sockets = append(first.Sockets, s)
	}
	return &first.Sockets[i]
}

// The form of index.json. Addresses are relative to it.
type (
	indexData struct {
		Rooms    []roomData       `json:"rooms"`
		Boards   []boardData      `json:"boards"`
		Versions advisor.Versions `json:"versions"`
	}
	roomData struct {
		Word  string  `json:"word"`
		RoomC float64 `json:"room_c"`
	}
	boardData struct {
		ID      string       `json:"id"`
		Name    string       `json:"name"`
		Page    string       `json:"page"`
		Answers []answerData `json:"answers"`
		Refused []refusal    `json:"refused"`
	}
	refusal struct {
		Chip   string `json:"chip"`
		Detail string `json:"detail"`
	}
	answerData struct {
		Chip      string          `json:"chip"`
		Room      string          `json:"room"`
		Verdict   string          `json:"verdict"`
		Headline  string          `json:"headline"`
		Score     float64         `json:"score"`
		Evidence  string          `json:"evidence"`
		NewestRun *string         `json:"newest_run"` // YYYY-MM-DD
		HotSpot   advisor.HotSpot `json:"hot_spot"`
		Limit     advisor.Limit   `json:"limit"`
		Margin    advisor.Margin  `json:"margin"`
		Card      string          `json:"card"`
		Chart     string          `json:"chart"`
	}
)

// data writes index.json.
func (g *guide) data(boards []boardAnswers) error {
	out := indexData{Rooms: []roomData{}, Boards: []boardData{}, Versions: advisor.Versions{Knowledge: g.base.Hash, Rules: g.snapshot.Book().Hash(), Program: g.program}}
	for _, r := range g.rooms {
		out.Rooms = append(out.Rooms, roomData{r.Word, r.Celsius})
	}
	for _, b := range boards {
		out.Boards = append(out.Boards, g.boardData(b))
	}
	return g.write("index.json", func() ([]byte, error) {
		text, err := json.MarshalIndent(out, "", " ")
		return append(text, '\n'), err
	})
}

func (g *guide) boardData(b boardAnswers) boardData {
	out := boardData{ID: b.board.ID, Name: b.board.Name, Page: boardPath(b.board.ID), Answers: []answerData{}, Refused: []refusal{}}
	for _, c := range b.chips {
		if c.refused != "" {
			out.Refused = append(out.Refused, refusal{c.chip.ID, c.refused})
		}
		for i, a := range c.rooms {
			word := g.rooms[i].Word
			d := answerData{
				Chip: c.chip.ID, Room: word, Verdict: a.Verdict, Headline: a.Headline, Score: a.Score, Evidence: a.Evidence,
				HotSpot: a.HotSpot, Limit: a.Limit, Margin: a.Margin,
				Card: cardPath(b.board.ID, c.chip.ID, word), Chart: chartPath(b.board.ID, c.chip.ID, word),
			}
			if date := picture.Newest(g.base, a.Runs); date != "" {
				d.NewestRun = &date
			}
			out.Answers = append(out.Answers, d)
		}
	}
	return out
}

// counter counts what is done.
type counter struct {
	mu          sync.Mutex
	done, total int
	tell        func(done, total int)
}

func newCounter(total int, tell func(done, total int)) *counter {
	if tell == nil {
		tell = func(int, int) {}
	}
	return &counter{total: total, tell: tell}
}

func (c *counter) one() {
	c.mu.Lock()
	defer c.mu.Unlock()
	c.done++
	c.tell(c.done, c.total)
}
