package advisor

import (
	"fmt"
	"strings"

	"hotroom/advisor/chip"
	"hotroom/knowledge"
)

// resolve looks a question's words up in the knowledge and fills in its
// defaults. The error is a *Refusal.
func (s *Snapshot) resolve(q Question) (*scene, error) {
	sc := &scene{asked: q, question: q}
	for _, step := range []func(*scene) error{
		s.resolveBoard, s.resolveChip, s.checkSocket, s.resolveRoom, s.resolveSurroundings,
		s.resolveLoad, s.resolveSetup, s.resolveTarget,
	} {
		if err := step(sc); err != nil {
			return nil, err
		}
	}
	sc.hold()
	sc.guessC = usual(sc.roomC)
	return sc, nil
}

func (s *Snapshot) resolveBoard(sc *scene) error {
	id := sc.question.Board
	if id == "" {
		return &Refusal{Kind: Missing, Field: "board", What: "the question names no board", Mend: "name one", Candidates: s.boardsFor(sc.question.Chip)}
	}
	p, ok := s.boards[id]
	if !ok {
		return unknown("board", id, BoardEntries(s.base))
	}
	sc.parts = p
	return nil
}

// boardsFor lists the boards that take a chip; all where no such chip is known.
func (s *Snapshot) boardsFor(chip string) []string {
	if k, ok := s.base.Chip(chip); ok {
		return boardIDs(s.base.Boards, k.Socket)
	}
	return boardIDs(s.base.Boards, "")
}

func (s *Snapshot) resolveChip(sc *scene) error {
	id := sc.question.Chip
	if id == "" {
		return &Refusal{Kind: Missing, Field: "chip", What: "the question names no chip", Mend: "name one", Candidates: chipIDs(s.base.Chips, sc.parts.board.Socket)}
	}
	k, ok := s.base.Chip(id)
	if !ok {
		return unknown("chip", id, ChipEntries(s.base))
	}
	sc.chip, sc.curve = k, s.curves[id]
	return nil
}

func (s *Snapshot) checkSocket(sc *scene) error {
	b, k := sc.parts.board, sc.chip
	if b.Socket == k.Socket {
		return nil
	}
	return &Refusal{
		Kind: Unfit, Field: "chip",
		What:       fmt.Sprintf("the %s does not fit the %s: the chip needs socket %s and the board has %s", k.Name, b.Name, k.Socket, b.Socket),
		Mend:       fmt.Sprintf("choose a board with socket %s or a chip for %s", k.Socket, b.Socket),
		Candidates: append(boardIDs(s.base.Boards, k.Socket), chipIDs(s.base.Chips, b.Socket)...),
	}
}

func (s *Snapshot) resolveRoom(sc *scene) error {
	q := &sc.question
	if q.RoomC == nil {
		room := s.base.DefaultRoom()
		if room == nil {
			return &Refusal{Kind: Missing, Field: "room_c", What: "the question names no room temperature and the knowledge has no room words", Mend: "give the room in °C"}
		}
		q.RoomC, sc.room = number(room.Celsius), room
	}
	if q.GraphicsW == nil {
		q.GraphicsW = number(0)
	}
	if q.AltitudeM == nil {
		q.AltitudeM = number(0)
	}
	sc.roomC, sc.graphicsW, sc.altitudeM = *q.RoomC, *q.GraphicsW, *q.AltitudeM
	return firstError(
		within("room_c", "a room", sc.roomC, -20, 60, "°C"),
		within("graphics_w", "a graphics load", sc.graphicsW, 0, 2000, "W"),
		within("altitude_m", "an altitude", sc.altitudeM, 0, 9000, "m"),
	)
}

func (s *Snapshot) resolveSurroundings(sc *scene) error {
	q := &sc.question
	var ok bool
	if q.Enclosure == "" {
		if e := s.base.DefaultEnclosure(); e != nil {
			q.Enclosure = e.ID
		}
	}
	if sc.enclosure, ok = s.base.Enclosure(q.Enclosure); !ok {
		return unknown("enclosure", q.Enclosure, EnclosureEntries(s.base))
	}
	if q.Cooler == "" {
		if c := s.base.DefaultCooler(); c != nil {
			q.Cooler = c.ID
		}
	}
	if sc.cooler, ok = s.base.Cooler(q.Cooler); !ok {
		return unknown("cooler", q.Cooler, CoolerEntries(s.base))
	}
	return nil
}

