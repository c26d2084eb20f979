package heightgrid

import (
	"math"

	"github.com/paulmach/orb"
)

// lattice is the place of a grid's cells in the file's unit.
type lattice struct {
	origin     orb.Point // centre of the south-western cell
	dx, dy     float64   // over 0
	cols, rows int
}

// window is a block of cells, counted from the south-western one.
type window struct{ col, row, cols, rows int }

// bound is the outer edge of the cells.
func (l lattice) bound() orb.Bound {
	min := orb.Point{l.origin[0] - l.dx/2, l.origin[1] - l.dy/2}
	return orb.Bound{Min: min, Max: orb.Point{min[0] + float64(l.cols)*l.dx, min[1] + float64(l.rows)*l.dy}}
}

// ok tells whether every number of the lattice can be worked with: the far
// edge must be told from the near one and a cell from its neighbour.
func (l lattice) ok() bool {
	b := l.bound()
	apart := func(from, to, step float64) bool {
		return step > 0 && !math.IsInf(from, 0) && !math.IsInf(to, 0) && from+step > from && to-step < to
	}
	return l.cols > 0 && l.rows > 0 && apart(b.Min[0], b.Max[0], l.dx) && apart(b.Min[1], b.Max[1], l.dy)
}

// window finds the cells that overlap a bound; ok is false when none does.
func (l lattice) window(b orb.Bound) (w window, ok bool) {
	edge := l.bound()
	var okX, okY bool
	w.col, w.cols, okX = span((b.Min[0]-edge.Min[0])/l.dx, (b.Max[0]-edge.Min[0])/l.dx, l.cols)
	w.row, w.rows, okY = span((b.Min[1]-edge.Min[1])/l.dy, (b.Max[1]-edge.Min[1])/l.dy, l.rows)
	return w, okX && okY
}

// span finds the cells between two places counted in cells from the edge. A
// millionth of a cell is forgiven, so that a bound drawn along cell edges does
// not take in the neighbours by rounding.
func span(from, to float64, n int) (first, count int, ok bool) {
	const forgiven = 1e-6
	if !(from < float64(n) && to >= 0) || to < forgiven && from < 0 {
		return 0, 0, false
	}
	lo := math.Max(0, math.Floor(from+forgiven))
	hi := math.Min(float64(n), math.Ceil(to-forgiven))
	lo = math.Min(lo, float64(n-1))
	return int(lo), int(math.Max(1, hi-lo)), true
}

// scaled multiplies the corners of a bound.
func scaled(b orb.Bound, by float64) orb.Bound {
	if by == 1 {
		return b
	}
	return orb.Bound{Min: orb.Point{b.Min[0] * by, b.Min[1] * by}, Max: orb.Point{b.Max[0] * by, b.Max[1] * by}}
}
