package drainage

import (
	"math"

	"crossfall/terrain/relief"
)

// Routing is a way of parting the water of a node among its neighbours.
type Routing uint8

// The routings.
const (
	// DInfinity follows the steepest of eight triangles round the node and
	// parts the water between the two neighbours beside that direction:
	// Tarboton 1997, Water Resources Research 33(2):309-319. It spreads least
	// of those that give fair amounts.
	DInfinity Routing = iota
	// D8 sends all water to the steepest neighbour; of equal ones to the
	// first in the order of relief.Way. Good for lines on a drawing, poor for
	// amounts: water keeps to eight directions.
	D8
	// Freeman parts it among all lower neighbours by the power 1.1 of their
	// falls: Freeman 1991, Computers & Geosciences 17(3). For sheets of water
	// that spread.
	Freeman
	// Quinn parts it by falls and by the length of contour towards each
	// neighbour: Quinn et al. 1991, Hydrological Processes 5 (lengths from
	// memory).
	Quinn
	// Adaptive is Quinn with a power that grows with the steepest fall, from
	// 1.1 on level ground to 10: Qin et al. 2007, International Journal of
	// Geographical Information Science 21(4).
	Adaptive
)

// inWindow is where the neighbours lie in a relief.Window, by relief.Way.
var inWindow = [8]int{1, 2, 5, 8, 7, 6, 3, 0}

// distances are those to the neighbours, in spacings, by relief.Way.
var distances = [8]float64{1, math.Sqrt2, 1, math.Sqrt2, 1, math.Sqrt2, 1, math.Sqrt2}

// Shares is how much of the water at the middle of a window goes to each
// neighbour, by relief.Way, adding up to 1. ok is false when no neighbour is
// lower. Nodes are cell metres apart. A neighbour without a height gets none.
func (r Routing) Shares(w relief.Window, cell float64) (shares [8]float64, ok bool) {
	switch r {
	case D8:
		way, ok := steepestWay(w)
		if ok {
			shares[way] = 1
		}
		return shares, ok
	case DInfinity:
		f, ok := steepestFacet(w, cell)
		if ok {
			diagonal := f.turn / (math.Pi / 4)
			shares[f.side], shares[f.diagonal] = 1-diagonal, diagonal
		}
		return shares, ok
	}
	return r.spread(w, cell)
}

// steepestWay is the neighbour with the steepest fall; of equal ones the first.
func steepestWay(w relief.Window) (way relief.Way, ok bool) {
	var most float64
	for k, at := range inWindow {
		fall := w[4] - w[at]
		if k%2 == 1 {
			fall *= 1 / math.Sqrt2
		}
		if fall > most {
			most, way, ok = fall, relief.Way(k), true
		}
	}
	return way, ok
}

// spread parts the water among all lower neighbours.
func (r Routing) spread(w relief.Window, cell float64) (shares [8]float64, ok bool) {
	var falls [8]float64
	var most, total float64
	for k, at := range inWindow {
		if f := (w[4] - w[at]) / (cell * distances[k]); f > 0 {
			falls[k] = f
			most = max(most, f)
		}
	}
	power, contour := 1., [2]float64{.5, math.Sqrt2 / 4} // side, diagonal, in spacings
	switch r {
	case Freeman:
		power, contour = 1.1, [2]float64{1, 1}
	case Adaptive:
		power = 8.9*min(most, 1) + 1.1
	}
	for k, f := range falls {
		if f > 0 {
			// Falls are taken from the steepest one: powers of small numbers vanish.
			shares[k] = math.Pow(f/most, power) * contour[k%2]
			total += shares[k]
		}
	}
	for k := range shares {
		if total > 0 {
			shares[k] /= total
		}
	}
	return shares, total > 0
}

// facet is the steepest of the triangles round a node.
type facet struct {
	side, diagonal relief.Way // the two neighbours it lies between
	fall           float64
	turn           float64 // from the side towards the diagonal, 0 to pi/4
}

// steepestFacet is Tarboton's rule: on each triangle between a side neighbour
// and the diagonal one beside it the steepest way down, held within the
// triangle. Of equal falls the first counts, in the order east-north-east,
// north-north-east and so on against the clock.
func steepestFacet(w relief.Window, cell float64) (best facet, ok bool) {
	for k := range 8 {
		// East, north, north, west ... and the diagonals on the way.
		side := relief.Way((10 - 2*((k+1)/2)) % 8)
		diagonal := relief.Way((9 - 2*(k/2)) % 8)
		e1, e2 := w[inWindow[side]], w[inWindow[diagonal]]
		out, across := (w[4]-e1)/cell, (e1-e2)/cell
		f := facet{side: side, diagonal: diagonal}
		switch {
		case across > out || math.IsNaN(out):
			f.fall, f.turn = (w[4]-e2)/(cell*math.Sqrt2), math.Pi/4
		case across > 0:
			f.fall = math.Sqrt(out*out + across*across)
		default: // the diagonal neighbour is higher, or unknown
			f.fall = out
		}
		if f.fall > best.fall {
			best, ok = f, true
		}
	}
	if ok && best.turn == 0 {
		e1, e2 := w[inWindow[best.side]], w[inWindow[best.diagonal]]
		best.turn = max(0, math.Atan2(e1-e2, w[4]-e1))
		if math.IsNaN(e2) {
			best.turn = 0
		}
	}
	return best, ok
}
