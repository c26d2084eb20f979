package plotfolder

import (
	"slices"
	"strings"

	"crossfall/geodata"
)

// lonLatSystems are the names of longitude and latitude on WGS84 that programs
// write into a member crs: the default of RFC 7946, and its forms as EPSG code.
var lonLatSystems = []string{"CRS84", "CRS84H", "4326", "4979"}

// checkSystem refuses a file that names another coordinate system than the one
// that its coordinates are read in. The member crs is no longer part of
// GeoJSON, but programs still write it.
func (d *document) checkSystem(local bool) bool {
	n := d.root.member("crs")
	if n == nil || n.kind == jsonNull {
		return true
	}
	name := n.member("properties").word("name")
	if code := n.member("properties").member("code"); name == "" && code != nil {
		name = code.text
	}
	last := name[strings.LastIndexAny(name, ":/#")+1:]
	degrees := slices.Contains(lonLatSystems, strings.ToUpper(last))
	switch {
	case degrees && local:
		d.problem(n, "crs-contradicts", "the file says longitude and latitude, site.toml says local metres", `write coordinates = "lonlat" in site.toml, or export the file in metres`)
		return false
	case !degrees && !local:
		d.problem(n, "crs-not-read", "the coordinates are in another system than longitude and latitude",
			`export the file in EPSG:4326, or, if they are metres in the lines of heights.csv, write coordinates = "local" in site.toml`)
		return false
	}
	return true
}

// isLocal tells whether site.toml says that GeoJSON holds local metres.
func isLocal(site geodata.Site) bool { return site.Coordinates == coordinatesLocal }

// The words of site.toml for coordinates.
const (
	coordinatesLocal  = "local"
	coordinatesLonLat = "lonlat"
)
