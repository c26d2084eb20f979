package surface

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// Pair is two points of the ground.
type Pair struct{ From, To orb.Point }

// Question is something to be settled by more heights.
//
// With Limits it is a decision that changes where the fall crosses one of them.
// The fall is that of a mean gradient: over the pairs, the least-squares
// gradient through their rises (pairs from edge to edge of a bed give the
// bed's); without pairs, the mean of the gradients at Points. Pairs that all
// lie in one direction ask the fall along it, from From to To.
//
// Without Limits it asks how well the height is known over Points, as a volume
// or a row of boards does.
type Question struct {
	Name   string
	Pairs  []Pair
	Points []orb.Point
	Limits []float64 // falls, ratios
	Says   string    // what an answer would settle, for people; default Name
}

// says is the wording of what an answer settles.
func (q Question) says() string {
	if q.Says == "" {
		return q.Name
	}
	return q.Says
}

// check refuses what cannot be asked.
func (q Question) check() error {
	points := append([]orb.Point(nil), q.Points...)
	for _, p := range q.Pairs {
		if p.From == p.To {
			return fmt.Errorf("question %q: a pair of points at one place %v", q.Name, p.From)
		}
		points = append(points, p.From, p.To)
	}
	for _, p := range points {
		if !finite(p) {
			return fmt.Errorf("question %q: point %v is not finite", q.Name, p)
		}
	}
	for _, l := range q.Limits {
		if math.IsNaN(l - l) {
			return fmt.Errorf("question %q: limit %v is not finite", q.Name, l)
		}
	}
	switch {
	case len(q.Limits) > 0 && len(points) == 0:
		return fmt.Errorf("question %q: no points to ask the fall at", q.Name)
	case len(q.Limits) == 0 && len(q.Points) == 0:
		return fmt.Errorf("question %q: neither limits of the fall nor points to ask the height at", q.Name)
	}
	return nil
}

// term is one asked figure with its weight in a sum.
type term struct {
	asked
	weight float64
}

// figure is what a decision hangs on, as sums of asked figures.
type figure struct {
	terms [2][]term // the second empty where there is one only
	belief
}

// figureOf makes the figure of a question with limits.
func figureOf(a asker, q Question) figure {
	var f figure
	if len(q.Pairs) > 0 {
		f.fromPairs(a, q.Pairs)
	} else {
		for _, p := range q.Points {
			g, _ := a.GradientAt(p)
			w := 1 / float64(len(q.Points))
			f.mean[0] += w * g.East
			f.mean[1] += w * g.North
			f.terms[0] = append(f.terms[0], term{a.ask(p, eastPart), w})
			f.terms[1] = append(f.terms[1], term{a.ask(p, northPart), w})
		}
	}
	for i := range 2 {
		for j := range i + 1 {
			for _, t := range f.terms[i] {
				f.cov[i][j] += f.with(a, j, t.asked) * t.weight
			}
			f.cov[j][i] = f.cov[i][j]
		}
	}
	return f
}

// with is the covariance of part i with another asked figure.
func (f *figure) with(a asker, i int, x asked) float64 {
	sum := 0.0
	for _, t := range f.terms[i] {
		sum += t.weight * a.covariance(t.asked, x)
	}
	return sum
}

// oneDirection is the ratio of the spreads of pairs across and along their main
// direction under which they tell the fall along it only.
const oneDirection = 1e-3

// fromPairs is the least-squares gradient through the rises of pairs, (sum
// d d')^-1 sum d rise, or the fall along them.
func (f *figure) fromPairs(a asker, pairs []Pair) {
	var s square
	steps := make([]orb.Point, len(pairs))
	for i, p := range pairs {
		d := orb.Point{p.To[0] - p.From[0], p.To[1] - p.From[1]}
		steps[i] = d
		s[0][0] += d[0] * d[0]
		s[0][1] += d[0] * d[1]
		s[1][1] += d[1] * d[1]
	}
	s[1][0] = s[0][1]
	ax := axesOf(s)
	if f.alone = ax.thin < oneDirection*ax.wide; f.alone {
		along := 1.0
		if steps[0][0]*ax.east+steps[0][1]*ax.north < 0 {
			along = -1
		}
		for i, p := range pairs {
			w := along * (steps[i][0]*ax.east + steps[i][1]*ax.north) / (ax.wide * ax.wide)
			f.addRise(a, 0, p, -w)
		}
		return
	}
	det := s[0][0]*s[1][1] - s[0][1]*s[0][1]
	for i, p := range pairs {
		d := steps[i]
		f.addRise(a, 0, p, (s[1][1]*d[0]-s[0][1]*d[1])/det)
		f.addRise(a, 1, p, (s[0][0]*d[1]-s[0][1]*d[0])/det)
	}
}

// addRise adds a multiple of the rise from From to To to part i.
func (f *figure) addRise(a asker, i int, p Pair, weight float64) {
	from, _ := a.HeightAt(p.From)
	to, _ := a.HeightAt(p.To)
	f.mean[i] += weight * (to - from)
	f.terms[i] = append(f.terms[i], term{a.ask(p.To, heightPart), weight}, term{a.ask(p.From, heightPart), -weight})
}
