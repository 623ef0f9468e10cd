package advisor

import (
	"hotroom/advisor/balance"
	"hotroom/advisor/chip"
	"hotroom/advisor/evidence"
	"hotroom/knowledge"
)

// learn turns the runs into what is believed of every board.
func (s *Snapshot) learn() {
	observed := make(map[string][]evidence.Observation)
	var boards [][]evidence.Observation
	for i := range s.base.Boards {
		id := s.base.Boards[i].ID
		var list []evidence.Observation
		for _, run := range s.base.RunsOf(id) {
			if run.Counts() {
				list = append(list, s.observation(run))
			}
		}
		if len(list) > 0 {
			observed[id] = list
			boards = append(boards, list)
		}
	}
	s.general = evidence.Learned(boards)
	for id, p := range s.boards {
		p.belief = evidence.Posterior(s.general, observed[id]).Bounded()
	}
}

// observation reads a counted run as one equation in the board's coefficients,
// with the air, the loss and the heat path at its measured temperature.
func (s *Snapshot) observation(run *knowledge.Run) evidence.Observation {
	p := s.boards[run.Board]
	k, _ := s.base.Chip(run.Chip)
	around := s.around(run)
	drawn := drawn{
		packageW: *run.PackageW,
		coreA:    chip.CoreCurrent(k.CoreShare, *run.PackageW, *run.Volts),
		volts:    *run.Volts,
	}
	c, _ := around.balance(p, drawn)
	state := c.At(*run.HotC)
	meter, _ := s.base.Thermometer(run.Thermometer)
	return evidence.Observation{
		X:     row(state),
		Y:     *run.HotC - state.LocalC,
		Noise: evidence.MeasurementNoise(meter, *run.HotC),
	}
}

// row is the part of a state that the coefficients multiply.
func row(s balance.State) evidence.Vector {
	return evidence.Vector{1, s.ConvectedK, s.SocketK}
}

// around gives the surroundings that a run was made in.
func (s *Snapshot) around(run *knowledge.Run) surroundings {
	enclosure, _ := s.base.Enclosure(run.Enclosure)
	cooler, _ := s.base.Cooler(run.Cooler)
	return surroundings{
		roomC: run.RoomC, altitudeM: run.AltitudeM, graphicsW: run.GraphicsW,
		enclosure: enclosure, cooler: cooler,
	}
}
