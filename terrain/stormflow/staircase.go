package stormflow

import (
	"math"

	"github.com/paulmach/orb"
)

// node is a corner of cells: column and row count from the outer south-western
// corner of the grid.
type node struct{ col, row int }

// nodeAt is the node nearest to a place.
func (m *Model) nodeAt(p orb.Point) node {
	s := m.spec
	return node{
		int(math.Round((p[0] - s.Origin[0]) / s.Cell)), int(math.Round((p[1] - s.Origin[1]) / s.Cell)),
	}
}

// crossing is a face of a staircase, with the sense in which the line is passed
// from its left to its right.
type crossing struct {
	face
	toRight float64 // +1: flow east or north passes from left to right
	middle  orb.Point
}

// staircase is the way from one node to another along faces of cells that keeps
// closest to the straight line. Neighbours on it share a node, so that a closed
// run of staircases lets nothing through, at any angle.
func (m *Model) staircase(from, to node, visit func(a, b node)) {
	dc, dr := abs(to.col-from.col), abs(to.row-from.row)
	sc, sr := sign(to.col-from.col), sign(to.row-from.row)
	at := from
	for i, j := 0, 0; i < dc || j < dr; {
		next := at
		// the step whose middle lies nearer to the line
		if j >= dr || i < dc && (2*i+1)*dr <= (2*j+1)*dc {
			next.col += sc
			i++
		} else {
			next.row += sr
			j++
		}
		visit(at, next)
		at = next
	}
}

// crossings are the faces of the ground that a line lies on.
func (m *Model) crossings(from, to orb.Point) []crossing {
	var all []crossing
	a, b, ok := m.clipped(from, to)
	if !ok {
		return nil
	}
	m.staircase(a, b, func(p, q node) {
		if c, ok := m.crossing(p, q); ok {
			all = append(all, c)
		}
	})
	return all
}

// clipped are the ends of a line as nodes, and whether it comes near the grid.
// Lines reaching far outside are cut off a little outside the grid.
func (m *Model) clipped(from, to orb.Point) (a, b node, ok bool) {
	a, b = m.nodeAt(from), m.nodeAt(to)
	far := 2 * (m.spec.Cols + m.spec.Rows + 2)
	near := func(n node) bool { return abs(n.col) <= far && abs(n.row) <= far }
	if near(a) && near(b) {
		return a, b, true
	}
	pad := float64(far) / 2 * m.spec.Cell
	o := m.spec.Origin
	bound := orb.Bound{Min: orb.Point{o[0] - pad, o[1] - pad}, Max: orb.Point{o[0] + pad, o[1] + pad}}
	t0, t1 := 0.0, 1.0
	for k := range 2 {
		d := to[k] - from[k]
		if d == 0 {
			if from[k] < bound.Min[k] || from[k] > bound.Max[k] {
				return a, b, false
			}
			continue
		}
		u, v := (bound.Min[k]-from[k])/d, (bound.Max[k]-from[k])/d
		t0, t1 = math.Max(t0, math.Min(u, v)), math.Min(t1, math.Max(u, v))
	}
	if t0 >= t1 {
		return a, b, false
	}
	on := func(t float64) node {
		return m.nodeAt(orb.Point{from[0] + t*(to[0]-from[0]), from[1] + t*(to[1]-from[1])})
	}
	return on(t0), on(t1), true
}

// crossing is the face between two neighbouring nodes; false where it does not
// lie between two cells of the ground.
func (m *Model) crossing(p, q node) (crossing, bool) {
	s := m.spec
	var c crossing
	c.middle = orb.Point{
		s.Origin[0] + float64(p.col+q.col)/2*s.Cell, s.Origin[1] + float64(p.row+q.row)/2*s.Cell,
	}
	col, row := min(p.col, q.col), min(p.row, q.row)
	if col < 0 || row < 0 || col > s.Cols || row > s.Rows {
		return c, false
	}
	c.at = m.at(col, row)
	if c.at >= len(m.inside) || !m.inside[c.at] {
		return c, false
	}
	if c.alongY = p.row == q.row; c.alongY {
		c.toRight = -float64(q.col - p.col) // going east, the right is south
		return c, m.inside[c.at-m.stride]
	}
	c.toRight = float64(q.row - p.row)
	return c, m.inside[c.at-1]
}

func abs(i int) int { return max(i, -i) }

func sign(i int) int {
	switch {
	case i > 0:
		return 1
	case i < 0:
		return -1
	}
	return 0
}
