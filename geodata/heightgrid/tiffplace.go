package heightgrid

import (
	"math"

	"github.com/paulmach/orb"
)

// lattice finds where the grid lies, by OGC 19-008r4, annex B.6: x = a·i + d
// and y = f·j + h with i, j counted in cells from the corner of the north-west
// cell, from the transformation matrix or from cell size and tie point. With
// PixelIsPoint these give the centre of that cell: half a cell is taken off.
func (t tiffFile) lattice(d directory, im *image, keys geoKeys) (lattice, error) {
	a, x, f, y, err := t.transformation(d)
	if err != nil {
		return lattice{}, err
	}
	if !keys.pixelIsPoint() {
		x, y = x+a/2, y+f/2 // from the corner to the centre
	}
	if a < 0 {
		return lattice{}, refuse("grid-mirrored", "the rows of the grid run from east to west", "export the grid with north on top")
	}
	l := lattice{origin: orb.Point{x, y}, dx: a, dy: math.Abs(f), cols: im.width, rows: im.height}
	im.southFirst = f > 0
	if !im.southFirst {
		l.origin[1] = y - l.dy*float64(im.height-1)
	}
	if !l.ok() {
		return lattice{}, notPlaced()
	}
	return l, nil
}

func notPlaced() error {
	return refuse("tiff-not-placed", "the file does not say where the grid lies and how large its cells are",
		"export it again as a GeoTIFF with its coordinates, or as a text grid")
}

// transformation gives the size of a cell and the place of the first one: x = a
// i + x0, y = f j + y0. The size f is negative when the rows run from the north.
func (t tiffFile) transformation(d directory) (a, x0, f, y0 float64, err error) {
	m, err := t.floats(d, tagTransformation)
	if err != nil {
		return
	}
	if len(m) >= 8 {
		return m[0], m[3], m[5], m[7], checkUpright(m)
	}
	size, err := t.floats(d, tagPixelScale)
	if err != nil {
		return
	}
	tie, err := t.floats(d, tagTiePoints)
	if err != nil {
		return
	}
	switch {
	case len(size) < 2 && len(tie) > 6:
		err = refuse("grid-rotated", "the grid is placed by control points, not by a corner and a cell size", "lay it on a grid with north on top (a general mapping program calls this warping)")
		return
	case len(size) < 2 || len(tie) < 6:
		err = notPlaced()
		return
	}
	// Programs that write a negative height of cells mean the same as others.
	a, f = size[0], -math.Abs(size[1])
	return a, tie[3] - tie[0]*a, f, tie[4] - tie[1]*f, nil
}

// checkUpright refuses a matrix that turns or shears.
func checkUpright(m []float64) error {
	const aslant = 1e-9 // of a cell for each cell: a millimetre over 1000 km
	if math.Abs(m[1]) > aslant*math.Abs(m[0]) || math.Abs(m[4]) > aslant*math.Abs(m[5]) {
		return refuse("grid-rotated", "the grid is turned against north", "lay it on a grid with north on top (a general mapping program calls this warping)")
	}
	return nil
}
