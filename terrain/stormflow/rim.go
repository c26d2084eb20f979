package stormflow

import (
	"math"

	"github.com/paulmach/orb"
)

// layRim makes the faces between ground and no ground.
func (m *Model) layRim() {
	for row := range m.spec.Rows {
		for col := range m.spec.Cols {
			if c := m.at(col, row); m.inside[c] {
				m.rimAt(c, col, row)
			}
		}
	}
}

func (m *Model) rimAt(c, col, row int) {
	d := m.spacing / 2
	for _, k := range []struct {
		side        Side
		step        int // to the neighbour outside
		face        face
		out         float64
		east, north float64
	}{
		{West, -1, face{c, false}, -1, -d, 0},
		{East, +1, face{c + 1, false}, +1, d, 0},
		{South, -m.stride, face{c, true}, -1, 0, -d},
		{North, +m.stride, face{c + m.stride, true}, +1, 0, d},
	} {
		if m.inside[c+k.step] {
			continue
		}
		rise := 0.0
		if m.inside[c-k.step] {
			rise = (m.z[c] - m.z[c-k.step]) / m.spacing
		}
		p := m.Centre(col, row)
		m.addRim(k.face, k.side, k.out, rise, orb.Point{p[0] + k.east, p[1] + k.north})
	}
}

func (m *Model) addRim(f face, side Side, out, rise float64, middle orb.Point) {
	s := special{face: f, out: out}
	if m.spec.RunOn != nil {
		s.scale = math.Min(1, math.Max(0, m.spec.RunOn(middle, rise)))
	}
	fall := m.spec.EdgeSlope
	if fall == 0 && rise <= 1e-9 {
		fall = math.Max(-rise, LeastEdgeSlope)
	}
	switch {
	case s.scale > 0:
		s.kind = rimIn
	case fall > 0 && (m.spec.Edges == nil || m.spec.Edges(middle, side) == Open):
		s.kind, s.slope = rimOut, fall
	default:
		return
	}
	m.addSpecial(s)
	m.rim = append(m.rim, rimFace{f, out, side, s.kind == rimIn})
}

// addSpecial files a face with the row that it is worked in.
func (m *Model) addSpecial(s special) {
	r := s.at / m.stride
	m.special[r] = append(m.special[r], s)
}
