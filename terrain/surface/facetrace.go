package surface

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"crossfall/geodata"
)

// trace walks round every face of the cut network with the face to its left:
// at each node it takes the first segment clockwise from the one it came by, as
// in a doubly connected edge list (Muller and Preparata 1978, Theoretical
// Computer Science 7, 217-236, from memory). Segment s makes the half edges 2s
// from u to v and 2s+1 back.
func (n *network) trace() ([]face, []brink) {
	next := n.successors()
	loop := make([]int, 2*len(n.segs)) // of each half edge
	for i := range loop {
		loop[i] = -1
	}
	var rings []orb.Ring
	var first []int // a node of each loop
	for h := range loop {
		if loop[h] >= 0 {
			continue
		}
		var ring orb.Ring
		for k := h; loop[k] < 0; k = next[k] {
			loop[k] = len(rings)
			ring = append(ring, n.nodes[n.start(k)])
		}
		rings, first = append(rings, append(ring, ring[0])), append(first, n.start(h))
	}
	faces, owner := assemble(rings, first, n.components())
	var brinks []brink
	for i, s := range n.segs {
		left, right := owner[loop[2*i]], owner[loop[2*i+1]]
		if s.line != edgeOfPlot && left >= 0 && right >= 0 && left != right {
			brinks = append(brinks, brink{n.nodes[s.u], n.nodes[s.v], s.line, left, right})
		}
	}
	return faces, brinks
}

// start is the node that half edge h leaves.
func (n *network) start(h int) int {
	if h%2 == 0 {
		return n.segs[h/2].u
	}
	return n.segs[h/2].v
}

// successors is, for each half edge, the next one round its face.
func (n *network) successors() []int {
	out := make([][]int, len(n.nodes)) // half edges leaving each node
	for h := range 2 * len(n.segs) {
		out[n.start(h)] = append(out[n.start(h)], h)
	}
	next := make([]int, 2*len(n.segs))
	for i, hs := range out {
		angle := func(h int) float64 {
			a, b := n.nodes[i], n.nodes[n.start(h^1)]
			return math.Atan2(b[1]-a[1], b[0]-a[0])
		}
		slices.SortFunc(hs, func(g, h int) int { return cmp.Or(cmp.Compare(angle(g), angle(h)), cmp.Compare(g, h)) })
		for k, h := range hs {
			next[h^1] = hs[(k+len(hs)-1)%len(hs)]
		}
	}
	return next
}

// components numbers the connected parts of the network, by node.
func (n *network) components() []int {
	of := make([]int, len(n.nodes))
	for i := range of {
		of[i] = i
	}
	for changed := true; changed; {
		changed = false
		for _, s := range n.segs {
			if of[s.u] != of[s.v] {
				of[s.u], of[s.v] = min(of[s.u], of[s.v]), min(of[s.u], of[s.v])
				changed = true
			}
		}
	}
	return of
}

// assemble makes faces of loops: one that goes anticlockwise outlines a face,
// one that goes clockwise is a hole in the smallest face of another component
// around it, or the outside. owner is the face of each loop, -1 for none.
func assemble(rings []orb.Ring, first, component []int) (faces []face, owner []int) {
	owner = make([]int, len(rings))
	var outline []int // the loop of each face
	for i, r := range rings {
		owner[i] = -1
		if geodata.SignedArea(r) >= leastFace {
			outline = append(outline, i)
		}
	}
	centre := make([]orb.Point, len(rings))
	for _, i := range outline {
		centre[i], _ = planar.CentroidArea(rings[i])
	}
	slices.SortStableFunc(outline, func(i, j int) int { return westToEast(centre[i], centre[j]) })
	for k, i := range outline {
		owner[i] = k
		faces = append(faces, face{rings: []orb.Ring{rings[i]}, area: geodata.SignedArea(rings[i])})
	}
	for i, r := range rings {
		a := geodata.SignedArea(r)
		if a > -leastFace {
			continue
		}
		around := -1
		for k, o := range outline {
			if component[first[o]] != component[first[i]] && geodata.Inside(rings[o], r[0]) &&
				(around < 0 || faces[k].area < faces[around].area) {
				around = k
			}
		}
		if owner[i] = around; around >= 0 {
			faces[around].rings = append(faces[around].rings, r)
		}
	}
	return faces, owner
}
