package plotfolder

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/dxf"
	"crossfall/geodata/gpx"
	"crossfall/geodata/kml"
	"crossfall/geodata/landxml"
	"crossfall/geodata/wkt"
)

// format is one way in which heights can be given. To read another one, add
// an entry to formats and take its own out of unreadFormats.
type format struct {
	name       string
	extensions []string
	sniff      func(data []byte) bool // whether the bytes can be of this format
	read       func(f *file, s settings, c *collector) survey
}

// formats is the table of formats of heights, in the order in which they are
// tried.
func formats() []format {
	return []format{
		{"GeoJSON", []string{".geojson", ".json"}, sniffJSON, readHeightsJSON},
		{"GPX", []string{".gpx"}, gpx.Sniff, readHeightsGPX},
		{"KML", []string{".kml", ".kmz"}, kml.Sniff, readHeightsKML},
		{"LandXML", []string{".xml", ".landxml"}, landxml.Sniff, readHeightsLandXML},
		{"DXF", []string{".dxf"}, dxf.Sniff, readHeightsDXF},
		{"WKT", []string{".wkt", ".wkb"}, wkt.Sniff, readHeightsWKT},
		{"CSV", []string{".csv", ".txt", ".tsv"}, sniffTable, readHeightsCSV},
		{gridFormat, []string{".asc", ".grd", ".xyz", ".tif", ".tiff", ".las"}, sniffGrid, readHeightsGrid},
	}
}

const gridFormat = "height grid"

// adviceCSV is what to do about heights in a format that is not read.
const adviceCSV = "give the heights as heights.csv with the columns name, x, y and z"

// load reads the files of a folder, or one file of heights, into memory.
func load(path string, opt Options, c *collector) inputs {
	info, err := os.Stat(path)
	name := filepath.Base(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		c.problem(geodata.Pos{File: name}, "not-there", "", "there is no file or folder "+name,
			"check the spelling; a plot is a folder with heights.csv in it, or a file of heights")
		return inputs{}
	case err != nil:
		c.problem(geodata.Pos{File: name}, "cannot-read", "", "it cannot be read: "+reason(err), "")
		return inputs{}
	case info.IsDir():
		return loadFolder(path, opt, c)
	}
	return inputs{heights: loadHeights(path, opt, c)}
}

// names of the files of a plot folder besides the heights.
const (
	geoJSONFile  = "plot.geojson"
	featuresFile = "features.csv"
	siteFile     = "site.toml"
	rainFile     = "rain.csv"
	heightsStem  = "heights"
)

// loadFolder reads every file of a plot folder that has a meaning, whatever
// the case of its name.
func loadFolder(path string, opt Options, c *collector) (in inputs) {
	entries, err := os.ReadDir(path)
	if err != nil {
		c.problem(geodata.Pos{File: filepath.Base(path)}, "cannot-read", "", "the folder cannot be read: "+reason(err), "")
		return in
	}
	var heights, unread []string
	slot := map[string]**file{levelsFile: &in.levels, tiesFile: &in.ties, geoJSONFile: &in.geoJSON, featuresFile: &in.features, siteFile: &in.site, rainFile: &in.rain}
	for _, e := range entries { // in order of their names
		name, lower := e.Name(), strings.ToLower(e.Name())
		switch into := slot[lower]; {
		case e.IsDir():
			if into != nil || isHillside(lower) || isHeights(lower) {
				c.problem(geodata.Pos{File: name}, "is-a-folder", "", name+" is a folder, not a file", "give it another name, or put the file itself in its place")
			}
		case into != nil && *into != nil:
			c.problem(geodata.Pos{File: name}, "file-twice", "", "there are two files "+lower, "keep one of them")
		case into != nil:
			*into = loadFile(filepath.Join(path, name), opt, c)
		case isHillside(lower):
			in.hillside = filepath.Join(path, name)
		case isHeights(lower):
			heights = append(heights, name)
		case strings.HasPrefix(lower, heightsStem+"."):
			unread = append(unread, name)
		default:
			leftOut(name, lower, c)
		}
	}
	if len(heights) == 0 && in.ties == nil {
		if known := slices.DeleteFunc(unread, func(n string) bool { _, known := unreadByName(filepath.Ext(strings.ToLower(n))); return !known }); len(known) > 0 {
			heights, unread = known[:1], nil // a shapefile comes as several files
		}
	}
	for _, name := range unread {
		leftOut(name, strings.ToLower(name), c)
	}
	switch len(heights) {
	case 0:
		if in.ties != nil || c.problems > 0 { // a folder of that name may have been meant
			break
		}
		c.problem(geodata.Pos{File: heightsStem + ".csv"}, "no-heights", "", "the folder has no file of heights", adviceCSV)
	case 1:
		in.heights = loadHeights(filepath.Join(path, heights[0]), opt, c)
	default:
		c.problem(geodata.Pos{File: heights[1]}, "two-heights-files", "",
			"the folder has more than one file of heights: "+strings.Join(heights, ", "), "keep one of them")
	}
	return in
}

// isHeights tells whether a name is heights in a format that is read.
func isHeights(lower string) bool {
	ext := filepath.Ext(lower)
	if strings.TrimSuffix(lower, ext) != heightsStem {
		return false
	}
	return slices.ContainsFunc(formats(), func(f format) bool { return slices.Contains(f.extensions, ext) })
}

// loadHeights reads a file of heights and finds its format: by extension where
// the bytes allow it, else by the bytes.
func loadHeights(path string, opt Options, c *collector) *file {
	name := filepath.Base(path)
	lower := strings.ToLower(name)
	ext := filepath.Ext(lower)
	switch {
	case slices.Contains([]string{featuresFile, siteFile, rainFile}, lower):
		c.problem(geodata.Pos{File: name}, "not-heights", "", "this file holds no heights", "name the folder that it is in, or a file of heights")
		return nil
	}
	if u, known := unreadByName(ext); known {
		refuseFormat(name, u, c)
		return nil
	}
	f := loadFile(path, opt, c)
	if f == nil {
		return nil
	}
	if u, known := unreadByBytes(f.data); known {
		refuseFormat(name, u, c)
		return nil
	}
	for _, byName := range []bool{true, false} {
		for _, format := range formats() {
			if (!byName || slices.Contains(format.extensions, ext)) && format.sniff(f.data) {
				f.format = format
				if text, err := readAtMost(strings.TrimSuffix(path, filepath.Ext(path))+".prj", mostProjection); err == nil && format.name == gridFormat {
					f.projection = string(text)
				}
				return f
			}
		}
	}
	c.problem(geodata.Pos{File: name}, "format-not-known", "", "this is no file of heights that can be read", adviceCSV)
	return nil
}
