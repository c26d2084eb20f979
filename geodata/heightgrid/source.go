package heightgrid

import (
	"context"
	"math"

	"github.com/paulmach/orb"

	"crossfall/geodata"
)

// Source is an opened file of heights. It holds no heights itself; its methods
// may be called from several goroutines. A GeoTIFF is unpacked on all cores.
type Source struct {
	name string
	opened
}

// opened is what a format's reader knows of a file; lengths are in the unit of
// the file until Source turns them into metres.
type opened struct {
	format string
	ref    Reference
	noData float64 // NaN when the file names none
	notes  geodata.Faults

	// A grid has a place and cells.
	place lattice
	// cells fills z with the window's heights, NaN where there is none, each
	// passed through the tidier once.
	cells func(ctx context.Context, w window, z []float64, t *tidier) (geodata.Faults, error)

	// A cloud of points has an extent, a count and points.
	extent orb.Bound
	count  int64
	points func(ctx context.Context, within orb.Bound) ([]Point, geodata.Faults, error)
}

// Info is what a file says of itself.
type Info struct {
	Format     string    // "text grid", "list of x, y, z", "GeoTIFF" or "LAS"
	Scattered  bool      // points without rows and columns
	Cols, Rows int       // 0 when Scattered
	Origin     orb.Point // centre of the south-western cell
	CellX      float64   // width of a cell; 0 when Scattered
	CellY      float64   // height of a cell; 0 when Scattered
	Points     int64     // number of points when Scattered
	// Bound is the outer edge of the cells, or the extent of the points. For
	// LAS it is what the file's header claims.
	Bound  orb.Bound
	NoData float64 // the mark of a missing height as it stands in the file; NaN when none is named
	Reference
	Notes geodata.Faults // what a person must know: unit assumed, degrees
}

// Point is one height of a cloud.
type Point struct {
	At     orb.Point // metres, or degrees when the Raster is Geographic
	Height float64   // metres
}

// Raster is the heights of a window. For a grid it has cells in Z; for
// scattered points Cols and Rows are 0, Z is nil and Points holds them in the
// order of the file.
type Raster struct {
	Origin       orb.Point // centre of the south-western cell, metres, or degrees when Geographic
	CellX, CellY float64   // spacing of cells, over 0
	Cols, Rows   int
	Z            []float64 // metres, len Cols*Rows, row by row from the south; NaN where there is none
	Points       []Point
	Reference
	Missing int // cells without a height, or points that were left out for want of one
	Notes   geodata.Faults
}

// Info gives what the file says of itself.
func (s *Source) Info() Info {
	u := s.ref.metres()
	info := Info{
		Format: s.format, Scattered: s.cells == nil, NoData: s.noData,
		Reference: s.ref, Bound: scaled(s.extent, u), Points: s.count,
	}
	if s.cells != nil {
		info.Cols, info.Rows, info.Points = s.place.cols, s.place.rows, 0
		info.Origin = orb.Point{s.place.origin[0] * u, s.place.origin[1] * u}
		info.CellX, info.CellY = s.place.dx*u, s.place.dy*u
		info.Bound = scaled(s.place.bound(), u)
	}
	info.Notes = append(info.Notes, s.notes...)
	info.Notes = append(info.Notes, s.ref.notes()...)
	located(s.name, info.Notes)
	return info
}

// Window reads the cells that overlap a bound, or the points within it. The
// bound is in metres (degrees when Geographic); a bound without area gives the
// cell it lies in. A window over the edge of the file gives what the file has.
// Faults: window-empty when the bound is upside down or holds nothing of the
// file, window-too-large over geodata.MostCells or geodata.MostCloudPoints, and those of the format.
func (s *Source) Window(ctx context.Context, bound orb.Bound) (*Raster, error) {
	if !(bound.Min[0] <= bound.Max[0] && bound.Min[1] <= bound.Max[1]) { // written so that NaN fails too
		return nil, faultsOf(s.name, refuse("window-empty", "the window's corners are not south-west and north-east", "give the lower left and the upper right corner"))
	}
	bound = scaled(bound, 1/s.ref.metres())
	if s.cells == nil {
		return s.cloud(ctx, bound)
	}
	w, ok := s.place.window(bound)
	if !ok {
		return nil, faultsOf(s.name, refuse("window-empty", "the window lies outside the grid", "compare the coordinates of the plot with those of the grid"))
	}
	return s.grid(ctx, w)
}

// All reads every cell or point of the file, within the limits of Window.
func (s *Source) All(ctx context.Context) (*Raster, error) {
	if s.cells == nil {
		inf := math.Inf(1)
		return s.cloud(ctx, orb.Bound{Min: orb.Point{-inf, -inf}, Max: orb.Point{inf, inf}})
	}
	return s.grid(ctx, window{cols: s.place.cols, rows: s.place.rows})
}

// grid reads a window of cells.
func (s *Source) grid(ctx context.Context, w window) (*Raster, error) {
	if int64(w.cols)*int64(w.rows) > geodata.MostCells {
		return nil, faultsOf(s.name, tooLarge(int64(w.cols)*int64(w.rows), "cells", geodata.MostCells))
	}
	if err := ctx.Err(); err != nil {
		return nil, faultsOf(s.name, err)
	}
	info := s.Info()
	r := &Raster{
		CellX: info.CellX, CellY: info.CellY, Cols: w.cols, Rows: w.rows,
		Origin: orb.Point{
			info.Origin[0] + float64(w.col)*info.CellX,
			info.Origin[1] + float64(w.row)*info.CellY,
		},
		Reference: s.ref, Notes: info.Notes,
	}
	z := make([]float64, w.cols*w.rows)
	t := tidier{rise: s.ref.rise(), mark: s.noData}
	notes, err := s.cells(ctx, w, z, &t)
	if err != nil {
		return nil, faultsOf(s.name, err)
	}
	r.Z, r.Missing = z, t.missing
	r.Notes = append(r.Notes, notes...)
	r.noteOutside(t.outside, "cells")
	located(s.name, r.Notes)
	return r, nil
}

// cloud reads the points within a bound in the file's unit.
func (s *Source) cloud(ctx context.Context, within orb.Bound) (*Raster, error) {
	if err := ctx.Err(); err != nil {
		return nil, faultsOf(s.name, err)
	}
	points, notes, err := s.points(ctx, within)
	if err != nil {
		return nil, faultsOf(s.name, err)
	}
	r := &Raster{Points: points, Reference: s.ref, Notes: s.Info().Notes}
	r.Notes = append(r.Notes, notes...)
	r.tidyPoints(s.ref.metres(), s.ref.rise())
	located(s.name, r.Notes)
	if len(r.Points) == 0 {
		return nil, faultsOf(s.name, refuse("window-empty", "there is no height in the window", "compare the coordinates of the plot with those of the file"))
	}
	return r, nil
}
