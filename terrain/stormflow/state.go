package stormflow

import "math"

// state is everything that changes while a storm is played.
type state struct {
	m     *Model
	storm Storm

	h, w, taken  []float64    // depth, level, water taken up
	rough        []float64    // g n² of each cell
	qx, qy       []float64    // discharges at the beginning of a step
	px, py       []float64    // as pushed, before they are limited
	share        []float64    // of what would leave a cell, what it has
	k, s, rainOn [256]float64 // conductivity, pull, and whether rain falls on it, of each material
	weir         float64
	// of the faces in work
	force, friction, perDepth []float64
	limited                   []bool    // by row: a cell has less than would leave it
	wet                       []float64 // by row: greatest depth
	fastest                   []float64 // by row: greatest speed
	still                     []bool    // by row: all its faces are at 0
	rainIn, soaked            []float64 // by row: water of this step over the area of a cell, m
	negative                  []int     // by row: cells under 0, which must never be

	t, dt, rain, runOn float64
	greatest           float64 // step allowed by what is built
	steps              int
	cellSteps          int64
}

// The Courant number, and the greatest steps with boards and without, s.
const (
	courant      = 0.45
	stepBoarded  = 1.0
	stepOpen     = 5.0
	celerityOver = 5.0 / 3 // of a kinematic wave over the speed of its water
)

func newState(m *Model, storm Storm) *state {
	n, rows := len(m.z), m.rows
	s := &state{m: m, storm: storm, weir: storm.WeirFactor, greatest: stepOpen}
	if s.weir == 0 {
		s.weir = DefaultWeir
	}
	s.weir *= 2.0 / 3 * math.Sqrt(2*Gravity)
	if len(m.boards) > 0 {
		s.greatest = stepBoarded
	}
	for _, a := range []*[]float64{&s.h, &s.w, &s.taken, &s.rough, &s.qx, &s.qy, &s.px, &s.py, &s.share, &s.force, &s.friction, &s.perDepth} {
		*a = make([]float64, n)
	}
	for _, a := range []*[]float64{&s.wet, &s.fastest, &s.rainIn, &s.soaked} {
		*a = make([]float64, rows)
	}
	s.limited, s.still, s.negative = make([]bool, rows+1), make([]bool, rows+1), make([]int, rows)
	for i, k := range storm.Materials {
		s.k[i], s.s[i], s.rainOn[i] = k.Infiltration.Conductivity, k.Infiltration.pull(), 1
		if k.Dry {
			s.rainOn[i] = 0
		}
	}
	for c := range n {
		s.share[c] = 1
		if !m.inside[c] {
			continue
		}
		nn := storm.Materials[m.mat[c]].Manning
		s.rough[c] = Gravity * nn * nn
		s.w[c] = m.z[c]
	}
	s.begin()
	return s
}

// begin lays the water of the beginning.
func (s *state) begin() {
	if s.storm.Start == nil {
		return
	}
	for row := range s.m.spec.Rows {
		for col := range s.m.spec.Cols {
			c := s.m.at(col, row)
			if !s.m.inside[c] {
				continue
			}
			s.h[c] = s.storm.Start[row*s.m.spec.Cols+col]
			s.w[c] = s.m.z[c] + s.h[c]
			s.wet[row+1] = math.Max(s.wet[row+1], s.h[c])
		}
	}
}

// choose sets the next step: the Courant condition with gravity waves and with
// kinematic waves, which in thin sheets run faster than the water; and no step
// passes a change of the rain.
func (s *state) choose(until float64) {
	depth, speed := 0.0, 0.0
	for r := range s.wet {
		depth, speed = math.Max(depth, s.wet[r]), math.Max(speed, s.fastest[r])
	}
	s.dt = s.greatest
	if c := math.Sqrt(Gravity*depth) + celerityOver*speed; c > 0 {
		s.dt = math.Min(s.dt, courant*s.m.spacing/c)
	}
	if next := math.Min(until, math.Min(s.storm.Rain.next(s.t), s.storm.RunOn.next(s.t))); s.t+s.dt > next-1e-9 {
		s.dt = next - s.t
	} else if s.t+2*s.dt > next {
		s.dt = (next - s.t) / 2 // two even steps rather than a crumb
	}
	middle := s.t + s.dt/2
	s.rain, s.runOn = s.storm.Rain.At(middle), s.storm.RunOn.At(middle)
}