func (s *Snapshot) resolveLoad(sc *scene) error {
	q := &sc.question
	if q.Load == "" {
		if l := s.base.DefaultLoad(); l != nil {
			q.Load = l.ID
		}
	}
	var ok bool
	if sc.load, ok = s.base.Load(q.Load); !ok {
		return unknown("load", q.Load, LoadEntries(s.base))
	}
	return nil
}

// resolveTarget settles the clock that is wanted: the chip's stock all-core
// clock unless asked otherwise. A higher one is manual tuning, which both
// makers must allow.
func (s *Snapshot) resolveTarget(sc *scene) error {
	q, k, b := &sc.question, sc.chip, sc.parts.board
	if q.GHz == nil {
		q.GHz = number(k.AllCoreGHz)
	}
	sc.targetGHz = *q.GHz
	first, last := sc.curve.First(), sc.curve.Last()
	switch {
	case !(sc.targetGHz >= first && sc.targetGHz <= last):
		return &Refusal{
			Kind: Unfit, Field: "ghz",
			What: fmt.Sprintf("%s GHz is outside what is known of the %s: its operating points go from %s to %s GHz", plain(sc.targetGHz), k.Name, plain(first), plain(last)),
			Mend: "ask for a clock between them; nothing is extrapolated",
		}
	case sc.targetGHz > k.AllCoreGHz && (!b.Tunable || !k.Tunable):
		return &Refusal{
			Kind: NotAllowed, Field: "ghz",
			What: fmt.Sprintf("%s GHz is above the stock all-core clock of the %s (%s GHz), and the knowledge marks %s as not tunable", plain(sc.targetGHz), k.Name, plain(k.AllCoreGHz), untunable(b, k)),
			Mend: fmt.Sprintf("ask for %s GHz or less; what the makers do not allow is not advised", plain(k.AllCoreGHz)),
		}
	}
	return nil
}

// untunable names whichever of board and chip is not marked tunable.
func untunable(b *knowledge.Board, k *knowledge.Chip) string {
	var names []string
	if !b.Tunable {
		names = append(names, "the "+b.Name)
	}
	if !k.Tunable {
		names = append(names, "the "+k.Name)
	}
	return strings.Join(names, " and ")
}

// resolveSetup settles the caps.
func (s *Snapshot) resolveSetup(sc *scene) error {
	q := &sc.question
	switch given := q.PowerW != nil || q.CurrentA != nil; {
	case q.Setup == "" && given:
		q.Setup = SetupCustom
	case q.Setup == "":
		q.Setup = SetupShipped
	}
	if err := checkCaps(q); err != nil {
		return err
	}
	sc.setup = q.Setup
	sc.caps = capsFor(*q, sc.parts.board, sc.chip)
	return nil
}

// capsFor gives the caps of a question's power setup.
func capsFor(q Question, b *knowledge.Board, k *knowledge.Chip) chip.Caps {
	switch q.Setup {
	case SetupRated:
		return chip.RatedCaps(k)
	case SetupShipped:
		return chip.ShippedCaps(b, k)
	case SetupCustom:
		return chip.Caps{PowerW: q.PowerW, CurrentA: q.CurrentA}
	}
	return chip.Caps{}
}

// checkCaps refuses setups that do not exist and caps that contradict them.
func checkCaps(q *Question) error {
	switch q.Setup {
	case SetupRated, SetupShipped, SetupOpen:
		if q.PowerW != nil || q.CurrentA != nil {
			return &Refusal{
				Kind: BadValue, Field: "setup",
				What: fmt.Sprintf("the power setup %q has caps of its own, and a cap was given as well", q.Setup),
				Mend: "leave the cap out or ask for the setup \"custom\"",
			}
		}
	case SetupCustom:
		if q.PowerW == nil && q.CurrentA == nil {
			return &Refusal{Kind: Missing, Field: "power_w", What: "the power setup \"custom\" needs a cap", Mend: "give a power in W, a current in A, or both"}
		}
	default:
		return &Refusal{
			Kind: BadValue, Field: "setup", What: fmt.Sprintf("there is no power setup %q", q.Setup),
			Mend:       "take rated, shipped, open or custom",
			Candidates: []string{SetupRated, SetupShipped, SetupOpen, SetupCustom},
		}
	}
	return firstError(
		capWithin("power_w", "a power cap", q.PowerW, 2000, "W"),
		capWithin("current_a", "a current cap", q.CurrentA, 5000, "A"),
	)
}
