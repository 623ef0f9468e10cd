package advisor

import (
	"slices"
	"strconv"
)

// defaults lists every assumption made for the asker.
func (a *answer) defaults() []string {
	list := append(a.assumptions(), a.parts.defaulted...)
	for _, key := range a.chip.Defaulted {
		list = append(list, key+" of the chip: the model's default")
	}
	return list
}

// estimated lists every input that is an estimate.
func (a *answer) estimated() []string { return slices.Clone(a.parts.estimated) }

// sayDefaults words once for all answers what board and stage leave to the
// model, and which of their values are estimates.
func (p *parts) sayDefaults() {
	p.estimated = []string{}
	for _, key := range p.board.Defaulted {
		p.defaulted = append(p.defaulted, key+" of the board: the model's default")
	}
	for _, key := range p.stage.Defaulted {
		p.defaulted = append(p.defaulted, key+" of the power stage: the model's default")
	}
	for _, key := range p.board.Estimated {
		p.estimated = append(p.estimated, key+" of the "+p.board.Name)
	}
	for _, key := range p.stage.Estimated {
		p.estimated = append(p.estimated, key+" of the stage "+p.stage.Name)
	}
	if p.path.AreaGuessed {
		p.estimated = append(p.estimated, "surface of the heatsink, worked out from its mass and its shape ("+p.board.Heatsink.Shape+")")
	}
}

// assumptions words every default that the asker did not choose.
func (sc *scene) assumptions() []string {
	list := make([]string, 0, 24)
	assume := func(missing bool, text string) {
		if missing {
			list = append(list, text)
		}
	}
	q := &sc.asked
	if q.RoomC == nil {
		assume(true, "room: "+plain(sc.room.Celsius)+" °C ("+strconv.Quote(sc.room.Word)+")")
	}
	assume(q.GraphicsW == nil, "graphics load: 0 W")
	assume(q.AltitudeM == nil, "altitude: 0 m")
	assume(q.Enclosure == "", "enclosure: "+sc.enclosure.Name)
	assume(q.Cooler == "", "cooler: "+sc.cooler.Name)
	assume(q.Load == "", "load: "+sc.load.Name)
	assume(q.Setup == "" && sc.setup == SetupCustom, "power setup: custom, because a cap was given")
	assume(q.Setup == "" && sc.setup == SetupShipped, "power setup: shipped, the board's limits as it leaves the factory")
	switch sc.setup {
	case SetupShipped:
		sc.assumeRated(assume)
	case SetupCustom: // no cap is the hotter reading of one that is left out
		assume(sc.caps.PowerW == nil, "power cap: none, because only a current cap was given")
		assume(sc.caps.CurrentA == nil, "current cap: none, because only a power cap was given")
	}
	if q.GHz == nil {
		assume(true, "target clock: "+plain(sc.targetGHz)+" GHz, the chip's stock all-core clock")
	}
	return list
}

// assumeRated words what the board's maker does not say of its limits.
func (sc *scene) assumeRated(assume func(bool, string)) {
	limits := sc.parts.board.Limit
	if limits.PowerW == nil {
		assume(true, "power cap: "+plain(sc.chip.RatedPowerW)+" W as the chip maker rates it, because the board's maker states none")
	}
	if limits.CurrentA == nil {
		assume(true, "current cap: "+plain(sc.chip.CurrentMaxA)+" A as the chip maker rates it, because the board's maker states none")
	}
}
