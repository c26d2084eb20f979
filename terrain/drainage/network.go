package drainage

import (
	"fmt"
	"math"
	"runtime"
	"sync"

	"crossfall/terrain/relief"
)

// HollowRule is what becomes of hollows before water is routed.
type HollowRule uint8

// The rules.
const (
	// FillHollows lets every hollow fill to its spill level and run over.
	FillHollows HollowRule = iota
	// BreachHollows first cuts through sills within relief.BreachOptions, as a
	// ditch or a pipe through a bank would, and fills what is left.
	BreachHollows
	// KeepHollows leaves the ground as it is: water stays in the hollows.
	KeepHollows
)

// GridOptions says how water is routed over a raster.
type GridOptions struct {
	Routing Routing              // default DInfinity
	Hollows HollowRule           // default FillHollows
	Breach  relief.BreachOptions // for BreachHollows
	// NodataIsWall keeps water from leaving beside nodes without a height.
	// Default false: it leaves there.
	NodataIsWall bool
}

// Network is where water goes from every node of a raster. Each node stands
// for the square of one spacing round it.
type Network struct {
	Ground *relief.Raster // that the water runs over: filled, cut or as it was
	// To is, by node, the steepest way down (D8, see there), or on ground that
	// was filled level the way out; Out where water leaves the raster, Nowhere
	// where it stands or nothing is known.
	To   []relief.Way
	Cuts []relief.Cut // made by BreachHollows

	routing Routing
	wall    bool
	steps   [8]int
	wayOut  []relief.Way // of the flood; nil for KeepHollows
}

// Route finds where water goes. At the edge of the raster, and beside nodes
// without a height, the ground is carried on in straight lines (relief.Window's
// Extend): where that falls away water leaves. The error is that of
// Raster.Check.
func Route(r *relief.Raster, opt GridOptions) (*Network, error) {
	if err := r.Check(); err != nil {
		return nil, fmt.Errorf("routing: %w", err)
	}
	n := &Network{Ground: r, routing: opt.Routing, wall: opt.NodataIsWall}
	for way := range n.steps {
		cols, rows := relief.Way(way).Step()
		n.steps[way] = rows*r.Cols + cols
	}
	if opt.Hollows == BreachHollows {
		cut, cuts, err := relief.Breach(r, opt.Breach, opt.NodataIsWall)
		if err != nil {
			return nil, fmt.Errorf("routing: %w", err)
		}
		n.Ground, n.Cuts = cut, cuts
	}
	if opt.Hollows != KeepHollows {
		f, err := relief.Flood(n.Ground, opt.NodataIsWall)
		if err != nil {
			return nil, fmt.Errorf("routing: %w", err)
		}
		n.Ground, n.wayOut = f.Level, f.To
	}
	n.findWays()
	return n, nil
}

// findWays fills To. Rows are shared out: no node depends on another.
func (n *Network) findWays() {
	n.To = make([]relief.Way, len(n.Ground.Z))
	workers := runtime.GOMAXPROCS(0)
	var all sync.WaitGroup
	for k := range workers {
		first, last := k*n.Ground.Rows/workers, (k+1)*n.Ground.Rows/workers
		all.Go(func() {
			for i := first * n.Ground.Cols; i < last*n.Ground.Cols; i++ {
				n.To[i] = n.findWay(i)
			}
		})
	}
	all.Wait()
}

func (n *Network) findWay(i int) relief.Way {
	if !n.known(i) {
		return relief.Nowhere
	}
	way, ok := relief.Nowhere, false
	if n.inside(i) {
		way, ok = n.steepestInside(i)
	} else {
		way, ok = steepestWay(n.window(i))
	}
	switch {
	case !ok:
		return n.lastWay(i)
	case n.neighbour(i, way) < 0:
		return relief.Out
	}
	return way
}

