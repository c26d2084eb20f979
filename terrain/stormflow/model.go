package stormflow

import (
	"math"

	"github.com/paulmach/orb"
)

// Model is ground made ready for storms. It never changes.
//
// Cells lie in a frame of one cell more on every side, so that faces and
// neighbours are reached by adding to an index: the western face of cell c has
// the number c, the eastern c+1, the southern c and the northern c+stride.
type Model struct {
	spec   Spec
	stride int
	rows   int     // with the frame: the inner ones are 1 to rows-2
	datum  float64 // taken off all heights, so that small depths keep their digits
	inside []bool
	z      []float64
	mat    []uint8
	spans  [][]span // inner cells of each row
	// sillX and sillY are the higher ground of a face's two cells; +Inf where
	// water does not pass as over open ground.
	sillX, sillY []float64
	special      [][]special // by row
	boards       []boardFaces
	lines        [][]crossing
	rim          []rimFace
	cells        int
	spacing      float64
}

// span is a run of inner cells, from and up to.
type span struct{ from, to int }

// face names a face.
type face struct {
	at     int
	alongY bool // crossed northward rather than eastward
}

// special is a face that is not open ground.
type special struct {
	face
	kind  specialKind
	crest float64 // board: height of its top
	scale float64 // board: true length over length on the grid; run-on: its part
	slope float64 // rim: outward fall
	out   float64 // rim: +1 where outward is east or north, else -1
}

type specialKind uint8

const (
	boardFace specialKind = iota
	rimOut
	rimIn
)

// rimFace is a face of the rim, for the balance.
type rimFace struct {
	face
	out  float64
	side Side
	in   bool
}

// Side is a side of the grid.
type Side uint8

// Sides of the grid.
const (
	West Side = iota
	East
	South
	North
)

// NewModel makes ground ready. All that is wrong with the spec is told at once,
// as errors that are ErrSpec. Parts of beds, boards and channels off the ground
// are left out.
func NewModel(s Spec) (*Model, error) {
	if err := s.faults(); err != nil {
		return nil, err
	}
	m := &Model{spec: s, stride: s.Cols + 2, rows: s.Rows + 2, spacing: s.Cell}
	n := m.stride * m.rows
	m.inside, m.z, m.mat = make([]bool, n), make([]float64, n), make([]uint8, n)
	m.special = make([][]special, m.rows)
	m.layGround()
	m.cutChannels()
	m.placeBeds()
	m.findSpans()
	m.layFaces()
	m.layBoards()
	m.layRim()
	for _, l := range s.Lines {
		m.lines = append(m.lines, m.crossings(l.From, l.To))
	}
	return m, nil
}

// Cells is the number of cells that hold ground.
func (m *Model) Cells() int { return m.cells }

// at is the number of a cell of the spec in the frame.
func (m *Model) at(col, row int) int { return (row+1)*m.stride + col + 1 }

// Centre is the middle of a cell of the spec.
func (m *Model) Centre(col, row int) orb.Point {
	s := m.spec
	return orb.Point{s.Origin[0] + (float64(col)+0.5)*s.Cell, s.Origin[1] + (float64(row)+0.5)*s.Cell}
}

func (m *Model) layGround() {
	lowest := math.Inf(1)
	for _, z := range m.spec.Ground {
		if z < lowest {
			lowest = z
		}
	}
	m.datum = lowest
	for row := range m.spec.Rows {
		for col := range m.spec.Cols {
			i, c := row*m.spec.Cols+col, m.at(col, row)
			if z := m.spec.Ground[i]; !math.IsNaN(z) {
				m.inside[c], m.z[c] = true, z-lowest
				m.cells++
			}
			if m.spec.Materials != nil {
				m.mat[c] = m.spec.Materials[i]
			}
		}
	}
}

func (m *Model) cutChannels() {
	for _, ch := range m.spec.Channels {
		for row := range m.spec.Rows {
			for col := range m.spec.Cols {
				if c := m.at(col, row); m.inside[c] && fromLine(m.Centre(col, row), ch.Line) <= ch.Width/2 {
					m.z[c] -= ch.Depth
					m.mat[c] = ch.Material
				}
			}
		}
	}
}

// fromLine is the distance of a point from a line.
func fromLine(p orb.Point, l orb.LineString) float64 {
	best := math.Inf(1)
	for i := 1; i < len(l); i++ {
		a, b := l[i-1], l[i]
		dx, dy := b[0]-a[0], b[1]-a[1]
		t := 0.0
		if d := dx*dx + dy*dy; d > 0 {
			t = math.Min(1, math.Max(0, ((p[0]-a[0])*dx+(p[1]-a[1])*dy)/d))
		}
		best = math.Min(best, math.Hypot(p[0]-a[0]-t*dx, p[1]-a[1]-t*dy))
	}
	return best
}

func (m *Model) findSpans() {
	m.spans = make([][]span, m.rows)
	for r := range m.rows {
		from := -1
		for c := r * m.stride; c < (r+1)*m.stride; c++ {
			switch {
			case m.inside[c] && from < 0:
				from = c
			case !m.inside[c] && from >= 0:
				m.spans[r] = append(m.spans[r], span{from, c})
				from = -1
			}
		}
	}
}

// layFaces finds the sill of every face between two inner cells.
func (m *Model) layFaces() {
	n := len(m.z)
	m.sillX, m.sillY = make([]float64, n), make([]float64, n)
	for c := range n {
		m.sillX[c], m.sillY[c] = math.Inf(1), math.Inf(1)
		if !m.inside[c] {
			continue
		}
		if m.inside[c-1] {
			m.sillX[c] = math.Max(m.z[c-1], m.z[c])
		}
		if m.inside[c-m.stride] {
			m.sillY[c] = math.Max(m.z[c-m.stride], m.z[c])
		}
	}
}
