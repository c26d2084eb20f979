package plotfolder

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"math"

	"crossfall/geodata"
	"crossfall/geodata/heightgrid"
	"crossfall/geodata/mapgrid"

	"github.com/paulmach/orb"
)

// gridSigma is the standard deviation taken for a height of a ground model, m,
// where site.toml names none: the middle of 5 to 10 cm for recent airborne
// laser surveys (from memory); England's composite model states 15 cm. A
// default of ours.
const gridSigma = 0.05

// gridRim is how far round the boundary cells are taken, m.
const gridRim = 5.0

// sniffGrid leaves it to the reader to say what kind of grid it is, but for
// text that begins as no grid does.
func sniffGrid(data []byte) bool { return len(data) > 0 && data[0] != '<' && data[0] != '{' }

// readHeightsGrid reads a height grid or a cloud of points as many spot heights.
func readHeightsGrid(f *file, s settings, c *collector) survey {
	out := survey{file: f.name}
	source, err := heightgrid.Open(bytes.NewReader(f.data), int64(len(f.data)), f.name)
	if err != nil {
		gridFaults(f, err, c)
		return out
	}
	if f.projection != "" {
		if err := source.ReadProjection(f.projection); err != nil {
			gridFaults(f, err, c)
			return out
		}
	}
	out.lonLat = source.Info().Geographic
	if code := source.Info().EPSG; !out.lonLat {
		if _, err := mapgrid.ByCode(code); !errors.Is(err, mapgrid.ErrUnknownCode) { // of others the file's own unit is enough
			out.epsg = code
		}
	}
	raster, err := window(source, s)
	if err != nil {
		gridFaults(f, err, c)
		return out
	}
	c.addAll(raster.Notes)
	out.spots = gridSpots(f, raster, c)
	warnRoofs(f, raster, c)
	if s.site.Ground.Precision == nil {
		for i := range out.spots {
			out.spots[i].Sigma = gridSigma
		}
		c.note(geodata.Pos{File: f.name}, "grid-precision", fmt.Sprintf("heights of a ground model are taken as good to %.0f mm, one standard deviation; "+
			"ground.reading_precision_mm in site.toml says otherwise", gridSigma*1000))
	}
	checkAllEqual(out, c)
	return out
}

// window reads the cells about the boundary where one is drawn in the grid's own
// coordinates, else all.
func window(source *heightgrid.Source, s settings) (*heightgrid.Raster, error) {
	if !s.within.IsZero() && s.withinLonLat == source.Info().Geographic && s.within.Intersects(source.Info().Bound) {
		rim := gridRim
		if s.withinLonLat {
			rim = gridRim / metresPerDegree
		}
		return source.Window(context.Background(), s.within.Pad(rim))
	}
	return source.All(context.Background())
}

// metresPerDegree is about the length of a degree of latitude, for a rim only.
const metresPerDegree = 111_000

func gridFaults(f *file, err error, c *collector) {
	var faults geodata.Faults
	if errors.As(err, &faults) {
		c.addAll(faults)
		return
	}
	c.problem(geodata.Pos{File: f.name}, "cannot-read", "", err.Error(), "")
}

// gridSpots makes spot heights of cells or points, thinned where they are many.
func gridSpots(f *file, r *heightgrid.Raster, c *collector) []geodata.SpotHeight {
	var out []geodata.SpotHeight
	put := func(name string, at orb.Point, z float64) {
		if checkHeight(z, geodata.Pos{File: f.name}, fmt.Sprintf("%g", z), c) {
			out = append(out, geodata.SpotHeight{Name: name, At: at, Height: z, Readings: 1, Source: geodata.Pos{File: f.name}})
		}
	}
	if r.Z == nil {
		step := (len(r.Points) + geodata.MostHeights - 1) / geodata.MostHeights
		for i := 0; i < len(r.Points); i += max(1, step) {
			put(fmt.Sprintf("point %d", i+1), r.Points[i].At, r.Points[i].Height)
		}
		tellThinned(f, max(1, step), len(r.Points), c)
		return out
	}
	step := int(math.Ceil(math.Sqrt(float64(r.Cols*r.Rows) / geodata.MostHeights)))
	for row := 0; row < r.Rows; row += max(1, step) {
		for col := 0; col < r.Cols; col += max(1, step) {
			z := r.Z[row*r.Cols+col]
			if math.IsNaN(z) {
				continue
			}
			at := orb.Point{r.Origin[0] + float64(col)*r.CellX, r.Origin[1] + float64(row)*r.CellY}
			put(fmt.Sprintf("cell %d,%d", col+1, row+1), at, z)
		}
	}
	tellThinned(f, max(1, step), r.Cols*r.Rows, c)
	return out
}

// Steps between neighbouring cells that no lawn makes, m, as far apart as the
// cells at most, m, and the share of pairs from which roofs and crowns are
// suspected: defaults of ours.
const (
	roofStep  = 1.5
	roofCell  = 2.5
	roofShare = 0.005
)

// warnRoofs suspects a model of the surface, with roofs and trees, where a model
// of the ground was wanted.
func warnRoofs(f *file, r *heightgrid.Raster, c *collector) {
	if r.Z == nil || r.Geographic || r.CellX > roofCell || r.CellY > roofCell {
		return
	}
	steps, pairs := 0, 0
	count := func(a, b float64) {
		if math.IsNaN(a) || math.IsNaN(b) {
			return
		}
		pairs++
		if math.Abs(a-b) > roofStep {
			steps++
		}
	}
	for i := range r.Z {
		if i%r.Cols+1 < r.Cols {
			count(r.Z[i], r.Z[i+1])
		}
		if i+r.Cols < len(r.Z) {
			count(r.Z[i], r.Z[i+r.Cols])
		}
	}
	if pairs > 0 && float64(steps) > roofShare*float64(pairs) {
		c.warn(geodata.Pos{File: f.name}, "surface-model-suspected", "", fmt.Sprintf("%d of %d neighbouring cells differ by more than %.1f m: this may be a model of roofs and trees, not of the ground", steps, pairs, roofStep),
			"ask the supplier for the terrain model, without buildings and plants")
	}
}

func tellThinned(f *file, step, of int, c *collector) {
	if step > 1 {
		c.note(geodata.Pos{File: f.name}, "grid-thinned", fmt.Sprintf("of %d heights one in %d was taken each way: draw a boundary in the grid's coordinates for all of those about the plot", of, step))
	}
}
