// Package publish writes a whole buying guide as static files: an index, a page
// for each board, and a card and a picture for each board, chip and room word.
// Any web server can hold them. The same knowledge, rules and program give the
// same bytes, and a file that has not changed is not touched.
package publish

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strings"

	"golang.org/x/sync/errgroup"

	"hotroom/advisor"
	"hotroom/cmd/internal/page"
	"hotroom/cmd/internal/picture"
	"hotroom/knowledge"
)

// Options say what is published.
type Options struct {
	Rooms    []string              // room words; none: all that the knowledge has
	Program  string                // version that the index names
	Progress func(done, total int) // may be called by several at once
}

// guide is a guide being written.
type guide struct {
	snapshot *advisor.Snapshot
	base     *knowledge.Base
	rooms    []*knowledge.Room
	folder   *folder
	program  string
}

// Guide writes the guide into a folder and removes what an earlier one wrote
// there and this one has not.
func Guide(ctx context.Context, s *advisor.Snapshot, dir string, o Options) (Result, error) {
	rooms, err := roomsOf(s.Base(), o.Rooms)
	if err != nil {
		return Result{}, err
	}
	f, err := openFolder(dir)
	if err != nil {
		return Result{}, err
	}
	defer f.close()
	g := &guide{snapshot: s, base: s.Base(), rooms: rooms, folder: f, program: o.Program}
	names, err := g.names(ctx)
	if err != nil {
		return Result{}, err
	}
	if err := f.begin(names); err != nil {
		return Result{}, err
	}
	if err := g.fill(ctx, o.Progress); err != nil {
		return Result{}, f.cutOff(err)
	}
	r, err := f.end()
	return r, f.cutOff(err)
}

// fill writes everything, the first page last.
func (g *guide) fill(ctx context.Context, progress func(done, total int)) error {
	boards, err := g.boards(ctx, progress)
	if err == nil {
		err = g.assets()
	}
	if err == nil {
		err = g.data(boards)
	}
	if err == nil {
		err = g.index(boards)
	}
	return err
}

// roomsOf finds the rooms, in the order of the knowledge.
func roomsOf(base *knowledge.Base, words []string) ([]*knowledge.Room, error) {
	var rooms []*knowledge.Room
	var known []string
	for i := range base.Rooms {
		r := &base.Rooms[i]
		known = append(known, r.Word)
		if len(words) == 0 || slices.Contains(words, r.Word) {
			rooms = append(rooms, r)
		}
	}
	for _, w := range words {
		if !slices.Contains(known, w) {
			return nil, &advisor.Refusal{
				Kind: advisor.NotFound, Field: "rooms", What: fmt.Sprintf("the knowledge has no room word %q", w),
				Mend: "give one or more of " + strings.Join(known, ", "), Candidates: known,
			}
		}
	}
	if len(rooms) == 0 {
		return nil, &advisor.Refusal{Kind: advisor.Missing, Field: "rooms", What: "the knowledge has no room words", Mend: "give surroundings.toml at least one [[room]]"}
	}
	return rooms, nil
}

// chipsOf gives the chips that a board's socket takes.
func (g *guide) chipsOf(socket string) []*knowledge.Chip {
	var list []*knowledge.Chip
	for i := range g.base.Chips {
		if c := &g.base.Chips[i]; c.Socket == socket {
			list = append(list, c)
		}
	}
	return list
}

// names are the files that will be written.
func (g *guide) names(ctx context.Context) ([]string, error) {
	list := []string{"index.html", "index.json"}
	for _, a := range page.Assets() {
		list = append(list, a.Name)
	}
	for i := range g.base.Boards {
		b := &g.base.Boards[i]
		list = append(list, boardPath(b.ID))
		for _, c := range g.chipsOf(b.Socket) {
			refused, err := g.refuses(ctx, b, c)
			if err != nil {
				return nil, err
			}
			for _, r := range g.rooms {
				if !refused {
					list = append(list, cardPath(b.ID, c.ID, r.Word), chartPath(b.ID, c.ID, r.Word))
				}
			}
		}
	}
	return list, nil
}

