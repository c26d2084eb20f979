package plotfolder

import (
	"slices"
	"strconv"
	"strings"

	"crossfall/geodata"
	"crossfall/geodata/mapgrid"
)

// lonLatSystems are the names of longitude and latitude on WGS84 that programs
// write into a member crs: the default of RFC 7946, and its forms as EPSG code.
var lonLatSystems = []string{"CRS84", "CRS84H", "4326", "4979"}

// system tells what the coordinates of a file are: degrees, or metres of the frame
// of the heights, or of a map grid with its code. The member crs is no longer part
// of GeoJSON, but programs still write it. A file that names another system than it
// is read in is refused.
func (d *document) system(site geodata.Site) (degrees bool, epsg int, ok bool) {
	local := isLocal(site)
	n := d.root.member("crs")
	if n == nil || n.kind == jsonNull {
		return !local, 0, true
	}
	name := n.member("properties").word("name")
	if code := n.member("properties").member("code"); name == "" && code != nil {
		name = code.text
	}
	last := name[strings.LastIndexAny(name, ":/#")+1:]
	if slices.Contains(lonLatSystems, strings.ToUpper(last)) {
		if local {
			d.problem(n, "crs-contradicts", "the file says longitude and latitude, site.toml says local metres", `write coordinates = "lonlat" in site.toml, or export the file in metres`)
		}
		return true, 0, !local
	}
	if code, err := strconv.Atoi(last); err == nil && site.Coordinates != coordinatesLonLat {
		if _, err := mapgrid.ByCode(code); err == nil {
			return false, code, true
		}
	}
	if !local {
		d.problem(n, "crs-not-read", "the coordinates are in another system than longitude and latitude",
			`export the file in EPSG:4326, or, if they are metres in the lines of heights.csv, write coordinates = "local" in site.toml`)
	}
	return false, 0, local
}

// isLocal tells whether site.toml says that GeoJSON holds local metres.
func isLocal(site geodata.Site) bool { return site.Coordinates == coordinatesLocal }

// The words of site.toml for coordinates.
const (
	coordinatesLocal  = "local"
	coordinatesLonLat = "lonlat"
)
