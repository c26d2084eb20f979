package relief

import (
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"github.com/paulmach/orb"

	"crossfall/terrain"
)

// Contour is one line of equal height. Walking along it, the high ground is on
// the right.
type Contour struct {
	Level  float64        // metres
	Line   orb.LineString // metres; repeats its first point at the end when Closed
	Closed bool
}

// Contours draws the lines of equal height at the given levels (metres) by
// marching squares: a node is high when its height is the level or more, a
// line crosses the side between a high and a low node at the place that linear
// interpolation gives, and where all four sides are crossed the asymptotic
// decider (Nielson & Hamann 1991, Proc. IEEE Visualization, from memory) says
// which corners belong together. Squares with an unknown height are left out,
// so lines end there. No two lines cross.
//
// Lines come in the order of the levels; within a level open lines come first,
// then closed ones, each by the square it starts in, row by row from the south.
// A peak of one node exactly at the level leaves no line. A grid that
// Grid.Check refuses gives none.
func Contours(g *terrain.Grid, levels []float64) []Contour {
	if g.Check() != nil {
		return nil
	}
	lines, err := contour(lattice{g.Origin, g.Cell, g.Cols, g.Rows}, g.Z, levels, 0)
	if err != nil { // more lines than memory holds
		return nil
	}
	return lines
}

// lattice is where the nodes lie.
type lattice struct {
	origin     orb.Point
	cell       float64
	cols, rows int
}

// bandRows is how many rows of squares are marched in one piece.
const bandRows = 64

// contour marches the squares band by band, joins the bands, and follows the
// lines level by level.
func contour(at lattice, z []float64, levels []float64, workers int) ([]Contour, error) {
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	rising := distinct(levels)
	if at.cols < 2 || at.rows < 2 || len(rising) == 0 {
		return nil, nil
	}
	bands := make([]*band, (at.rows-2)/bandRows+1)
	share(len(bands), workers, func(k int) {
		first := k * bandRows
		bands[k] = march(at, z, rising, first, min(first+bandRows, at.rows-1))
	})
	c, err := joinBands(bands, len(rising), workers)
	if err != nil {
		return nil, err
	}
	byLevel := make([][]Contour, len(rising))
	share(len(rising), workers, func(k int) { byLevel[k] = c.lines(k, rising[k]) })
	var out []Contour
	for _, level := range levels {
		if known(level) {
			k, _ := slices.BinarySearch(rising, level)
			out = append(out, byLevel[k]...)
		}
	}
	return out, nil
}

// distinct is the known levels, rising, each once.
func distinct(levels []float64) []float64 {
	var out []float64
	for _, l := range levels {
		if known(l) {
			out = append(out, l)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// share has n pieces of work done by workers. Which one does which is left to
// chance, so a piece must not depend on it.
func share(n, workers int, piece func(k int)) {
	var next atomic.Int64
	var all sync.WaitGroup
	for range min(n, workers) {
		all.Go(func() {
			for k := int(next.Add(1)) - 1; k < n; k = int(next.Add(1)) - 1 {
				piece(k)
			}
		})
	}
	all.Wait()
}
