package siting

import (
	"fmt"
	"math"

	"crossfall/siting/caution"
	"crossfall/terrain/drainage"

	"github.com/paulmach/orb"
	"github.com/paulmach/orb/planar"
)

// Water counts as gathered where so many times more of it passes a metre of
// contour than on an even slope of the same length, and at least as much as
// comes off an even slope of gatheredLeast metres; defaults of ours.
const (
	gatheredTimes = 4.0
	gatheredLeast = 20.0
)

// gathered are the stretches of the runoff paths where water runs together, by
// the specific catchment area along each. On uneven ground of which not enough
// is known there are none.
func (j judge) gathered() []caution.Runoff {
	var out []caution.Runoff
	if j.fit.Uneven {
		return out
	}
	for _, start := range inflow(j.plot.Boundary, j.field) {
		path, area := drainage.SpecificCatchment(j.field, start, j.pathOptions())
		if line := gatheredPart(path.Points, area); len(line) > 1 {
			out = append(out, caution.Runoff{Name: fmt.Sprintf("gathered runoff %d", len(out)+1), Line: line})
		}
	}
	return out
}

// gatheredPart is a path from where its water has gathered on.
func gatheredPart(points []orb.Point, area []float64) orb.LineString {
	run := 0.0
	for i, a := range area {
		if i > 0 {
			run += planar.Distance(points[i-1], points[i])
		}
		if a >= math.Max(gatheredLeast, gatheredTimes*run) {
			return orb.LineString(points[i:])
		}
	}
	return nil
}

// crossed is the first stop for a bed that gathered runoff crosses.
func (j judge) crossed(works []caution.Work) []caution.Caution {
	all := caution.Crossed(j.gather, works)
	return all[:min(1, len(all))]
}
