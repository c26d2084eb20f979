package stormflow

import (
	"math"

	"github.com/paulmach/orb"
)

// boardFaces are the faces that a board stands on.
type boardFaces struct {
	board Board
	on    []crossing
}

// placeBeds fills the cells inside each frame, as the staircases of its boards
// enclose them.
func (m *Model) placeBeds() {
	for _, b := range m.spec.Beds {
		for _, c := range m.enclosed(b.Corners) {
			if z := b.Level(m.Centre(c.col, c.row)) - m.datum; z > m.z[m.at(c.col, c.row)] {
				m.z[m.at(c.col, c.row)] = z
			}
			m.mat[m.at(c.col, c.row)] = b.Material
		}
	}
}

// enclosed are the cells of the ground within the closed staircase through four
// corners: those that lie east of an odd number of its steps northward.
func (m *Model) enclosed(corners [4]orb.Point) []node {
	odd := map[node]bool{}
	for i := range corners {
		m.staircase(m.inReach(corners[i]), m.inReach(corners[(i+1)%4]), func(p, q node) {
			if p.row == q.row {
				return
			}
			n := node{p.col, min(p.row, q.row)}
			odd[n] = !odd[n]
		})
	}
	var all []node
	left := -m.reach()
	for row := range m.spec.Rows {
		in := false
		for col := left; col < m.spec.Cols; col++ {
			if odd[node{col, row}] {
				in = !in
			}
			if in && col >= 0 && m.inside[m.at(col, row)] {
				all = append(all, node{col, row})
			}
		}
	}
	return all
}

// reach is how many cells outside the grid are followed.
func (m *Model) reach() int { return 2 * (m.spec.Cols + m.spec.Rows + 2) }

// inReach is the node nearest to a place, drawn to within reach of the grid.
func (m *Model) inReach(p orb.Point) node {
	n, far := m.nodeAt(p), m.reach()
	return node{max(-far, min(far, n.col)), max(-far, min(far, n.row))}
}

// layBoards puts the boards of beds, then the others, on faces. Where two stand
// on one face the higher counts.
func (m *Model) layBoards() {
	all := []Board{}
	for _, b := range m.spec.Beds {
		sides := b.boards()
		all = append(all, sides[:]...)
	}
	for _, b := range append(all, m.spec.Boards...) {
		m.boards = append(m.boards, boardFaces{b, m.crossings(b.From, b.To)})
	}
	highest := map[face]int{} // place in order
	var order []special
	for _, b := range m.boards {
		scale := b.board.shorter()
		for _, c := range b.on {
			s := special{face: c.face, kind: boardFace, crest: b.board.crestAt(c.middle) - m.datum, scale: scale}
			i, taken := highest[c.face]
			switch {
			case !taken:
				highest[c.face] = len(order)
				order = append(order, s)
			case s.crest > order[i].crest:
				order[i] = s
			}
		}
	}
	for _, s := range order {
		sill := m.sillX
		if s.alongY {
			sill = m.sillY
		}
		if s.crest <= sill[s.at] {
			continue // it lies under the ground and stops nothing
		}
		sill[s.at] = math.Inf(1)
		m.addSpecial(s)
	}
}

// shorter is the true length over that of the staircase, at most 1: so much of
// the staircase is crest.
func (b Board) shorter() float64 {
	dx, dy := math.Abs(b.To[0]-b.From[0]), math.Abs(b.To[1]-b.From[1])
	if dx+dy == 0 {
		return 1
	}
	return math.Hypot(dx, dy) / (dx + dy)
}

// crestAt is the height of the top beside a place.
func (b Board) crestAt(p orb.Point) float64 {
	dx, dy := b.To[0]-b.From[0], b.To[1]-b.From[1]
	d := dx*dx + dy*dy
	if d == 0 {
		return math.Max(b.CrestFrom, b.CrestTo)
	}
	t := math.Min(1, math.Max(0, ((p[0]-b.From[0])*dx+(p[1]-b.From[1])*dy)/d))
	return b.CrestFrom + t*(b.CrestTo-b.CrestFrom)
}
