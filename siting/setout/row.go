package setout

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/paulmach/orb"
)

// offString is how far an uphill corner may lie off the string of its row, m:
// a default of ours. What it lies off is told, so nothing is lost.
const offString = 0.05

// longestString is the longest string of one row, m: a default of ours, what a
// line holds straight without a post between.
const longestString = 30.0

// line is a string between two places.
type line struct {
	from, to orb.Point
	along    orb.Point // unit vector
}

func lineOf(from, to orb.Point) line { return line{from, to, unit(from, to)} }

// running and off are where a place lies: along the string from its left end,
// and square to it, downhill positive. Uphill is to the left of the string's
// direction, because it runs from left to right looking uphill.
func (l line) running(p orb.Point) float64 {
	return (p[0]-l.from[0])*l.along[0] + (p[1]-l.from[1])*l.along[1]
}

func (l line) off(p orb.Point) float64 {
	return (p[0]-l.from[0])*l.along[1] - (p[1]-l.from[1])*l.along[0]
}

// at is the place of a running distance and an offset downhill.
func (l line) at(running, off float64) orb.Point {
	return orb.Point{
		l.from[0] + l.along[0]*running + l.along[1]*off,
		l.from[1] + l.along[1]*running - l.along[0]*off,
	}
}

// rows gathers beds into rows: each bed not yet in one takes in the beds of its
// line, nearest first, as long as every uphill corner stays on the string.
func (g ground) rows(beds []Input) [][]Input {
	var out [][]Input
	taken := make([]bool, len(beds))
	for i, seed := range beds {
		if taken[i] {
			continue
		}
		taken[i] = true
		row := []Input{seed}
		l := lineOf(seed.Corners[0], seed.Corners[1])
		middle := distance(seed.Corners[0], seed.Corners[1]) / 2
		for _, k := range nearest(l, middle, beds) {
			if taken[k] {
				continue
			}
			if longer, ok := g.joined(row, beds[k]); ok {
				row, taken[k] = longer, true
			}
		}
		out = append(out, row)
	}
	return out
}

// farOff is how far off the line of a bed of usual length others of its row may
// lie, m: the string turns as they are joined, but by no more than offString
// allows over that length.
const farOff = 1.5

// nearest are the places in the list of the beds that may lie on a line,
// nearest to a running distance of it first.
func nearest(l line, from float64, beds []Input) []int {
	var out []int
	away := make([]float64, len(beds))
	for i, b := range beds {
		if math.Abs(l.off(b.Corners[0])) < farOff && lineOf(b.Corners[0], b.Corners[1]).alike(l) {
			away[i] = math.Abs((l.running(b.Corners[0])+l.running(b.Corners[1]))/2 - from)
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(away[a], away[b]) })
	return out
}

// alike says whether two strings run the same way within about five degrees.
func (l line) alike(m line) bool { return l.along[0]*m.along[0]+l.along[1]*m.along[1] > .996 }

// joined is a row with one bed more, if all then lie on one string.
func (g ground) joined(row []Input, more Input) ([]Input, bool) {
	l := lineOf(row[0].Corners[0], row[0].Corners[1])
	all := append(slices.Clone(row), more)
	slices.SortStableFunc(all, func(a, b Input) int { return cmp.Compare(l.running(a.Corners[0]), l.running(b.Corners[0])) })
	l = rowLine(all)
	if distance(l.from, l.to) > longestString {
		return nil, false
	}
	end := math.Inf(-1)
	for _, b := range all {
		if math.Abs(l.off(b.Corners[0])) > offString || math.Abs(l.off(b.Corners[1])) > offString {
			return nil, false
		}
		from, to := l.running(b.Corners[0]), l.running(b.Corners[1])
		if from < end-1e-6 || to <= from {
			return nil, false
		}
		end = to
	}
	return all, g.clear(l.from, l.to)
}

// rowLine is the string of a row sorted from the left.
func rowLine(row []Input) line {
	return lineOf(row[0].Corners[0], row[len(row)-1].Corners[1])
}

// tapeRow is how one row is taped and strung.
func (g ground) tapeRow(name string, marks []Mark, row []Input) Row {
	l := rowLine(row)
	r := Row{Name: name, String: g.taped(l.from, l.to), Beds: []Along{}}
	r.Ends[0], r.Ends[1] = g.tied(marks, "left end", l.from), g.tied(marks, "right end", l.to)
	variance := math.Pow(TapeError(r.String.Distance), 2)
	for i, e := range r.Ends {
		if len(e.Ties) > 0 {
			r.Checks[i] = g.checked(marks, e)
		}
		variance += e.cov.along(l.along)
	}
	r.Allowed = normal95 * math.Sqrt(variance)
	for _, b := range row {
		a := Along{Bed: b.Name}
		for i, c := range b.Corners[:2] {
			a.Off[i] = 1000 * l.off(c)
			running := l.running(c)
			t := Taped{running, g.taut(l.from, l.at(running, 0))}
			if i == 0 {
				a.From = t
			} else {
				a.To = t
			}
		}
		r.Beds = append(r.Beds, a)
	}
	return r
}

// tied says whether both ends of the row can be taped.
func (r Row) tied() bool { return len(r.Ends[0].Ties) > 0 && len(r.Ends[1].Ties) > 0 }

// fromTheTop puts rows in order of the ground's height at their middle, highest
// first, and names them; without heights they stay as they are.
func (g ground) fromTheTop(rows [][]Input) [][]Input {
	if g.height == nil {
		return rows
	}
	high := func(row []Input) float64 {
		l := rowLine(row)
		return g.height(l.at(distance(l.from, l.to)/2, 0))
	}
	slices.SortStableFunc(rows, func(a, b []Input) int { return cmp.Compare(high(b), high(a)) })
	return rows
}

func rowName(i int) string { return fmt.Sprintf("row %d", i+1) }
