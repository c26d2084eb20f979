package geodata

import "github.com/paulmach/orb"

// Hillside is the ground above and around a plot, on a lattice in the plot's
// frame. Its heights are brought to the datum of the plot's by a shift and are
// for following water from beyond the plot only: never part of the plot's fit.
type Hillside struct {
	Origin     orb.Point // of the south-western node, metres
	Cell       float64   // spacing of nodes, metres
	Cols, Rows int
	Z          []float64 // metres, row by row from the south; NaN for no height

	// Shift was taken from the hillside's heights to bring them to the plot's:
	// the weighted median difference at the plot's own heights. ShiftError is its standard
	// error and Worst the greatest departure from it, metres.
	Shift, ShiftError, Worst float64
	Overlap                  int // heights of the plot that the hillside covers
	Source                   Pos
}

// Bound is the extent of the lattice.
func (h *Hillside) Bound() orb.Bound {
	return orb.Bound{Min: h.Origin, Max: orb.Point{
		h.Origin[0] + float64(h.Cols-1)*h.Cell, h.Origin[1] + float64(h.Rows-1)*h.Cell,
	}}
}
