package drainage

import (
	"github.com/paulmach/orb"
)

// RunOn is how far up the slope the ground above a bed reaches.
type RunOn struct {
	Mean    float64 // metres in plan along the steepest ascent, each path counting by its width
	Longest float64 // metres
	Width   float64 // of the bed's upslope side, measured across the fall, metres
	// RisesAtEdge tells that some path ends at the plot's edge with the ground
	// still rising: water from beyond the plot is not counted.
	RisesAtEdge bool
	// Unclear is the share, 0 to 1, of the outline where the ground has no
	// clear direction or from where the path up was lost.
	Unclear float64
}

// RunOnLength follows the ground up from a bed's outline to the edge of the
// plot, from a point each .2 m along every part of the outline where the
// ground outside is higher. bed is a closed ring. opt.Plot is not used;
// opt.Enters may mark a wall, a ditch or other beds that cut the slope short.
// On a plane, Mean times Width is the area that drains on to the bed.
//
// A bed on ground without a direction gives zeros and an Unclear of 1, as does
// a bed or plot without an inside.
func RunOnLength(f Field, bed orb.Ring, plot orb.Polygon, opt Options) RunOn {
	if !usable(bed, plot) {
		return RunOn{Unclear: 1}
	}
	opt = kept(orb.Polygon{bed}, plot, opt)
	var r RunOn
	var total, unclear, swept float64
	for _, s := range pieces(f, bed, opt) {
		total += s.length()
		if !s.clear {
			unclear += s.length()
		}
		if !s.upslope() {
			continue
		}
		path := Uphill(f, s.middle(), opt)
		if path.lost() {
			unclear += s.length()
		}
		r.RisesAtEdge = r.RisesAtEdge || path.End == LeavesPlot
		r.Longest = max(r.Longest, path.Length)
		r.Width += s.width
		swept += s.width * path.Length
	}
	if r.Width > 0 {
		r.Mean = swept / r.Width
	}
	r.Unclear = unclear / total
	return r
}