// refuses reports whether a board is not answered for with a chip in one of
// the rooms.
func (g *guide) refuses(ctx context.Context, b *knowledge.Board, c *knowledge.Chip) (bool, error) {
	for _, r := range g.rooms {
		_, err := advisor.AdviseBriefly(ctx, g.snapshot, advisor.Question{Board: b.ID, Chip: c.ID, RoomC: &r.Celsius})
		if _, refused := errors.AsType[*advisor.Refusal](err); refused {
			return true, nil
		}
		if err != nil {
			return false, err
		}
	}
	return false, nil
}

// boardAnswers are a board's answers.
type boardAnswers struct {
	board *knowledge.Board
	chips []chipAnswers
}

// chipAnswers are the answers for one chip, in the order of the rooms. Refused
// says why there are none.
type chipAnswers struct {
	chip    *knowledge.Chip
	refused string
	rooms   []advisor.Advice
}

// boards answers and writes everything of every board, several at once.
func (g *guide) boards(ctx context.Context, progress func(done, total int)) ([]boardAnswers, error) {
	all := make([]boardAnswers, len(g.base.Boards))
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(runtime.GOMAXPROCS(0))
	count := newCounter(len(all), progress)
	for i := range g.base.Boards {
		group.Go(func() error {
			answers, err := g.board(ctx, &g.base.Boards[i])
			all[i] = answers
			count.one()
			return err
		})
	}
	return all, group.Wait()
}

// board answers and writes everything of one board.
func (g *guide) board(ctx context.Context, b *knowledge.Board) (boardAnswers, error) {
	out := boardAnswers{board: b}
	sheet := page.BoardSheet{Site: page.Site{Home: "../index.html", Assets: "../", Static: true}, Title: b.Name}
	for _, c := range g.chipsOf(b.Socket) {
		answers, err := g.chip(ctx, b, c)
		if err != nil {
			return out, err
		}
		out.chips = append(out.chips, answers)
		part := page.ChipSheet{Name: c.Name, Refused: answers.refused}
		for i, a := range answers.rooms {
			word := g.rooms[i].Word
			part.Add(g.base, g.rooms[i], a, "../"+cardPath(b.ID, c.ID, word), "../"+chartPath(b.ID, c.ID, word))
			sheet.Conditions = conditions(g.base, a)
		}
		sheet.Chips = append(sheet.Chips, part)
	}
	return out, g.write(boardPath(b.ID), sheet.HTML)
}

// conditions says what every answer of a guide assumes beside the room and the
// chip's own clock.
func conditions(base *knowledge.Base, a advisor.Advice) string {
	q := a.Question
	q.RoomC, q.GHz = nil, nil
	return picture.Conditions(base, q)
}

// chip answers for one board and chip, and writes cards and pictures.
func (g *guide) chip(ctx context.Context, b *knowledge.Board, c *knowledge.Chip) (chipAnswers, error) {
	out := chipAnswers{chip: c}
	for _, r := range g.rooms {
		a, err := advisor.Advise(ctx, g.snapshot, advisor.Question{Board: b.ID, Chip: c.ID, RoomC: &r.Celsius})
		if refusal, ok := errors.AsType[*advisor.Refusal](err); ok {
			return chipAnswers{chip: c, refused: refusal.Error()}, nil
		}
		if err != nil {
			return out, err
		}
		out.rooms = append(out.rooms, a)
	}
	for i, r := range g.rooms {
		if err := g.cardAndChart(b, c, r, out.rooms[i]); err != nil {
			return out, err
		}
	}
	return out, nil
}

func (g *guide) cardAndChart(b *knowledge.Board, c *knowledge.Chip, r *knowledge.Room, a advisor.Advice) error {
	err := g.write(cardPath(b.ID, c.ID, r.Word), func() ([]byte, error) {
		return page.Card(g.base, a, "../../../"+boardPath(b.ID))
	})
	if err != nil {
		return err
	}
	return g.write(chartPath(b.ID, c.ID, r.Word), func() ([]byte, error) {
		var out bytes.Buffer
		err := picture.Margin(g.base, a).SVG(&out)
		return out.Bytes(), err
	})
}

func (g *guide) write(name string, make func() ([]byte, error)) error {
	body, err := make()
	if err != nil {
		return err
	}
	return g.folder.write(name, body)
}

func (g *guide) assets() error {
	for _, a := range page.Assets() {
		if err := g.folder.write(a.Name, a.Body); err != nil {
			return err
		}
	}
	return nil
}
