package setout

import (
	"fmt"

	"github.com/paulmach/orb"
)

// mostCanes is how many canes are proposed at the most, and leastApart the
// distance of two marks under which nothing can be taped from them, m:
// defaults of ours.
const (
	mostCanes  = 4
	leastApart = 2.0
)

// unreached is what a point that no two marks fix counts for beside expected
// errors, mm.
const unreached = 1e4

// mostPaired is of how many places all pairs are tried.
const mostPaired = 80

// mostPoints is how many of the points not yet fixed a cane is chosen by.
const mostPoints = 60

// proposed are the marks with as many canes as it takes to fix every point
// asked for. Canes at what stays come first, then on the boundary, then on open
// ground inside the plot; but one that fixes everything goes before several.
// Without any place that helps, none are added.
func (g ground) proposed(marks []Mark, points []orb.Point, site Site) []Mark {
	var kinds [][]Spot
	for range mostCanes {
		loose := g.loose(marks, points)
		if len(loose) == 0 {
			break
		}
		if kinds == nil {
			kinds = [][]Spot{site.Stays, alongBoundary(site), site.inside()}
		}
		more := g.add(marks, loose, kinds)
		if len(more) == len(marks) {
			break
		}
		marks = more
	}
	for i := range marks {
		marks[i].Height = g.heightAt(marks[i].At)
		if marks[i].Proposed {
			marks[i].Apart = g.apart(marks, marks[i])
		}
	}
	return marks
}

// loose are points that no two marks fix, some of them where they are many.
func (g ground) loose(marks []Mark, points []orb.Point) []orb.Point {
	var out []orb.Point
	for _, p := range points {
		if _, ok := g.bestPair(marks, p); !ok {
			out = append(out, p)
		}
	}
	for len(out) > mostPoints {
		half := out[:0:0]
		for i := 0; i < len(out); i += 2 {
			half = append(half, out[i])
		}
		out = half
	}
	return out
}

// cost weighs how well some marks fix some points: the expected errors
// together, mm, and much for each that they do not fix.
func (g ground) cost(marks []Mark, points []orb.Point) float64 {
	sum := 0.0
	for _, p := range points {
		if best, ok := g.bestPair(marks, p); ok {
			sum += best.error.total() / float64(len(points))
		} else {
			sum += unreached
		}
	}
	return sum
}

// add puts one cane more, or two where one fixes nothing: the first kind of
// place that fixes all points, else the first that fixes any.
func (g ground) add(marks []Mark, points []orb.Point, kinds [][]Spot) []Mark {
	some := marks
	for _, spots := range kinds {
		more := g.addOne(marks, points, spots)
		if len(more) == len(marks) && len(spots) <= mostPaired {
			more = g.addTwo(marks, points, spots)
		}
		switch {
		case len(more) == len(marks):
		case g.cost(more, points) < unreached:
			return more
		case len(some) == len(marks):
			some = more
		}
	}
	return some
}

// addOne puts the cane that helps most; the marks as they are where none fixes
// a point.
func (g ground) addOne(marks []Mark, points []orb.Point, spots []Spot) []Mark {
	out, least := marks, g.cost(marks, points)-unreached/2
	for _, s := range spots {
		m, ok := g.cane(marks, s)
		if !ok {
			continue
		}
		more := append(marks[:len(marks):len(marks)], m)
		if c := g.cost(more, points); c < least-1e-6 {
			out, least = more, c
		}
	}
	return out
}

// addTwo puts the two canes that together fix most, best.
func (g ground) addTwo(marks []Mark, points []orb.Point, spots []Spot) []Mark {
	out, least := marks, g.cost(marks, points)-unreached/2
	for i, a := range spots {
		first, ok := g.cane(marks, a)
		if !ok {
			continue
		}
		one := append(marks[:len(marks):len(marks)], first)
		for _, b := range spots[i+1:] {
			second, ok := g.cane(one, b)
			if !ok {
				continue
			}
			two := append(one[:len(one):len(one)], second)
			if c := g.cost(two, points); c < least-1e-6 {
				out, least = two, c
			}
		}
	}
	return out
}

// cane is a mark to be set at a spot; not ok where another mark stands too near.
// On open ground, where Where is empty, it is itself taped from two marks.
func (g ground) cane(marks []Mark, s Spot) (Mark, bool) {
	m := Mark{Name: s.Name, At: s.At, Proposed: true, Where: s.Where}
	for _, o := range marks {
		if distance(o.At, s.At) < leastApart {
			return m, false
		}
		if o.Name == m.Name {
			m.Name = fmt.Sprintf("%s %d", s.Name, len(marks)+1)
		}
	}
	if s.Where != "" {
		return m, true
	}
	c := g.tied(marks, m.Name, s.At)
	m.Ties, m.Side, m.cov = c.Ties, c.Side, c.cov
	return m, len(c.Ties) > 0
}

// apart are the distances to the other marks, to check a cane by.
func (g ground) apart(marks []Mark, m Mark) []Tie {
	var out []Tie
	for _, o := range marks {
		if o.Name != m.Name && distance(o.At, m.At) <= LongestTape && g.clear(o.At, m.At) {
			out = append(out, Tie{o.Name, g.taped(o.At, m.At)})
		}
	}
	return out
}
