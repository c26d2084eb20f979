package surface

import (
	"cmp"
	"math"
	"slices"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"crossfall/geodata"
)

// snap is the distance under which points are one, m, and leastFace the area
// under which a part of the plot is none, m2; defaults of ours.
const (
	snap      = 1e-4
	leastFace = 1e-2
)

// edgeOfPlot marks a segment of the boundary; break lines are numbered from 0.
const edgeOfPlot = -1

// segment is a straight piece between two nodes.
type segment struct{ u, v, line int }

// face is a part of the plot: its outline anticlockwise, then the outlines of
// what lies inside it and is not of it.
type face struct {
	rings []orb.Ring
	area  float64
}

// brink is a piece of a break line with the faces to its left and right.
type brink struct {
	from, to    orb.Point
	line        int
	left, right int
}

// network is the boundary and the break lines cut at every crossing.
type network struct {
	nodes []orb.Point
	segs  []segment
}

// node is the number of the node at p, made if it is not there.
func (n *network) node(p orb.Point) int {
	for i, q := range n.nodes {
		if math.Abs(p[0]-q[0]) <= snap && math.Abs(p[1]-q[1]) <= snap {
			return i
		}
	}
	n.nodes = append(n.nodes, p)
	return len(n.nodes) - 1
}

// add puts a line's segments in.
func (n *network) add(line orb.LineString, number int) {
	for i := 1; i < len(line); i++ {
		if u, v := n.node(line[i-1]), n.node(line[i]); u != v {
			n.segs = append(n.segs, segment{u, v, number})
		}
	}
}

// divide cuts a boundary by lines and gives its faces, in order of their
// middles from west to east, and the brinks between two of them. Its first ring
// is the outline and the others are holes, whose inside is no face. Pieces of
// lines that lie outside, or end without reaching anything, divide nothing.
func divide(boundary orb.Polygon, lines []orb.LineString) ([]face, []brink) {
	var n network
	for _, r := range boundary {
		n.add(orb.LineString(r), edgeOfPlot)
	}
	for i, l := range lines {
		n.add(l, i)
	}
	n.cut()
	n.segs = slices.DeleteFunc(n.segs, func(s segment) bool {
		m := middle(n.nodes[s.u], n.nodes[s.v])
		return s.line != edgeOfPlot && (!geodata.Inside(boundary[0], m) || inHole(boundary, m))
	})
	n.prune()
	return withoutHoles(boundary, n)
}

// inHole tells whether a point lies in a hole of a polygon.
func inHole(p orb.Polygon, q orb.Point) bool {
	return slices.ContainsFunc(p[1:], func(hole orb.Ring) bool { return geodata.Inside(hole, q) })
}

// withoutHoles are the faces of a network and their brinks but for those inside
// the boundary's holes. No brink borders on these: lines end at a hole's edge.
func withoutHoles(boundary orb.Polygon, n network) (faces []face, brinks []brink) {
	all, brinks := n.trace()
	number := make([]int, len(all))
	for i, f := range all {
		number[i] = len(faces)
		if !inHole(boundary, f.within()) {
			faces = append(faces, f)
		}
	}
	for i, b := range brinks {
		brinks[i].left, brinks[i].right = number[b.left], number[b.right]
	}
	return faces, brinks
}

// within is a point of the face beside the longest side of its outline, which
// goes anticlockwise.
func (f face) within() orb.Point {
	ring, longest := f.rings[0], 1
	for i := 1; i < len(ring); i++ {
		if planar.Distance(ring[i-1], ring[i]) > planar.Distance(ring[longest-1], ring[longest]) {
			longest = i
		}
	}
	a, b := ring[longest-1], ring[longest]
	d := planar.Distance(a, b)
	m := middle(a, b)
	return orb.Point{m[0] - snap*(b[1]-a[1])/d, m[1] + snap*(b[0]-a[0])/d}
}

func middle(a, b orb.Point) orb.Point { return orb.Point{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2} }

