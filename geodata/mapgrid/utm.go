package mapgrid

import (
	"fmt"
	"math"

	"github.com/paulmach/orb"
)

// UTM is a zone, 1 to 60, of the Universal Transverse Mercator grid on WGS84
// (NGA.SIG.0012, The Universal Grids and the Transverse Mercator and Polar
// Stereographic Map Projections, 2014, from memory): central meridians 6
// degrees apart from 177 west, scale 0.9996, false easting 500 km, and south of
// the equator a false northing of 10 000 km. On its central meridian 100 m of
// ground are 99.96 m of grid.
func UTM(zone int, south bool) (Grid, error) {
	if zone < 1 || zone > 60 {
		return Grid{}, fmt.Errorf("there is no UTM zone %d: zones are 1 to 60", zone)
	}
	g := utmOn(onWGS84, zone, south)
	g.EPSG = 32600 + zone
	if south {
		g.EPSG = 32700 + zone
	}
	return g, nil
}

// utmOn is a zone on another datum.
func utmOn(d Datum, zone int, south bool) Grid {
	g := Grid{
		Name: fmt.Sprintf("UTM zone %d north on %s", zone, d.Name), Datum: d,
		Longitude: float64(6*zone - 183), Scale: 0.9996, FalseEast: 500_000,
	}
	if south {
		g.Name, g.FalseNorth = fmt.Sprintf("UTM zone %d south on %s", zone, d.Name), 10_000_000
	}
	return g
}

// ZoneOf is the UTM zone of a longitude and latitude on WGS84, with the wider
// zones of southern Norway (32) and Svalbard (31, 33, 35, 37). Errors:
// ErrNotDegrees, ErrOutside south of 80 degrees south and north of 84 north.
func ZoneOf(lonLat orb.Point) (zone int, south bool, err error) {
	lon, lat := lonLat[0], lonLat[1]
	if !(math.Abs(lon) <= 180 && math.Abs(lat) <= 90) {
		return 0, false, fmt.Errorf("%g, %g: %w", lon, lat, ErrNotDegrees)
	}
	if lat < -80 || lat > mostLatitude {
		return 0, false, fmt.Errorf("latitude %g: %w", lat, ErrOutside)
	}
	zone = int(math.Floor((lon+180)/6))%60 + 1
	switch {
	case lat >= 56 && lat < 64 && lon >= 3 && lon < 12:
		zone = 32
	case lat >= 72 && lon >= 0 && lon < 42:
		zone = svalbard(lon)
	}
	return zone, lat < 0, nil
}

// svalbard is the zone between 72 and 84 degrees north, where 32, 34 and 36 are
// not used.
func svalbard(lon float64) int {
	switch {
	case lon < 9:
		return 31
	case lon < 21:
		return 33
	case lon < 33:
		return 35
	}
	return 37
}
