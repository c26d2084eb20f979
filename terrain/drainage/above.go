package drainage

import (
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"crossfall/terrain/relief"
)

// Above is the ground of a raster that drains on to a bed.
type Above struct {
	Bed   []int     // nodes of the bed, rising: row times Cols plus column
	Nodes []int     // nodes whose water, or part of it, reaches the bed, rising
	Share []float64 // of the water of each of Nodes that does, over 0 and up to 1
	Area  float64   // m2 that drain on to the bed, shares counted, without the bed
	// AtEdge tells that some of it lies at the edge of the known ground: water
	// from beyond may be missing.
	AtEdge bool
}

// Above finds the ground that drains on to a bed, by going back along the ways
// of the network from the nodes within the footprint. Beds should be at least
// three spacings wide; of a smaller one the nodes nearest to its outline are
// taken when none lies within. A footprint off the raster gives nothing.
func (n *Network) Above(footprint orb.Polygon) Above {
	a := Above{Bed: n.nodesIn(footprint)}
	s := search{n: n, at: make([]int32, len(n.Ground.Z))}
	for _, i := range a.Bed {
		s.at[i] = onBed
	}
	s.collect(a.Bed)
	shares := s.fractions()
	order := make([]int, len(s.nodes))
	for k := range order {
		order[k] = k
	}
	slices.SortFunc(order, func(i, k int) int { return s.nodes[i] - s.nodes[k] })
	square := n.Ground.Cell * n.Ground.Cell
	for _, k := range order {
		a.Nodes = append(a.Nodes, s.nodes[k])
		a.Share = append(a.Share, shares[k])
		a.Area += shares[k] * square
		a.AtEdge = a.AtEdge || !n.inside(s.nodes[k]) || n.besideUnknown(s.nodes[k])
	}
	return a
}

// nodesIn lists the known nodes within a polygon or on its edge, rising.
func (n *Network) nodesIn(p orb.Polygon) []int {
	if len(p) == 0 || len(p[0]) < 4 || slices.ContainsFunc(p[0], func(q orb.Point) bool { return !isPlace(q) }) {
		return nil
	}
	r := n.Ground
	bound := p.Bound()
	var found []int
	for row := n.row(bound.Min[1]); row <= n.row(bound.Max[1])+1; row++ {
		for col := n.col(bound.Min[0]); col <= n.col(bound.Max[0])+1; col++ {
			if col < 0 || row < 0 || col >= r.Cols || row >= r.Rows || !n.known(row*r.Cols+col) {
				continue
			}
			if (area{p}).contains(r.Node(col, row)) {
				found = append(found, row*r.Cols+col)
			}
		}
	}
	if len(found) > 0 {
		return found
	}
	return n.nodesAlong(p[0])
}

// col is the column at or west of a place, kept near the raster.
func (n *Network) col(x float64) int {
	return below((x-n.Ground.Origin[0])/n.Ground.Cell, n.Ground.Cols)
}

func (n *Network) row(y float64) int {
	return below((y-n.Ground.Origin[1])/n.Ground.Cell, n.Ground.Rows)
}

func below(x float64, count int) int {
	if math.IsNaN(x) {
		return -2
	}
	return int(math.Floor(min(max(x, -2), float64(count)+1)))
}

// nodesAlong lists the known nodes nearest to points of a ring.
func (n *Network) nodesAlong(ring orb.Ring) []int {
	var found []int
	for k := range len(ring) - 1 {
		p, q := ring[k], ring[k+1]
		parts := math.Ceil(2 * planar.Distance(p, q) / n.Ground.Cell)
		for i := 0.; i < min(parts, 1e6); i++ {
			at := between(p, q, i/parts)
			col, row := n.col(at[0]+n.Ground.Cell/2), n.row(at[1]+n.Ground.Cell/2)
			if col >= 0 && row >= 0 && col < n.Ground.Cols && row < n.Ground.Rows && n.known(row*n.Ground.Cols+col) {
				found = append(found, row*n.Ground.Cols+col)
			}
		}
	}
	slices.Sort(found)
	return slices.Compact(found)
}

// onBed marks nodes of the bed in search.at; other nodes hold 1 more than
// their place in search.nodes, 0 outside it.
const onBed = -1

// search goes up from a bed.
type search struct {
	n     *Network
	at    []int32
	nodes []int // that drain on to the bed, in the order in which they were found
}

// collect finds all nodes that give water to the given ones, or to others that
// do.
func (s *search) collect(bed []int) {
	for _, i := range bed {
		s.givers(i)
	}
	for k := 0; k < len(s.nodes); k++ {
		s.givers(s.nodes[k])
	}
}

// givers adds the neighbours that give water to a node.
func (s *search) givers(i int) {
	for way := range 8 {
		k := s.n.neighbour(i, relief.Way(way))
		if k < 0 || s.at[k] != 0 {
			continue
		}
		if to, _, _ := s.n.shares(k); to[(way+4)%8] > 0 {
			s.nodes = append(s.nodes, k)
			s.at[k] = int32(len(s.nodes))
		}
	}
}

// fractions is how much of each node's water reaches the bed. A node is worked
// when all those that it gives to have been.
func (s *search) fractions() []float64 {
	reach := make([]float64, len(s.nodes))
	waits := make([]uint8, len(s.nodes))
	var ready []int
	for k, i := range s.nodes {
		to, _, _ := s.n.shares(i)
		for way, share := range to {
			if share > 0 && s.at[i+s.n.steps[way]] > 0 {
				waits[k]++
			}
		}
		if waits[k] == 0 {
			ready = append(ready, k)
		}
	}
	for at := 0; at < len(ready); at++ {
		k := ready[at]
		reach[k] = s.fraction(s.nodes[k], reach)
		for way := range 8 {
			giver := s.n.neighbour(s.nodes[k], relief.Way(way))
			if giver < 0 || s.at[giver] <= 0 {
				continue
			}
			if to, _, _ := s.n.shares(giver); to[(way+4)%8] > 0 {
				g := s.at[giver] - 1
				waits[g]--
				if waits[g] == 0 {
					ready = append(ready, int(g))
				}
			}
		}
	}
	return reach
}

// fraction adds up what reaches the bed from a node by the ways it goes.
func (s *search) fraction(i int, reach []float64) (sum float64) {
	to, _, _ := s.n.shares(i)
	for way, share := range to {
		if share == 0 {
			continue
		}
		switch at := s.at[i+s.n.steps[way]]; {
		case at == onBed:
			sum += share
		case at > 0:
			sum += share * reach[at-1]
		}
	}
	return min(sum, 1)
}
