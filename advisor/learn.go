package advisor

import (
	"cmp"
	"slices"

	"hotroom/advisor/balance"
	"hotroom/advisor/chip"
	"hotroom/advisor/evidence"
	"hotroom/knowledge"
)

// learn turns the runs into what is believed of every board.
func (s *Snapshot) learn() {
	runs := make([][]*knowledge.Run, len(s.base.Boards))
	observed := make([][]evidence.Observation, len(s.base.Boards))
	for i := range s.base.Boards {
		runs[i] = counted(s.base.RunsOf(s.base.Boards[i].ID))
		slices.SortStableFunc(runs[i], byReading)
		for _, run := range runs[i] {
			observed[i] = append(observed[i], s.observation(run))
		}
	}
	s.general = evidence.Learned(measured(observed))
	for i := range s.base.Boards {
		p := s.boards[s.base.Boards[i].ID]
		p.belief = evidence.Posterior(s.general, observed[i]).Bounded()
		s.findOutliers(i, runs[i], observed)
	}
}

// counted lists the runs whose temperature is a value to learn from.
func counted(runs []*knowledge.Run) []*knowledge.Run {
	var list []*knowledge.Run
	for _, run := range runs {
		if run.Counts() {
			list = append(list, run)
		}
	}
	return list
}

// byReading orders counted runs by what was read, so that sums over them come
// out the same to the last digit whatever the runs are called.
func byReading(a, b *knowledge.Run) int {
	return cmp.Or(
		cmp.Compare(*a.HotC, *b.HotC), cmp.Compare(*a.PackageW, *b.PackageW), cmp.Compare(*a.Volts, *b.Volts), cmp.Compare(a.RoomC, b.RoomC),
	)
}

// measured leaves out the boards of which nothing was observed, and orders
// the others by what was, so that sums over them do not depend on their order.
func measured(boards [][]evidence.Observation) [][]evidence.Observation {
	var list [][]evidence.Observation
	for _, observations := range boards {
		if len(observations) > 0 {
			list = append(list, observations)
		}
	}
	slices.SortStableFunc(list, byFirst)
	return list
}

func byFirst(a, b []evidence.Observation) int {
	return cmp.Or(cmp.Compare(a[0].Y, b[0].Y), slices.Compare(a[0].X[:], b[0].X[:]), cmp.Compare(len(a), len(b)))
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
