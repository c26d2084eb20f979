package plotfolder

import (
	"bytes"
	"path/filepath"
	"slices"
	"strings"

	"crossfall/geodata"
)

// unreadFormat is a format that people have and that no reader here reads, with
// the way out of it by a general tool.
type unreadFormat struct {
	name       string
	extensions []string
	start      string // first bytes; empty when others begin alike
	want       string
}

// unreadFormats lists the formats that are refused by name.
func unreadFormats() []unreadFormat {
	return []unreadFormat{
		{"GeoPackage", []string{".gpkg"}, "SQLite format 3\x00", "turn it into GeoJSON, such as with: ogr2ogr -t_srs EPSG:4326 NAME.geojson NAME.gpkg"},
		{"Esri shapefile", []string{".shp", ".shx", ".dbf"}, "\x00\x00\x27\x0a", "turn it into GeoJSON, such as with: ogr2ogr -t_srs EPSG:4326 NAME.geojson NAME.shp"},
		{"compressed point cloud (LAZ)", []string{".laz"}, "", "decompress it to LAS, such as with: pdal translate NAME.laz NAME.las"},
		{"DWG drawing", []string{".dwg"}, "", "save the drawing as DXF in ASCII, also called text"},
		{"spreadsheet", []string{".xlsx", ".xls", ".ods"}, "\xd0\xcf\x11\xe0", "save the sheet as CSV"},
		{"netCDF or HDF5 file", []string{".nc", ".h5"}, "\x89HDF", "turn it into a GeoTIFF, such as with: gdal_translate NAME.nc NAME.tif"},
	}
}

// wayOut is the advice with the stem of a file's name put in.
func (u unreadFormat) wayOut(name string) string {
	return strings.ReplaceAll(u.want, "NAME", strings.TrimSuffix(name, filepath.Ext(name)))
}

// unreadByName finds the format that an extension, in small letters, stands for.
func unreadByName(ext string) (unreadFormat, bool) {
	all := unreadFormats()
	i := slices.IndexFunc(all, func(u unreadFormat) bool { return slices.Contains(u.extensions, ext) })
	if i < 0 {
		return unreadFormat{}, false
	}
	return all[i], true
}

// unreadByBytes finds the format that some bytes are of, whatever the name.
func unreadByBytes(data []byte) (unreadFormat, bool) {
	all := unreadFormats()
	i := slices.IndexFunc(all, func(u unreadFormat) bool { return u.start != "" && bytes.HasPrefix(data, []byte(u.start)) })
	if i < 0 {
		return unreadFormat{}, false
	}
	return all[i], true
}

// refuseFormat refuses heights in a format that is not read.
func refuseFormat(name string, u unreadFormat, c *collector) {
	c.problem(geodata.Pos{File: name}, "format-not-read", "", "this is a "+u.name+", which is not read", u.wayOut(name))
}

// leftOut warns of files that mean something to the grower and are not read.
func leftOut(name, lower string, c *collector) {
	ext := filepath.Ext(lower)
	stem := strings.TrimSuffix(lower, ext)
	meant := slices.Contains([]string{heightsStem, "hillside", "plot", "features", "levels", "ties", "rain", "site"}, stem)
	if !meant || ext == ".prj" {
		return
	}
	u, known := unreadByName(ext)
	switch {
	case known:
		c.warn(geodata.Pos{File: name}, "file-not-read", "", "this is a "+u.name+": it is not read", u.wayOut(name))
	case stem == "hillside":
		c.warn(geodata.Pos{File: name}, "file-not-read", "", "ground around the plot is not read in this format", "give it as hillside.asc, .xyz, .tif or .las")
	}
}
