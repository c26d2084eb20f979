package plotfolder

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"slices"
	"strings"
	"unicode/utf8"

	"crossfall/geodata"
)

// desk is a plot folder with its files of features laid open for changing.
type desk struct {
	dir           string
	in            inputs
	site          geodata.Site
	systems       systems
	heightsLonLat bool
	table, json   *openText // features.csv and plot.geojson; nil for one that is not there
}

// openText is one file of features as it is being changed.
type openText struct {
	name   string
	was    []byte // as it stands on disk; nil for one that is not there yet
	text   string // without the mark that it may begin with
	marked bool
	empty  bool // nothing is drawn in it any more: it is taken away
}

// bytes is the file as it is to stand.
func (o *openText) bytes() []byte {
	if o.marked {
		return []byte(markUTF8 + o.text)
	}
	return []byte(o.text)
}

// openDesk reads a plot folder for changing its features. The error is
// geodata.Faults when they cannot be read as text, or not be joined to the heights.
func openDesk(dir string) (*desk, error) {
	var elsewhere, c collector
	opt := Options{MostBytes: geodata.MostFileBytes}
	d := &desk{dir: dir, in: load(dir, opt, &elsewhere)}
	d.in.hillside, d.in.rain = "", nil
	var err error
	if d.table, err = openFile(dir, featuresFile); err != nil {
		return nil, err
	}
	if d.json, err = openFile(dir, geoJSONFile); err != nil {
		return nil, err
	}
	if d.in.site != nil {
		d.site = readSite(d.in.site, &elsewhere)
	}
	shapes := readShapes(d.in, d.site, &elsewhere)
	s := readHeights(d.in, settings{opt: opt, site: d.site}, shapes, &elsewhere)
	s.followShapes(shapes)
	d.heightsLonLat = s.lonLat
	var ok bool
	if d.systems, ok = joinSystems(&s, shapes, &c); !ok {
		return nil, c.err()
	}
	return d, nil
}

// openFile reads one file of features; nil for one that is not there.
func openFile(dir, name string) (*openText, error) {
	o := &openText{name: tableNamed(dir, name)}
	data, err := readAtMost(filepath.Join(dir, o.name), geodata.MostFileBytes)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, fmt.Errorf("read %s: %s", o.name, reason(err))
	case !utf8.Valid(data):
		return nil, geodata.Faults{{Code: "not-utf-8", Pos: geodata.Pos{File: o.name}, Message: "the file is not in UTF-8 and is not changed", Want: "save it as UTF-8 first"}}
	}
	o.was = data
	o.text, o.marked = strings.CutPrefix(string(data), markUTF8)
	return o, nil
}

// followShapes takes a plot that has no heights yet as being in the coordinates of
// what is drawn, where that is all in one system.
func (s *survey) followShapes(shapes []drawn) {
	if len(s.spots) > 0 || len(shapes) == 0 {
		return
	}
	s.lonLat = !slices.ContainsFunc(shapes, func(d drawn) bool { return !d.lonLat })
}

// changed is the files that are not as they stand on disk.
func (d *desk) changed() (out []*openText) {
	for _, o := range []*openText{d.json, d.table} {
		if o != nil && (o.empty || o.was == nil || string(o.was) != string(o.bytes())) {
			out = append(out, o)
		}
	}
	return out
}

// check reads what comes of the changes: every fault in the changed files is told,
// and of those elsewhere the ones that were not there before.
func (d *desk) check() error {
	changed := d.changed()
	var now collector
	in := d.in
	for _, o := range changed {
		into := &in.features
		if o == d.json {
			into = &in.geoJSON
		}
		*into = &file{name: o.name, data: o.bytes()}
		if o.empty {
			*into = nil
		}
	}
	checkDrawn(in, &now)
	var before collector
	var out geodata.Faults
	for _, f := range now.faults {
		if f.Severity != geodata.Problem {
			continue
		}
		if slices.ContainsFunc(changed, func(o *openText) bool { return o.name == f.Pos.File }) {
			out.Add(f)
			continue
		}
		if before.faults == nil {
			checkDrawn(d.in, &before)
		}
		if !slices.ContainsFunc(before.faults, func(o geodata.Fault) bool { return o.Code == f.Code && o.Message == f.Message && o.Pos == f.Pos }) {
			out.Add(f)
		}
	}
	out.Sort()
	return out.Err()
}

// checkDrawn reads what is drawn and how it lies to the heights, as Read does,
// without asking whether those are enough.
func checkDrawn(in inputs, c *collector) {
	p := &geodata.Plot{}
	if in.site != nil {
		p.Site = readSite(in.site, c)
	}
	shapes := readShapes(in, p.Site, c)
	s := readHeights(in, settings{opt: Options{MostBytes: geodata.MostFileBytes}, site: p.Site}, shapes, c)
	s.followShapes(shapes)
	if !settleFrame(p, &s, shapes, c) {
		return
	}
	p.Spots = s.spots
	checkExtent(p.Spots, shapes, c)
	before := c.problems
	finishShapes(p, shapes, c)
	if len(p.Spots) >= leastHeights && c.problems == before {
		settleBoundary(p, s.file, c)
	}
}

// write puts the changed files in place.
func (d *desk) write() error {
	for _, o := range d.changed() {
		path := filepath.Join(d.dir, o.name)
		var err error
		if o.empty {
			err = takeAway(path, o.was)
		} else {
			err = writeAtomic(path, o.was, o.bytes())
		}
		if err != nil {
			return err
		}
	}
	return nil
}
