package kml

import (
	"bytes"
	"fmt"
	"slices"

	"crossfall/geodata"
	"crossfall/geodata/internal/textfile"
	"crossfall/geodata/internal/xmlscan"
)

// Options says how to read. The zero value works.
type Options struct {
	// MostBytes is the size of the KML inside a KMZ archive over which it is
	// refused. Default 64 MiB.
	MostBytes int64
}

// roots are the elements that a file may begin with; only the first is right,
// the others are met where programs cut a piece out of a file.
var roots = []string{"kml", "Document", "Folder", "Placemark"}

// Sniff tells whether a file is KML or a zip archive, which KMZ is.
func Sniff(data []byte) bool {
	return isZip(data) || slices.Contains(roots, xmlscan.Root(data))
}

func isZip(data []byte) bool { return bytes.HasPrefix(data, []byte("PK\x03\x04")) }

// Read reads a KML file or a KMZ archive; name is what faults call it. Lines
// and columns in a KMZ archive are those of the KML inside. The corner of an
// area that repeats its first is left out. With a problem among the faults
// there are no points.
func Read(data []byte, name string, opt Options) (geodata.RawPoints, geodata.Faults) {
	var fs textfile.Faults
	file := geodata.Pos{File: name}
	out := geodata.RawPoints{EPSG: 4326, Geographic: true}
	if opt.MostBytes <= 0 || opt.MostBytes > 1<<40 {
		opt.MostBytes = geodata.MostFileBytes
	}
	if isZip(data) {
		if data = unzip(data, file, opt, &fs); data == nil {
			return fs.Finish(file, out, "")
		}
	}
	s, ok := xmlscan.New(name, data, &fs)
	if !ok {
		return fs.Finish(file, out, "")
	}
	r := reader{Scanner: s, out: &out}
	r.all()
	r.tell()
	return fs.Finish(file, out, "save each spot as a placemark with a point")
}

// reader goes through one file.
type reader struct {
	*xmlscan.Scanner
	out    *geodata.RawPoints
	name   string   // of the open placemark
	shape  *shape   // the innermost open shape
	placed []corner // of the open placemark

	onGround, aboveGround, wholeDegrees, heights int
	firstOnGround, firstAbove, firstWhole        geodata.Pos
	modeless                                     []string // altitude modes that are not known
}

// all goes through the elements.
func (r *reader) all() {
	for {
		e, ends := r.Next()
		switch {
		case e == nil:
			r.settle()
			return
		case !ends && e.Parent == nil && !slices.Contains(roots, e.Name):
			r.Faults.Problem(e.Pos, "not-kml", "<"+e.Name+">", "the file is XML, but not KML", "export the points as KML 2.2")
			return
		case !ends:
			r.begin(e)
		default:
			r.end(e)
		}
		if len(r.out.Points)+len(r.placed) > geodata.MostPoints {
			r.Faults.TooMany(e.Pos)
			return
		}
	}
}

// begin opens a placemark or a shape.
func (r *reader) begin(e *xmlscan.Element) {
	switch kind := shapes[e.Name]; {
	case e.Name == "Placemark":
		r.settle()
		r.name = ""
	case kind != "":
		r.shape = &shape{element: e, kind: kind, within: r.shape}
	}
}

// end takes what an element says, and closes a placemark or a shape.
func (r *reader) end(e *xmlscan.Element) {
	inPlacemark := e.Parent != nil && e.Parent.Name == "Placemark"
	switch {
	case e.Name == "Placemark":
		r.settle()
	case e.Name == "name" && inPlacemark:
		r.name = e.Word()
	case r.shape == nil:
	case e == r.shape.element:
		r.shape = r.shape.within
	case e.Parent != r.shape.element:
	case e.Name == "altitudeMode":
		r.shape.mode, r.shape.modePos = e.Word(), r.TextPos(e)
	case e.Name == "coordinates":
		r.tuples(e)
	case e.Name == "coord":
		r.trackPlace(e)
	}
}

// settle makes points of the placemark's corners. It waits for the placemark's
// end, since an altitude mode may stand behind the coordinates.
func (r *reader) settle() {
	for _, c := range r.placed {
		p := geodata.RawPoint{Name: r.name, X: c.numbers[0], Y: c.numbers[1], Kind: c.of.kind, Source: c.pos}
		if len(c.numbers) == 3 {
			p.Height, p.HasHeight = r.height(c)
		}
		if p.HasHeight {
			r.heights++
		}
		r.out.Points = append(r.out.Points, p)
	}
	r.placed = nil
}

// tell adds what was met in many points once.
func (r *reader) tell() {
	if r.onGround > 0 {
		r.Faults.Warn(r.firstOnGround, "kml-altitude-on-ground", "",
			textfile.Count(r.onGround, "altitude")+" other than 0 at places that the file lays on the ground: taken as heights",
			"check them against a height that you know")
	}
	if r.aboveGround > 0 {
		r.Faults.Warn(r.firstAbove, "kml-altitude-above-ground", "",
			textfile.Count(r.aboveGround, "altitude")+" counted from the ground or the sea floor: not taken, since they say nothing of the height of the ground",
			"export the points with absolute altitudes")
	}
	if r.wholeDegrees > 0 {
		r.Faults.Warn(r.firstWhole, "kml-whole-degrees", "",
			textfile.Count(r.wholeDegrees, "place")+" in whole degrees: a comma may have been written for a decimal point",
			"write decimals with a point, as in -3.5,50.7")
	}
	if r.heights > 0 {
		r.Faults.Note(r.File(), "kml-heights-origin",
			fmt.Sprintf("%s from KML: it does not say how they were taken. From a phone they are commonly off by 10 m, from a map of the earth they are heights of its coarse model of the ground", textfile.Count(r.heights, "height")))
	}
}
