package mapgrid

import "fmt"

// utmOn is a zone, 1 to 60, of the Universal Transverse Mercator grid on a datum
// (NGA.SIG.0012, The Universal Grids and the Transverse Mercator and Polar
// Stereographic Map Projections, 2014, from memory): central meridians 6
// degrees apart from 177 west, scale 0.9996, false easting 500 km, and south of
// the equator a false northing of 10 000 km. On its central meridian 100 m of
// ground are 99.96 m of grid.
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
