package levelbook

import (
	"math"

	"github.com/paulmach/orb"
)

// GridWalk is a grid of stations walked line by line from a corner.
type GridWalk struct {
	Corner     orb.Point
	Towards    orb.Point // a place that the first line points to
	Along      float64   // spacing on a line, metres
	Across     float64   // spacing of the lines, metres
	Nodes      int       // stations on a line
	Lines      int
	Side       Side // on which the other lines lie, seen along the first
	Serpentine bool // every second line was walked backwards
}

// Node is the place in the grid of the n-th station walked, from 0: line and
// position on it, both from 0.
func (g GridWalk) Node(n int) (line, along int) {
	if g.Nodes < 1 {
		return 0, 0
	}
	line, along = n/g.Nodes, n%g.Nodes
	if g.Serpentine && line%2 == 1 {
		along = g.Nodes - 1 - along
	}
	return line, along
}

// Places are the places of the stations in walking order; nil when the corner
// and the place it points to are one.
func (g GridWalk) Places() []orb.Point {
	out := make([]orb.Point, 0, g.Nodes*g.Lines)
	for n := range g.Nodes * g.Lines {
		line, along := g.Node(n)
		offset := float64(line) * g.Across
		if g.Side == RightSide {
			offset = -offset
		}
		p, ok := Offset(g.Corner, g.Towards, float64(along)*g.Along, offset)
		if !ok {
			return nil
		}
		out = append(out, p)
	}
	return out
}

// ReversedLines finds lines of a grid that were most likely booked backwards:
// heights holds for each line its heights in grid order, NaN where there are
// none, and sigma is the standard deviation of one height, metres. Neighbours
// across two lines differ less when one of them is turned round. A line is
// named only when turning it more than halves the root mean square of these
// differences, and that was over three times what errors of reading alone give
// (defaults of ours). Of two ways to name lines the one that names fewer is
// taken, then the one that leaves the first line as it is. Lines count from 0.
func ReversedLines(heights [][]float64, sigma float64) []int {
	turned := make([]bool, len(heights))
	count := 0
	for i := 1; i < len(heights); i++ {
		turned[i] = turned[i-1] != turnsBetter(heights[i-1], heights[i], sigma)
		if turned[i] {
			count++
		}
	}
	name := 2*count <= len(heights)
	var out []int
	for i, t := range turned {
		if t == name && count > 0 {
			out = append(out, i)
		}
	}
	return out
}

// turnsBetter compares two lines as they are and with the second turned round.
func turnsBetter(a, b []float64, sigma float64) bool {
	straight, turned, n := 0.0, 0.0, 0
	mean := meanDifference(a, b) // the fall across the lines is no evidence
	for i := range a {
		if i >= len(b) || len(a) != len(b) {
			return false
		}
		s, t := a[i]-b[i]-mean, a[i]-b[len(b)-1-i]-mean
		if math.IsNaN(s) || math.IsNaN(t) {
			continue
		}
		straight, turned, n = straight+s*s, turned+t*t, n+1
	}
	if n < 3 {
		return false
	}
	noise := 3 * sigma * math.Sqrt2
	return straight/float64(n) > noise*noise && turned < straight/4
}

// meanDifference is the mean of a less b over the places where both are.
func meanDifference(a, b []float64) float64 {
	sum, n := 0.0, 0.0
	for i := range min(len(a), len(b)) {
		if d := a[i] - b[i]; !math.IsNaN(d) {
			sum, n = sum+d, n+1
		}
	}
	return sum / max(n, 1)
}