// cut splits every segment at the nodes on it and at its crossings.
func (n *network) cut() {
	on := make([][]int, len(n.segs))
	for i, s := range n.segs {
		on[i] = []int{s.u, s.v}
		for j, t := range n.segs[:i] {
			a, b, c, d := n.nodes[s.u], n.nodes[s.v], n.nodes[t.u], n.nodes[t.v]
			if !boxesMeet(a, b, c, d) {
				continue
			}
			if p, ok := crossing(a, b, c, d); ok {
				k := n.node(p)
				on[i], on[j] = append(on[i], k), append(on[j], k)
			}
			for _, k := range []int{t.u, t.v} {
				if planar.DistanceFromSegment(a, b, n.nodes[k]) <= snap {
					on[i] = append(on[i], k)
				}
			}
			for _, k := range []int{s.u, s.v} {
				if planar.DistanceFromSegment(c, d, n.nodes[k]) <= snap {
					on[j] = append(on[j], k)
				}
			}
		}
	}
	var out []segment
	for i, s := range n.segs {
		a, b := n.nodes[s.u], n.nodes[s.v]
		along := func(k int) float64 {
			p := n.nodes[k]
			return (p[0]-a[0])*(b[0]-a[0]) + (p[1]-a[1])*(b[1]-a[1])
		}
		slices.SortStableFunc(on[i], func(k, l int) int { return cmp.Compare(along(k), along(l)) })
		for k := 1; k < len(on[i]); k++ {
			if u, v := on[i][k-1], on[i][k]; u != v {
				out = append(out, segment{min(u, v), max(u, v), s.line})
			}
		}
	}
	// Where pieces lie on one another the boundary's counts, else the first line's.
	slices.SortFunc(out, func(s, t segment) int {
		return cmp.Or(cmp.Compare(s.u, t.u), cmp.Compare(s.v, t.v), cmp.Compare(s.line, t.line))
	})
	n.segs = slices.CompactFunc(out, func(s, t segment) bool { return s.u == t.u && s.v == t.v })
}

func boxesMeet(a, b, c, d orb.Point) bool {
	for k := range 2 {
		if max(a[k], b[k]) < min(c[k], d[k])-snap || max(c[k], d[k]) < min(a[k], b[k])-snap {
			return false
		}
	}
	return true
}

// crossing is where two segments cross.
func crossing(a, b, c, d orb.Point) (orb.Point, bool) {
	x, y := turn(a, b, c), turn(a, b, d)
	if (x > 0) == (y > 0) || (turn(c, d, a) > 0) == (turn(c, d, b) > 0) || x == y {
		return orb.Point{}, false
	}
	t := x / (x - y)
	return orb.Point{c[0] + t*(d[0]-c[0]), c[1] + t*(d[1]-c[1])}, true
}

// prune takes away segments with a loose end until none is left.
func (n *network) prune() {
	for {
		degree := make([]int, len(n.nodes))
		for _, s := range n.segs {
			degree[s.u]++
			degree[s.v]++
		}
		before := len(n.segs)
		n.segs = slices.DeleteFunc(n.segs, func(s segment) bool { return degree[s.u] < 2 || degree[s.v] < 2 })
		if len(n.segs) == before {
			return
		}
	}
}

// inside tells whether a point lies in a face or on its outline.
func (f face) inside(p orb.Point) bool {
	if !geodata.Inside(f.rings[0], p) {
		return false
	}
	for _, hole := range f.rings[1:] {
		if geodata.Inside(hole, p) {
			return false
		}
	}
	return true
}

// distance is that from a point to the face's outline.
func (f face) distance(p orb.Point) float64 {
	d := math.Inf(1)
	for _, r := range f.rings {
		for i := 1; i < len(r); i++ {
			d = math.Min(d, planar.DistanceFromSegment(r[i-1], r[i], p))
		}
	}
	return d
}

// faceAt is the first face with the point in it, or the nearest.
func faceAt(faces []face, p orb.Point) int {
	for i, f := range faces {
		if f.inside(p) {
			return i
		}
	}
	best, nearest := 0, math.Inf(1)
	for i, f := range faces {
		if d := f.distance(p); d < nearest {
			best, nearest = i, d
		}
	}
	return best
}
