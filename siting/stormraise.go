package siting

import (
	"fmt"
	"math"

	"crossfall/siting/frame"

	"github.com/paulmach/orb/planar"
)

// samePlace is how far a bed may lie from where the storm met it, m.
const samePlace = 0.05

// judgedYears is the return period of the storm that classes are raised by: that
// which edges are judged by.
const judgedYears = 10

// raise decides beds anew by the depth of water that a current storm brings to
// them where that is more than the sheet they were decided by. A class may only
// rise: a bed that would come out milder stays.
func (j judge) raise(decided []decision, s *Storm) {
	if s == nil || s.State(j.plot) != StormCurrent {
		return
	}
	for _, played := range s.Storms {
		if played.ReturnYears != judgedYears || played.Runs < stormRuns {
			continue
		}
		for i, d := range decided {
			for _, at := range played.AtBeds {
				if at.Bed == d.bed.Name && planar.Distance(at.At, d.bed.Centre) <= samePlace {
					decided[i] = j.raised(d, at.Depth.Value/1000)
				}
			}
		}
	}
}

// raised is one bed decided with water of a depth, m, where that makes its class
// graver.
func (j judge) raised(d decision, depth float64) decision {
	if d.chosen.Class == frame.DoNotBuild || depth <= d.runOn.flow.Depth.Value {
		return d
	}
	j.stormDepth = depth
	again := j.settle(d.bed)
	if again.chosen.Class.Severity() <= d.chosen.Class.Severity() {
		return d
	}
	again.stormDepth = depth
	again.raisedBy = fmt.Sprintf("raised from %s by the storm played over the plot, which brings %.0f mm of water to it on the mean over half a metre",
		d.chosen.Class, math.Round(depth*1000))
	return again
}
