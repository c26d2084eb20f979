package layout

import (
	"math"

	"crossfall/siting/bed"
	"crossfall/siting/near"
	"crossfall/terrain"

	"github.com/paulmach/orb"
)

// room is how far from all that stops a bed the nodes of a lattice lie, beyond
// the clearance that each asks: most places are clear, or stopped, by that alone
// and need no measuring. It is under 0 outside the boundary.
type room struct{ grid *terrain.Grid }

// roomCell is the spacing of its nodes, m, and roomNodes their greatest number
// along a side; defaults of ours.
const (
	roomCell  = 0.5
	roomNodes = 120
)

func newRoom(s *surveyor) room {
	bound := s.plot.Boundary.Bound()
	wide, deep := bound.Max[0]-bound.Min[0], bound.Max[1]-bound.Min[1]
	cell := math.Max(roomCell, math.Max(wide, deep)/roomNodes)
	g := terrain.NewGrid(bound.Min, cell, int(math.Ceil(wide/cell))+1, int(math.Ceil(deep/cell))+1)
	// Nodes only, so no context: it takes milliseconds.
	inParallel(g.Rows, func(row int) {
		for col := range g.Cols {
			g.Set(col, row, s.roomAt(g.Node(col, row)))
		}
	})
	return room{g}
}

// roomAt measures one node.
func (s *surveyor) roomAt(p orb.Point) float64 {
	at := near.Of(p)
	edge, _ := at.Distance(s.edge)
	if !s.inside.Covers(p) {
		return -edge
	}
	least := edge - s.opt.Margin
	for _, k := range s.barriers {
		if near.BoundGap(at.Bound, k.shape.Bound)-k.clear >= least {
			continue
		}
		d, _ := at.Distance(k.shape)
		least = math.Min(least, d-k.clear)
	}
	return least
}

// verdict is what the room tells of a place.
type verdict int

const (
	unclear verdict = iota
	clearOfAll
	stopped
)

// judge looks at circles along the bed: those about its parts tell that it is
// clear, those inside them that it is stopped.
func (r room) judge(b bed.Bed) verdict {
	parts := max(1, int(b.Length/b.Width))
	half := b.Length / float64(2*parts)
	outer, inner := math.Hypot(half, b.Width/2), b.Width/2-2*pinch
	e, n := b.LongSide.Unit()
	isClear := true
	for i := range parts {
		along := float64(2*i+1)*half - b.Length/2
		p := orb.Point{b.Centre[0] + along*e, b.Centre[1] + along*n}
		col := max(0, min(r.grid.Cols-1, int(math.Round((p[0]-r.grid.Origin[0])/r.grid.Cell))))
		row := max(0, min(r.grid.Rows-1, int(math.Round((p[1]-r.grid.Origin[1])/r.grid.Cell))))
		node := r.grid.Node(col, row)
		off, at := math.Hypot(p[0]-node[0], p[1]-node[1]), r.grid.At(col, row)
		if at+off < inner {
			return stopped
		}
		isClear = isClear && at-off >= outer
	}
	if isClear {
		return clearOfAll
	}
	return unclear
}
