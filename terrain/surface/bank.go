package surface

import (
	"math"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"

	"crossfall/geodata"
)

// bankShare is how far a height on a bank may lie off the straight line from
// its toe to its crest, as a share of the rise; a default of ours.
const bankShare = 0.25

// edgeMarks are the marked heights on the lines of one kind around a face.
type edgeMarks struct {
	lines []bool // by line
	marks []int  // heights
}

// banks marks the faces that are banks: between a line whose marks are all top,
// the crest, and a lower one whose marks are all toe, with no height in it that
// contradicts a straight slope from one to the other. A terrace between two
// walls is flat and so does.
func (s *sorting) banks() []bool {
	out := make([]bool, len(s.faces))
	for f := range s.faces {
		crest, toe := s.edge(f, geodata.Top), s.edge(f, geodata.Toe)
		out[f] = s.rises(crest, toe) && s.straight(f, crest, toe)
	}
	return out
}

// edge is the lines around a face whose marks are all of one side.
func (s *sorting) edge(f int, side geodata.BreakSide) edgeMarks {
	lines := 0
	for _, b := range s.brinks {
		lines = max(lines, b.line+1)
	}
	around, has, other := make([]bool, lines), make([]bool, lines), make([]bool, lines)
	for _, b := range s.brinks {
		around[b.line] = around[b.line] || b.left == f || b.right == f
	}
	for i, h := range s.spots {
		if s.near[i] >= 0 && h.Side != geodata.NoSide {
			line := s.brinks[s.near[i]].line
			has[line] = has[line] || h.Side == side
			other[line] = other[line] || h.Side != side
		}
	}
	e := edgeMarks{lines: make([]bool, lines)}
	for l := range e.lines {
		e.lines[l] = around[l] && has[l] && !other[l]
	}
	for i, h := range s.spots {
		if s.near[i] >= 0 && h.Side == side && e.lines[s.brinks[s.near[i]].line] {
			e.marks = append(e.marks, i)
		}
	}
	return e
}

// rises tells whether there are a crest and a toe and the crest is the higher.
func (s *sorting) rises(crest, toe edgeMarks) bool {
	mean := func(e edgeMarks) float64 {
		sum := 0.0
		for _, i := range e.marks {
			sum += s.spots[i].Height
		}
		return sum / float64(len(e.marks)) // NaN without any, which rises over nothing
	}
	return mean(crest) > mean(toe)+leastStep
}

// straight tells whether the heights inside a face lie near the straight slope
// from the nearest mark of its toe to that of its crest.
func (s *sorting) straight(f int, crest, toe edgeMarks) bool {
	for _, i := range s.plain[f] {
		p := s.spots[i].At
		top, foot := s.nearestMark(crest, p), s.nearestMark(toe, p)
		up, down := s.toEdge(f, crest, p), s.toEdge(f, toe, p)
		want := foot + (top-foot)*down/(up+down)
		if !(math.Abs(s.spots[i].Height-want) <= math.Max(leastStep, bankShare*(top-foot))) {
			return false
		}
	}
	return true
}

// nearestMark is the height of the mark nearest to a point.
func (s *sorting) nearestMark(e edgeMarks, p orb.Point) float64 {
	best := e.marks[0]
	for _, i := range e.marks {
		if planar.Distance(s.spots[i].At, p) < planar.Distance(s.spots[best].At, p) {
			best = i
		}
	}
	return s.spots[best].Height
}

// toEdge is the distance from a point to the nearest of the lines of an edge
// where they bound a face.
func (s *sorting) toEdge(f int, e edgeMarks, p orb.Point) float64 {
	d := math.Inf(1)
	for _, b := range s.brinks {
		if e.lines[b.line] && (b.left == f || b.right == f) {
			d = math.Min(d, planar.DistanceFromSegment(b.from, b.to, p))
		}
	}
	return d
}
