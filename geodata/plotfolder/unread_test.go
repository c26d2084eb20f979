package plotfolder_test

import (
	"path/filepath"
	"testing"

	"crossfall/geodata"
	"crossfall/geodata/plotfolder"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Formats that are not read are refused by their names, with a command that
// makes one that is.
func TestFormatsAreRefusedByName(t *testing.T) {
	las := append([]byte("LASF"), make([]byte, 400)...)
	las[24], las[25], las[94], las[104], las[105] = 1, 2, 227, 0x80|1, 28
	for name, c := range map[string]struct{ data, said, want string }{
		"heights.gpkg": {"SQLite format 3\x00", "GeoPackage", "ogr2ogr -t_srs EPSG:4326 heights.geojson heights.gpkg"},
		"heights.csv":  {"SQLite format 3\x00\x10\x00", "GeoPackage", "heights.geojson"},
		"heights.shp":  {"\x00\x00\x27\x0a", "shapefile", "ogr2ogr"},
		"heights.laz":  {"LASF", "LAZ", "pdal translate heights.laz heights.las"},
		"heights.las":  {string(las), "LAZ", "LAS"},
		"heights.dwg":  {"AC1027", "DWG", "DXF in ASCII"},
		"heights.dxf":  {"AutoCAD Binary DXF\r\n\x1a\x00", "binary form", "ASCII"},
		"heights.xlsx": {"PK\x03\x04", "spreadsheet", "CSV"},
		"heights.nc":   {"\x89HDF", "netCDF", "gdal_translate"},
	} {
		fs := faults(t, files{name: c.data})
		require.Len(t, fs, 1, name)
		assert.Equal(t, name, fs[0].Pos.File)
		assert.Contains(t, fs[0].Message, c.said, name)
		assert.Contains(t, fs[0].Want, c.want, name)
	}
}

func TestAFormatThatIsNotReadBesideOneThatIs(t *testing.T) {
	p := plot(t, files{"heights.csv": sound, "heights.gpkg": "SQLite", "hillside.laz": "LASF", "plot.gpkg": "SQLite"})
	assert.Equal(t, []string{"file-not-read", "file-not-read", "file-not-read"}, codes(p.Notes, geodata.Warning))
	fs := faults(t, files{"heights.dbf": "x", "heights.shp": "x", "heights.shx": "x"})
	assert.Equal(t, []string{"format-not-read"}, codes(fs, geodata.Problem))
	_, err := plotfolder.Read(filepath.Join(folder(t, files{"heights.gpkg": "SQLite"}), "heights.gpkg"), plotfolder.Options{})
	assert.ErrorContains(t, err, "GeoPackage")
}
