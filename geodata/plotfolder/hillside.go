package plotfolder

import (
	"context"
	"fmt"
	"math"
	"path/filepath"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/heightgrid"

	"github.com/paulmach/orb"
)

// Defaults of ours for the ground around a plot.
const (
	hillsideReach   = 150.0 // m round the plot that are read
	hillsideCell    = 2.0   // m, least spacing of the lattice kept: finer laser ground is noise to a path of water
	fewestOverlap   = 3     // heights of the plot that must lie on it
	mostDisagree    = 0.3   // m: half the heights may depart no more from the median difference
	metresPerDegLat = 111_320.0
	mostProjection  = 1 << 20 // bytes of a .prj file
)

// hillsideExtensions are the files that the ground around may come as.
var hillsideExtensions = []string{".asc", ".grd", ".tif", ".tiff", ".xyz", ".las"}

// isHillside tells whether a name is that of the ground around.
func isHillside(lower string) bool {
	ext := filepath.Ext(lower)
	return strings.TrimSuffix(lower, ext) == "hillside" && slices.Contains(hillsideExtensions, ext)
}

// joinHillside reads the ground around the plot and brings it to the plot's
// frame and datum. What cannot be joined is refused with what to measure; the
// plot itself stands without it.
func joinHillside(p *geodata.Plot, path string, c *collector) {
	name := filepath.Base(path)
	at := geodata.Pos{File: name}
	refuse := func(message, want string) { c.problem(at, "hillside-not-joined", "", message, want) }
	f, size, err := openPlain(path)
	if err != nil {
		c.problem(at, "cannot-read", "", "the file cannot be read: "+reason(err), "")
		return
	}
	defer f.Close()
	if size > geodata.MostHillsideBytes {
		c.problem(at, "file-too-large", bytesSaid(size), "the file is larger than "+bytesSaid(geodata.MostHillsideBytes),
			fmt.Sprintf("cut out the part around the plot, %.0f m each way, or give cells of %.0f m", hillsideReach, hillsideCell))
		return
	}
	source, err := heightgrid.Open(f, size, name)
	if err != nil {
		gridFaults(&file{name: name}, err, c)
		return
	}
	if text, err := readAtMost(strings.TrimSuffix(path, filepath.Ext(path))+".prj", mostProjection); err == nil {
		if err := source.ReadProjection(string(text)); err != nil {
			gridFaults(&file{name: name}, err, c)
			return
		}
	}
	to, how, why := wayTo(p, source.Info())
	if why != "" {
		refuse(why, adviceHillside)
		return
	}
	if source.Info().Scattered {
		refuse("it is a cloud of points without rows and columns", "make a grid of it first")
		return
	}
	raster, err := source.Window(context.Background(), to.bound(p.Boundary.Bound().Pad(hillsideReach)))
	if err != nil {
		gridFaults(&file{name: name}, err, c)
		return
	}
	h := resample(p, raster, to)
	h.Source = at
	if why := bringToPlot(p, h); why != "" {
		refuse(why, "level a few points that the ground model covers, away from banks and walls")
		return
	}
	p.Hillside = h
	c.addAll(raster.Notes)
	c.note(at, "hillside-joined", fmt.Sprintf("the ground around was brought to the plot's heights by %+.2f m, standard error %.0f mm over %d heights, worst departure %.2f m; "+
		"it is used for water from beyond the plot and is no part of the plot's own ground%s", -h.Shift, h.ShiftError*1000, h.Overlap, h.Worst, how))
}

// resample lays a lattice along the plot's axes over the ground model.
func resample(p *geodata.Plot, r *heightgrid.Raster, to way) *geodata.Hillside {
	around := p.Boundary.Bound().Pad(hillsideReach)
	cell := math.Max(r.CellX, r.CellY)
	if r.Geographic {
		cell *= metresPerDegLat
	}
	cell = math.Max(hillsideCell, cell)
	h := &geodata.Hillside{
		Origin: around.Min, Cell: cell,
		Cols: int((around.Max[0]-around.Min[0])/cell) + 1, Rows: int((around.Max[1]-around.Min[1])/cell) + 1,
	}
	h.Z = make([]float64, h.Cols*h.Rows)
	for i := range h.Z {
		q := orb.Point{around.Min[0] + float64(i%h.Cols)*cell, around.Min[1] + float64(i/h.Cols)*cell}
		h.Z[i] = math.NaN()
		if at, ok := to(q); ok {
			h.Z[i] = between(r.Origin, r.CellX, r.CellY, r.Cols, r.Rows, r.Z, at)
		}
	}
	return h
}

// between reads a raster by bilinear interpolation; NaN off it or beside a hole.
func between(origin orb.Point, dx, dy float64, cols, rows int, z []float64, at orb.Point) float64 {
	x, y := (at[0]-origin[0])/dx, (at[1]-origin[1])/dy
	if !(x >= 0 && y >= 0 && x <= float64(cols-1) && y <= float64(rows-1)) {
		return math.NaN()
	}
	c, r := min(int(x), max(0, cols-2)), min(int(y), max(0, rows-2))
	fx, fy := x-float64(c), y-float64(r)
	c1, r1 := min(c+1, cols-1), min(r+1, rows-1)
	south := z[r*cols+c]*(1-fx) + z[r*cols+c1]*fx
	north := z[r1*cols+c]*(1-fx) + z[r1*cols+c1]*fx
	return south*(1-fy) + north*fy
}
