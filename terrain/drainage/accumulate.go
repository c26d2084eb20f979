package drainage

import "math"

// Gathered is how much ground drains through every node.
type Gathered struct {
	// Area is, by node, the ground above and the node's own square, m2; NaN
	// where there is no height.
	Area   []float64
	Leaves float64 // m2 whose water leaves the known ground
	Stands float64 // m2 whose water ends in a hollow with no way out
}

// done marks a node whose water has been passed on. No node has more than 8
// neighbours that give to it.
const done = 255

// Accumulate adds up the ground above every node. A node is worked as soon as
// all that drain to it have been: its neighbours that give to it are counted
// beforehand, and each way is followed from its top until a node has others to
// wait for. The order is fixed, so the sums are the same to the bit every time.
// Leaves and Stands together are the area of all known nodes.
func (n *Network) Accumulate() *Gathered {
	cells := len(n.Ground.Z)
	g := &Gathered{Area: make([]float64, cells)}
	w := walker{n: n, g: g, waits: make([]uint8, cells)}
	square := n.Ground.Cell * n.Ground.Cell
	for i := range cells {
		if !n.known(i) {
			g.Area[i], w.waits[i] = math.NaN(), done
			continue
		}
		g.Area[i] = square
		w.countReceivers(i)
	}
	for i := range cells {
		if w.waits[i] == 0 {
			w.follow(i)
		}
	}
	return g
}

// walker is the state of an accumulation.
type walker struct {
	n     *Network
	g     *Gathered
	waits []uint8 // neighbours that have still to give to a node, or done
	ready []int32
}

func (w *walker) countReceivers(i int) {
	if w.n.routing == D8 {
		if way := w.n.To[i]; way < 8 {
			w.waits[i+w.n.steps[way]]++
		}
		return
	}
	to, _, _ := w.n.shares(i)
	for way, s := range to {
		if s > 0 {
			w.waits[i+w.n.steps[way]]++
		}
	}
}

// follow passes on the water of a node, and of those that were waiting for it
// only.
func (w *walker) follow(i int) {
	w.ready = append(w.ready[:0], int32(i))
	for len(w.ready) > 0 {
		last := len(w.ready) - 1
		at := int(w.ready[last])
		w.ready = w.ready[:last]
		w.waits[at] = done
		area := w.g.Area[at]
		if w.n.routing == D8 && w.n.To[at] < 8 {
			w.give(at+w.n.steps[w.n.To[at]], area)
			continue
		}
		to, leaves, stands := w.n.shares(at)
		w.g.Leaves += leaves * area
		w.g.Stands += stands * area
		for way, s := range to {
			if s > 0 {
				w.give(at+w.n.steps[way], s*area)
			}
		}
	}
}

func (w *walker) give(i int, area float64) {
	w.g.Area[i] += area
	w.waits[i]--
	if w.waits[i] == 0 {
		w.ready = append(w.ready, int32(i))
	}
}
