package relief

import (
	"context"
	"fmt"
)

// SlopeRaster is the slope at every node of a raster, in memory.
type SlopeRaster struct {
	Cols, Rows int
	// Fall is the tangent of the slope angle and Facing the bearing of
	// steepest descent in radians clockwise from the +y axis, both as a
	// RowSink gets them, row by row from the south. One not asked for is nil.
	Fall, Facing []float32
}

// SlopesOf takes the slope at every node of a raster in memory. The error is
// that of Raster.Check or of the context.
func SlopesOf(ctx context.Context, r *Raster, opt SlopeRowsOptions) (*SlopeRaster, error) {
	if err := r.Check(); err != nil {
		return nil, fmt.Errorf("slopes: %w", err)
	}
	s := newSlopeRaster(r.Cols, r.Rows, opt.Want)
	opt.NorthFirst = false // a raster has its southern row first
	if err := SlopeRows(ctx, r, s, opt); err != nil {
		return nil, err
	}
	return s, nil
}

func newSlopeRaster(cols, rows int, want Wanted) *SlopeRaster {
	s := &SlopeRaster{Cols: cols, Rows: rows}
	if want != FacingOnly {
		s.Fall = make([]float32, cols*rows)
	}
	if want != FallOnly {
		s.Facing = make([]float32, cols*rows)
	}
	return s
}

// WriteRows makes a SlopeRaster a RowSink.
func (s *SlopeRaster) WriteRows(first int, fall, facing []float32) error {
	if s.Fall != nil {
		copy(s.Fall[first*s.Cols:], fall)
	}
	if s.Facing != nil {
		copy(s.Facing[first*s.Cols:], facing)
	}
	return nil
}