// inside reports whether a node has eight neighbours.
func (n *Network) inside(i int) bool {
	col, row := i%n.Ground.Cols, i/n.Ground.Cols
	return col > 0 && row > 0 && col < n.Ground.Cols-1 && row < n.Ground.Rows-1
}

// steepestInside is steepestWay for a node with eight neighbours; it takes the
// slower way round when one of them is unknown.
func (n *Network) steepestInside(i int) (relief.Way, bool) {
	z := n.Ground.Z
	here := float64(z[i])
	var most, sum float64
	way, ok := relief.Nowhere, false
	for k, step := range n.steps {
		fall := here - float64(z[i+step])
		sum += fall
		if k%2 == 1 {
			fall *= 1 / math.Sqrt2
		}
		if fall > most {
			most, way, ok = fall, relief.Way(k), true
		}
	}
	if sum-sum != 0 {
		return steepestWay(n.window(i))
	}
	return way, ok
}

// window is the heights round a node, carried on where some are unknown.
func (n *Network) window(i int) relief.Window {
	w := n.plainWindow(i)
	if w.Whole() || (n.wall && n.besideUnknown(i)) {
		return w
	}
	if full, ok := w.Extend(); ok {
		return full
	}
	return w
}

func (n *Network) plainWindow(i int) (w relief.Window) {
	if n.inside(i) {
		at, z := i-n.Ground.Cols, n.Ground.Z
		for k := range 3 {
			w[6+k], w[3+k], w[k] = float64(z[at+k-1]), float64(z[i+k-1]), float64(z[i+n.Ground.Cols+k-1])
		}
	} else {
		col, row := i%n.Ground.Cols, i/n.Ground.Cols
		for k := range w {
			w[k] = n.Ground.At(col+k%3-1, row+1-k/3)
		}
	}
	for k, z := range w {
		if math.IsInf(z, 0) {
			w[k] = math.NaN()
		}
	}
	return w
}

// besideUnknown reports whether a neighbour on the raster has no height.
func (n *Network) besideUnknown(i int) bool {
	for way := range relief.Out {
		if k := n.onRaster(i, way); k >= 0 && !n.known(k) {
			return true
		}
	}
	return false
}

// onRaster is the neighbour on a way, or -1 off the raster.
func (n *Network) onRaster(i int, way relief.Way) int {
	cols, rows := way.Step()
	col, row := i%n.Ground.Cols+cols, i/n.Ground.Cols+rows
	if col < 0 || row < 0 || col >= n.Ground.Cols || row >= n.Ground.Rows {
		return -1
	}
	return row*n.Ground.Cols + col
}

// neighbour is the neighbour on a way, or -1 when it is off the known ground.
func (n *Network) neighbour(i int, way relief.Way) int {
	if k := n.onRaster(i, way); k >= 0 && n.known(k) {
		return k
	}
	return -1
}

func (n *Network) known(i int) bool { z := n.Ground.Z[i]; return z-z == 0 }

// lastWay is where water goes from a node without a lower neighbour.
func (n *Network) lastWay(i int) relief.Way {
	if n.wayOut != nil {
		return n.wayOut[i]
	}
	if !n.inside(i) || (!n.wall && n.besideUnknown(i)) {
		return relief.Out
	}
	return relief.Nowhere
}

// shares is how much of a node's water goes on each way, and what part of it
// leaves the known ground or stands.
func (n *Network) shares(i int) (to [8]float64, leaves, stands float64) {
	way := n.To[i]
	if n.routing != D8 {
		if shares, ok := n.routing.Shares(n.window(i), n.Ground.Cell); ok {
			for k, s := range shares {
				if s > 0 && n.neighbour(i, relief.Way(k)) < 0 {
					leaves += s
					shares[k] = 0
				}
			}
			return shares, leaves, 0
		}
		way = n.lastWay(i)
	}
	switch way {
	case relief.Out:
		return to, 1, 0
	case relief.Nowhere:
		return to, 0, 1
	}
	to[way] = 1
	return to, 0, 0
}
