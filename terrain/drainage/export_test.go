package drainage

import (
	"math"

	"crossfall/terrain"
	"crossfall/terrain/relief"
)

// Direction is the steepest way down from the middle of a window by Tarboton's
// triangles, and the fall on it. ok is false when no neighbour is lower.
func Direction(w relief.Window, cell float64) (downhill terrain.Bearing, fall float64, ok bool) {
	f, ok := steepestFacet(w, cell)
	if !ok {
		return 0, 0, false
	}
	toDiagonal := 1. // clockwise
	if (f.diagonal+8-f.side)%8 == 7 {
		toDiagonal = -1
	}
	return terrain.Bearing(float64(f.side)*math.Pi/4 + toDiagonal*f.turn).Normal(), f.fall, true
}
