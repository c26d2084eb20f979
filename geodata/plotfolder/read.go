package plotfolder

import (
	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// Options says how to read. The zero value works.
type Options struct {
	// Columns names the columns of a file of heights without a header, in their
	// order, by words that a header may have: point, north, east, height, note.
	// Default: name, x, y, z.
	Columns []string
	// MostBytes is the size over which a file is refused. Default 64 MiB.
	MostBytes int64
}

// Read reads a plot folder, or a single file of heights. With a Problem in the
// input the plot is nil and the error is a geodata.Faults with every problem
// and warning, in order of file, line and column; else warnings and notes are
// in Plot.Notes. Files are named in faults as they are called in the folder.
//
// A file named alone is read alone: site.toml and features beside it are not
// looked for.
func Read(path string, opt Options) (*geodata.Plot, error) {
	if opt.MostBytes <= 0 {
		opt.MostBytes = geodata.MostFileBytes
	}
	var c collector
	return assemble(load(path, opt, &c), opt, &c)
}

// file is one file of the folder in memory.
type file struct {
	name   string
	data   []byte
	format format // of a file of heights
	// projection is what the .prj file beside a height grid says; empty without one.
	projection string
}

// inputs are the files of one plot; nil for those that are not there.
type inputs struct {
	heights, levels, ties, geoJSON, features, site, rain *file
	hillside                                             string // path of the ground around; it may be large and is read by window
}

// assemble makes the plot of the files. The site comes first, since it says
// what the coordinates of the others mean.
func assemble(in inputs, opt Options, c *collector) (*geodata.Plot, error) {
	p := &geodata.Plot{}
	if in.site != nil {
		p.Site = readSite(in.site, c)
		p.Name = p.Site.Name
	}
	elsewhere := c.problems // those that do not touch what was measured
	shapes := readShapes(in, p.Site, c)
	s := readHeights(in, settings{opt: opt, site: p.Site}, shapes, c)
	sound := (in.heights != nil || in.ties != nil) && c.problems == elsewhere
	if in.rain != nil {
		p.Rain = readRain(in.rain, c)
	}
	if sound { // faults in the wishes or the rain do not hide those of the plot
		build(p, s, shapes, c)
	}
	if sound && in.hillside != "" && len(p.Boundary) > 0 {
		joinHillside(p, in.hillside, c)
	}
	if c.problems > 0 {
		return nil, c.err()
	}
	p.Notes = c.notes()
	return p, nil
}

// readShapes reads what is drawn.
func readShapes(in inputs, site geodata.Site, c *collector) []drawn {
	var shapes []drawn
	if in.geoJSON != nil {
		shapes = append(shapes, readGeoJSON(in.geoJSON, site, c)...)
	}
	if in.features != nil {
		shapes = append(shapes, readFeatures(in.features, site, c)...)
	}
	if !checkShapes(shapes, c) {
		return nil
	}
	return shapes
}

// readHeights reads the heights, the level book that they may lean on, and the
// ties.
func readHeights(in inputs, with settings, shapes []drawn, c *collector) survey {
	if in.heights == nil && in.ties == nil {
		return survey{}
	}
	before := c.problems
	with.within, with.withinLonLat = drawnBound(shapes)
	if in.levels != nil {
		with.levels = readLevels(in.levels, with.site, c)
		with.bookFails = with.levels == nil
	}
	s := survey{file: tiesFile}
	if in.heights != nil {
		s = in.heights.format.read(in.heights, with, c)
	}
	if in.ties != nil {
		s.spots = append(s.spots, readTies(in.ties, with, shapes, c)...)
		if s.lonLat {
			c.problem(geodata.Pos{File: tiesFile}, "mixed-coordinates", "", "ties are in metres and the heights in longitude and latitude", "give the heights in metres too")
		}
	}
	checkHeights(s, c)
	if with.levels != nil && c.problems == before {
		with.levels.tellUnused(c)
	}
	return s
}

// drawnBound is the extent of the drawn boundary; zero without one.
func drawnBound(shapes []drawn) (b orb.Bound, lonLat bool) {
	for _, d := range shapes {
		if d.Kind != geodata.BoundaryKind {
			continue
		}
		for i, p := range d.parts {
			if i == 0 {
				b = p.at.Bound()
			}
			b = b.Extend(p.at)
		}
		return b, d.lonLat
	}
	return b, false
}

// settings is what the reader of heights needs beside the file.
type settings struct {
	opt    Options
	site   geodata.Site
	levels *stations // nil without a level book
	// bookFails is true when there is a level book that cannot be used.
	bookFails bool
	// within is the extent of the drawn boundary, in degrees or metres as it was
	// drawn; zero without one.
	within       orb.Bound
	withinLonLat bool
}

// build brings everything into one frame and checks that it fits together.
func build(p *geodata.Plot, s survey, shapes []drawn, c *collector) {
	if !settleFrame(p, &s, shapes, c) {
		return
	}
	if !checkOnePlace(s, c) || !checkTwoUnits(s, c) {
		return
	}
	before := c.problems
	p.Spots = mergeRepeats(s.spots, readingSigma(p.Site), c)
	if checkExtent(p.Spots, shapes, c) { // a slip far out makes the rest look like a line
		checkSpread(p.Spots, s.file, c)
	}
	finishShapes(p, shapes, c)
	if c.problems == before {
		settleBoundary(p, s.file, c)
	}
}
