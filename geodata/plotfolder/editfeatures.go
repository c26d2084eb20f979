package plotfolder

import (
	"cmp"
	"fmt"
	"slices"

	"crossfall/geodata"

	"github.com/paulmach/orb"
)

// FeatureEdit is a change of one drawn shape, found by its kind and its name; the
// boundary is found by its kind alone.
type FeatureEdit struct {
	Kind geodata.Kind
	Name string
	// Put is written in the place of the shape, or as a new one; nil takes the
	// shape out. Its Shape and Heights are in the frame of the plot; a Name or Kind
	// of its own renames the shape.
	Put *geodata.Fixture
	// Boundary is the outer ring of the boundary, in place of Put, in the frame of
	// the plot; it need not come back to its first corner.
	Boundary []orb.Point
}

// EditFeatures changes what is drawn: in plot.geojson or features.csv where the
// shape stands, else in features.csv, or plot.geojson where there is only that,
// and makes features.csv where there is neither. Everything else in the file is
// kept as it stands, remarks and members that are not read too; the file's own
// coordinates, units, delimiter and columns are used, and columns for properties
// that it has none for are added. A shape that is put in the place of another
// says what Put says and nothing that the other said, but for members of
// GeoJSON that are not read.
//
// In features.csv what is an area and what a line is told by the kind and the
// corners, as in all of it: an obstacle of three corners or more is an area,
// unless it is a hedge, a fence or the like.
//
// seen is the Fingerprint of the files that the change was thought out for; with
// another one now the error is ErrChanged. What comes of the change is read
// before it is written: what is wrong with it is told as geodata.Faults and
// nothing is written. Each file is written whole or not at all, and the version
// before is kept as NAME.before.
func EditFeatures(dir, seen string, edits []FeatureEdit) error {
	unlock, err := lockPlot(dir)
	if err != nil {
		return err
	}
	defer unlock()
	if err := asSeen(dir, seen); err != nil {
		return err
	}
	d, err := openDesk(dir)
	if err != nil {
		return err
	}
	for _, e := range edits {
		if err := d.edit(e); err != nil {
			return err
		}
	}
	if err := d.check(); err != nil {
		return err
	}
	return d.write()
}

// edit makes one change in the texts of the files.
func (d *desk) edit(e FeatureEdit) error {
	if err := e.check(); err != nil {
		return err
	}
	inTable, inJSON, err := d.count(e)
	if err != nil {
		return err
	}
	switch found := inTable + inJSON; {
	case found > 1:
		return e.fault("feature-ambiguous", fmt.Sprintf("there are %d of this kind and name", found), "give each its own name in the file first")
	case found == 0 && !e.puts():
		return e.fault("feature-not-there", "there is no such feature", "name one that is drawn")
	case e.renames():
		to := FeatureEdit{Kind: cmp.Or(e.Put.Kind, e.Kind), Name: cmp.Or(e.Put.Name, e.Name)}
		if a, b, err := d.count(to); err != nil || a+b > 0 {
			return cmp.Or(err, to.fault("feature-ambiguous", "there is one of this kind and name already", "give it another name"))
		}
	}
	switch found := inTable + inJSON; {
	case inJSON == 1 || found == 0 && d.table == nil && d.json != nil:
		return d.editJSON(e)
	}
	return d.editTable(e)
}

func (e FeatureEdit) puts() bool { return e.Put != nil || e.Boundary != nil }

// renames tells whether the shape gets another kind or name.
func (e FeatureEdit) renames() bool {
	return e.Put != nil && (e.Put.Kind != "" && e.Put.Kind != e.Kind || e.Put.Name != "" && e.Put.Name != e.Name)
}

// count counts the shapes that are meant in either file.
func (d *desk) count(e FeatureEdit) (inTable, inJSON int, err error) {
	if inTable, err = d.countInTable(e); err == nil {
		inJSON, err = d.countInJSON(e)
	}
	return inTable, inJSON, err
}

// check refuses a change that says nothing that could be drawn.
func (e FeatureEdit) check() error {
	isBoundary := e.Kind == geodata.BoundaryKind
	switch {
	case !slices.Contains(geodata.Kinds(), e.Kind):
		return e.fault("kind-unknown", "this is not a kind of feature", didYouMean(string(e.Kind), kindNames()))
	case isBoundary && e.Put != nil || !isBoundary && e.Boundary != nil:
		return e.fault("feature-wrong", "the boundary is a ring, and other features are not", "give the boundary by its corners alone")
	case e.Put == nil:
		return nil
	case e.Put.Kind == geodata.BoundaryKind:
		return e.fault("feature-wrong", "a feature does not become the boundary", "draw the boundary as such")
	case e.Name == "" && e.Put.Name == "":
		return e.fault("feature-nameless", "the feature has no name", "give it a name that no other of its kind has")
	}
	return nil
}

func (e FeatureEdit) fault(code, message, want string) error {
	return geodata.Faults{{Code: code, Pos: geodata.Pos{File: featuresFile}, Read: fmt.Sprintf("%s %q", e.Kind, e.Name), Message: message, Want: want}}
}

// is tells whether a shape is the one that is meant.
func (e FeatureEdit) is(kind geodata.Kind, name string) bool {
	return kind == e.Kind && (name == e.Name || kind == geodata.BoundaryKind)
}

// newShape is a shape that is to be written.
type newShape struct {
	geodata.Fixture // without its Shape and Heights
	form            form
	rings           [][]corner // in the coordinates of the file; of an area closed
}

// shape is what is to be written in a file of degrees or metres. was is the name
// that the boundary had.
func (d *desk) shape(e FeatureEdit, lonLat bool, was string) (newShape, error) {
	out := newShape{}
	if lonLat && !d.systems.degrees {
		return out, e.fault("no-origin", "the file is in longitude and latitude, and no place is known yet that metres could count from", "give a height or a feature with its longitude and latitude first")
	}
	var g orb.Geometry
	if e.Put != nil {
		out.Fixture, g = *e.Put, e.Put.Shape
		out.Kind, out.Name = cmp.Or(out.Kind, e.Kind), cmp.Or(out.Name, e.Name)
	} else {
		out.Kind, out.Name = e.Kind, cmp.Or(e.Name, was, "plot")
		g = orb.Polygon{geodata.CloseRing(e.Boundary)}
	}
	var rings [][]orb.Point
	switch g := g.(type) {
	case orb.Point:
		out.form, rings = pointForm, [][]orb.Point{{g}}
	case orb.LineString:
		out.form, rings = lineForm, [][]orb.Point{g}
	case orb.Polygon:
		out.form = areaForm
		for _, ring := range g {
			rings = append(rings, geodata.CloseRing(ring))
		}
	default:
		return out, e.fault("feature-wrong", "the feature is neither a point, a line nor an area", "draw it as one of them")
	}
	out.place(rings, func(p orb.Point) orb.Point { return d.systems.fromPlot(p, lonLat, d.heightsLonLat) })
	if len(out.rings) == 0 || len(out.rings[0]) == 0 {
		return out, e.fault("feature-wrong", "the feature has no corners", "say where it is")
	}
	return out, nil
}
