package export

import (
	"math"

	"github.com/paulmach/orb"
)

// Point is one named place: to be put on the ground, or looked up.
type Point struct {
	Name   string    // as it is called on the sheet, such as "Bed 1 uphill left"
	Kind   string    // what it is, such as "mark", "bed corner" or "peg"
	Note   string    // what to know there; may be empty
	At     orb.Point // m, in the plot's frame
	Height float64   // of the ground, m above the survey's datum; NaN: not known
}

// hasHeight tells whether the height is known.
func (p Point) hasHeight() bool { return !math.IsNaN(p.Height) && !math.IsInf(p.Height, 0) }
