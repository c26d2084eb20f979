package plan

import (
	"crossfall/siting"

	"github.com/paulmach/orb"
)

// Clearance is the outline of the ground to be kept free around a service, as the
// plan hatches it: its outer ring, then rings within it that are free again; none
// for other features. Its bends are drawn with chords.
func Clearance(f siting.Feature) [][]orb.Point {
	if f.ClearanceM <= 0 {
		return nil
	}
	return buffer(f, f.ClearanceM)
}
