package relief

import (
	"math"

	"crossfall/terrain"
)

// Around is the window of a node, with NaN for neighbours that are missing.
func Around(g *terrain.Grid, col, row int) Window {
	var w Window
	for i := range w {
		w[i] = g.At(col+i%3-1, row+1-i/3)
	}
	return w
}

// Whole reports whether all nine heights of the window are known.
func (w Window) Whole() bool {
	for _, z := range w {
		if !known(z) {
			return false
		}
	}
	return true
}

// opposite pairs every neighbour with the one across the node.
func opposite(i int) int { return 8 - i }

// corners lists each corner of the window with the two heights that carry on
// to it from inside: along its column, then along its row; then its two sides.
var corners = [...]struct{ at, columnNear, columnFar, rowNear, rowFar int }{
	{0, 3, 6, 1, 2}, {2, 5, 8, 1, 0}, {6, 3, 0, 7, 8}, {8, 5, 2, 7, 6},
}

// Extend fills the missing heights of a window by carrying on in straight
// lines from those inside, which leaves the gradient of a plane exact. ok is
// false when the node itself is missing or when both neighbours north and
// south, or east and west, are: then one part of the gradient is unknown.
// Common practice at grid edges; no source.
func (w Window) Extend() (full Window, ok bool) {
	full = w
	if !known(w[4]) {
		return full, false
	}
	for _, i := range [...]int{1, 3, 5, 7} {
		if known(w[i]) {
			continue
		}
		if !known(w[opposite(i)]) {
			return full, false
		}
		full[i] = 2*w[4] - w[opposite(i)]
	}
	for _, c := range corners {
		switch {
		case known(w[c.at]):
		case known(w[c.columnNear]) && known(w[c.columnFar]):
			full[c.at] = 2*w[c.columnNear] - w[c.columnFar]
		case known(w[c.rowNear]) && known(w[c.rowFar]):
			full[c.at] = 2*w[c.rowNear] - w[c.rowFar]
		default:
			full[c.at] = full[c.rowNear] + full[c.columnNear] - w[4]
		}
	}
	return full, true
}

// known reports whether a height is a number.
func known(z float64) bool { return !math.IsNaN(z) && !math.IsInf(z, 0) }
